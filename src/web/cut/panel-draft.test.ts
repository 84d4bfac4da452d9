import { describe, expect, it } from 'vitest';
import { applyEdit, type Car, carFrom, type Panel } from '#car';
import {
  emptyPanel,
  nextCornerId,
  panelDraft,
  type PanelDraft,
  panelEdits,
  panelFrom,
  tapePairs,
} from './panel-draft.ts';
import { begunAsMirror } from './mirror-draft.ts';
import { laidAsTyped, withoutLost } from './panel-draft.ts';

const reading = carFrom({ fairlead: 1, name: 'Shed special', parts: [], movers: [], lines: [] });
if (!reading.ok) throw new Error('no car');
const { car } = reading;

const typed = (change: Partial<PanelDraft> = {}): PanelDraft => ({
  ...emptyPanel(car),
  thickness: '0.063 in',
  corners: [
    { id: 'A', at: ['0', '0', '10 in'] },
    { id: 'B', at: ['16 1/2', '0', '10'] },
    { id: 'C', at: ['16 1/2', '7', '10'] },
    { id: 'D', at: ['0', '7', '10'] },
  ],
  ...change,
});
const made = (draft: PanelDraft, was?: Panel): Panel => {
  const read = panelFrom(car, draft, was, 'in');
  if (!read.ok) throw new Error(read.fault);
  return read.value;
};
const fault = (draft: PanelDraft): string => {
  const read = panelFrom(car, draft, undefined, 'in');
  return read.ok ? 'none' : read.fault;
};

describe('a panel as it is typed', () => {
  it('is in millimetres of the car, to a hundredth; the sheet to its thousandth of an inch', () => {
    const panel = made(typed());
    // hand: 16.5 * 25.4 = 419.1; 7 * 25.4 = 177.8; 0.063 * 25.4 = 1.6002.
    expect(panel.corners!.map(({ atMm }) => atMm)).toEqual([
      [0, 0, 254],
      [419.1, 0, 254],
      [419.1, 177.8, 254],
      [0, 177.8, 254],
    ]);
    expect(panel.thicknessMm).toBe(1.6002);
    expect(laidAsTyped(car, panel)[0]!.edges.map(({ lengthMm }) => Math.round(lengthMm * 10) / 10)).toEqual([
      419.1, 177.8, 419.1, 177.8,
    ]);
  });

  it.each([
    [
      'a corner without a place',
      { corners: typed().corners.map((c, i) => (i === 3 ? { ...c, at: ['', '', ''] as const } : c)) },
      /^corner D: it has no place/u,
    ],
    [
      'a number that is none',
      { corners: typed().corners.map((c, i) => (i === 1 ? { ...c, at: ['16 1/2', 'x', '10'] as const } : c)) },
      /^corner B, right: /u,
    ],
    ['a sheet as thick as a plate', { thickness: '60 mm' }, /^thickness: "60 mm" is no thickness/u],
    ['a tape of nothing', { tapes: { 'A C': '0' } }, /^tape A to C: "0" is no distance/u],
    ['an id with a space', { id: 'PN 1' }, /^"PN 1" is no id/u],
  ] as const)('says by the place what is wrong: %s', (_, change, words) => {
    expect(fault(typed(change))).toMatch(words);
  });

  it('lets tapes alone tell a corner', () => {
    const corners = typed().corners.map((c, i) => (i === 2 ? { ...c, at: ['', '', ''] as const } : c));
    const panel = made(typed({ corners, tapes: { 'B C': '7', 'C D': '16 1/2', 'A C': '17.92' } }));
    expect(panel.corners![2]).toEqual({ id: 'C' });
    expect(laidAsTyped(car, panel)[0]!.flats).toHaveLength(1);
  });

  it('comes back as it was when nothing is touched, with what the form does not know', () => {
    const was: Panel = {
      ...made(typed({ tapes: { 'C A': '17.92' }, outside: 'up' })),
      bendRadiusMm: 2,
      note: 'kept',
      edges: [{ from: 'A', to: 'B', sealed: true }],
    };
    expect(panelEdits(was, made(panelDraft(was), was))).toEqual([]);
  });

  it('keeps roundings, the scan and the plane of the mirror; a corner without a radius is sharp again', () => {
    const was: Panel = { ...made(typed()), onScan: 'block', mirrorOf: { panel: 'PN9', planeYMm: 12 } };
    was.corners![1] = { ...was.corners![1]!, radiusMm: 25 };
    expect(panelEdits(was, made(panelDraft(was), was))).toEqual([]);
    const next = made({ ...panelDraft(was), radii: { A: '1/2 in' }, mirrorPlane: '' }, was);
    expect(next.corners!.map(({ radiusMm }) => radiusMm)).toEqual([12.7, undefined, undefined, undefined]);
    expect(next.mirrorOf).toEqual({ panel: 'PN9' });
    expect(fault({ ...panelDraft(was), radii: { B: '-2 mm' } })).toMatch(
      /^corner B, rounded by: "-2 mm" is no radius/u,
    );
  });

  it('hand: begins as the mirror of a panel at 10 mm right of the middle: 250 right becomes 230 left', () => {
    const master: Panel = { id: 'M', thicknessMm: 1.2, corners: [{ id: 'A', atMm: [1370, 250, 780] }] };
    const begun = begunAsMirror({ ...typed(), mirrorPlane: '10 mm' }, master, 'mm');
    expect(begun.corners).toEqual([{ id: 'A', at: ['1370 mm', '-230 mm', '780 mm'] }]);
  });

  it('is put in and changed by edits that the car takes', () => {
    const panel = made(typed());
    const withPanel = applyEdit(car, panelEdits(undefined, panel)[0]!).car as Car;
    const next = made({ ...panelDraft(panel), thickness: '2 mm', givesWay: true }, panel);
    const edits = panelEdits(panel, next);
    expect(applyEdit(withPanel, edits[0]!).car.panels).toEqual([next]);
  });

  it('names what goes with a corner that is taken out', () => {
    const was: Panel = {
      ...made(typed()),
      edges: [
        { from: 'A', to: 'B', sealed: true },
        { from: 'C', to: 'D', sealed: true },
      ],
      windows: [{ id: 'V1', shape: 'slot', along: { from: 'C', to: 'D' }, centreAlongMm: 30 }],
    };
    const left = withoutLost({ ...was, corners: was.corners!.slice(0, 3) });
    expect(left.lost).toEqual(['edge C-D', 'the edge that window V1 follows']);
    expect(left.panel.edges).toEqual([was.edges![0]]);
    expect(left.panel.windows).toEqual([{ id: 'V1', shape: 'slot' }]);
  });

  it('asks for edges and diagonals, and keeps a tape the way it was read', () => {
    expect(tapePairs(typed({ tapes: { 'C A': '1' } }))).toEqual(['A B', 'B C', 'C D', 'D A', 'C A', 'B D']);
    expect(nextCornerId(['A', 'B', 'D'])).toBe('C');
  });
});
