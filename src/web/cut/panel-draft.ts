import type { Car, Edit, Panel } from '#car';
import { layoutsOfPanel, type PanelLayout } from '#panels';
import type { Parsed } from '#units';
import { type PlainWay, plainWays, ways } from '../tape/facing.ts';
import { knownMm } from '../tape/port-draft.ts';
import { tapeMm, type TapeUnit } from '../tape/tape-text.ts';
import { keptText, usualText } from '../tape/kept-text.ts';

export interface CornerDraft {
  readonly id: string;
  /** Rearward, right, up from the car's datum; all empty: the tapes place it. */
  readonly at: readonly [string, string, string];
}

/** A panel as it is typed: what it is of, its corners by tape, tapes from corner to corner. */
export interface PanelDraft {
  readonly id: string;
  readonly name: string;
  readonly sheet: string;
  readonly thickness: string;
  readonly known: string;
  /** A plain way, or `own` for the direction that the car has. */
  readonly outside: PlainWay | 'own' | '';
  readonly corners: readonly CornerDraft[];
  /** By "A B". */
  readonly tapes: Readonly<Record<string, string>>;
  /** Roundings, by corner; empty where it is sharp. */
  readonly radii: Readonly<Record<string, string>>;
  /** Part whose scan its corners stand on. */
  readonly onScan: string;
  readonly mirrorOf: string;
  /** Right of the car's middle; empty: the middle. */
  readonly mirrorPlane: string;
  readonly grain: '' | 'along' | 'across';
  readonly removable: boolean;
  readonly givesWay: boolean;
}

const letters = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';
const blank = ['', '', ''] as const;

/** The next letter that no corner has. */
export function nextCornerId(taken: readonly string[]): string {
  for (let n = 0; ; n++) {
    const id = n < letters.length ? letters[n]! : `P${n}`;
    if (!taken.includes(id)) return id;
  }
}

/** Four corners to begin with. */
export function emptyPanel(car: Car): PanelDraft {
  const taken = (car.panels ?? []).map(({ id }) => id);
  let n = taken.length + 1;
  while (taken.includes(`PN${n}`)) n++;
  return {
    id: `PN${n}`,
    name: '',
    sheet: '5052-H32',
    thickness: '',
    known: usualText(TAPE_MM),
    outside: '',
    corners: ['A', 'B', 'C', 'D'].map((id) => ({ id, at: blank })),
    tapes: {},
    radii: {},
    onScan: '',
    mirrorOf: '',
    mirrorPlane: '',
    grain: '',
    removable: false,
    givesWay: false,
  };
}

const TAPE_MM = 5;

export function panelDraft(panel: Panel): PanelDraft {
  const mm = (value: number): string => keptText(value, 0.01);
  const { outside } = panel;
  return {
    id: panel.id,
    name: panel.name ?? '',
    sheet: panel.sheet ?? '5052-H32',
    thickness: keptText(panel.thicknessMm, 1e-4),
    known: mm(panel.knownToMm ?? TAPE_MM),
    outside:
      outside === undefined ? '' : (plainWays.find((way) => ways[way].every((x, i) => x === outside[i])) ?? 'own'),
    corners: (panel.corners ?? []).map(({ id, atMm }) => ({
      id,
      at: atMm === undefined ? blank : [mm(atMm[0]), mm(atMm[1]), mm(atMm[2])],
    })),
    tapes: Object.fromEntries((panel.tapes ?? []).map(({ from, to, mm: read }) => [`${from} ${to}`, mm(read)])),
    radii: Object.fromEntries(
      (panel.corners ?? []).flatMap(({ id, radiusMm = 0 }) => (radiusMm > 0 ? [[id, mm(radiusMm)]] : [])),
    ),
    onScan: panel.onScan ?? '',
    mirrorOf: panel.mirrorOf?.panel ?? '',
    mirrorPlane: panel.mirrorOf?.planeYMm === undefined ? '' : mm(panel.mirrorOf.planeYMm),
    grain: panel.grain ?? '',
    removable: panel.removable ?? false,
    givesWay: panel.givesWay ?? false,
  };
}

/** Up to so many corners every pair can be taped; beyond, edges and what is taped already. */
const ALL_PAIRS = 5;

/** From which corner to which a tape is of use: edges first, then diagonals; those that were read always. */
export function tapePairs({ corners, tapes }: Pick<PanelDraft, 'corners' | 'tapes'>): readonly string[] {
  const ids = corners.map(({ id }) => id);
  const edges = ids.map((id, i) => `${id} ${ids[(i + 1) % ids.length]!}`);
  const all = ids.flatMap((a, i) => ids.slice(i + 1).map((b) => `${a} ${b}`));
  const wanted = [...edges, ...(ids.length <= ALL_PAIRS ? all : [])];
  const read = Object.keys(tapes).filter((pair) => pair.split(' ').every((id) => ids.includes(id)));
  // A tape that the car has may run the other way: it keeps its own.
  const isTwin = (a: string, b: string): boolean => a === b || a === b.split(' ').reverse().join(' ');
  const out: string[] = [];
  for (const pair of wanted) {
    const own = read.find((one) => isTwin(one, pair)) ?? pair;
    if (!out.some((one) => isTwin(one, own))) out.push(own);
  }
  return [...out, ...read.filter((one) => !out.includes(one))];
}

const no = (fault: string): Parsed<never> => ({ ok: false, fault, ways: [] });
const tenMicrons = (mm: number): number => Math.round(mm * 100) / 100 + 0;
const FURTHEST_MM = 100_000;
const THICKEST_MM = 50;
const LARGEST_RADIUS_MM = 10_000;
const axes = ['rearward', 'right', 'up'] as const;

/** The sheet's thickness; a caliper is read in tenths, a gauge in thousandths of an inch. */
export function thicknessMm(text: string, unit: TapeUnit): Parsed<number> {
  if (text.trim() === '') return no('is empty; a thickness such as 1.2 mm or 0.063 in is wanted');
  const read = tapeMm(text, unit);
  if (read.ok && (read.value <= 0 || read.value > THICKEST_MM))
    return no(`"${text}" is no thickness; above 0, at most ${THICKEST_MM} mm is allowed`);
  return read.ok ? { ok: true, value: Math.round(read.value * 1e4) / 1e4 } : read;
}

/** By how much a corner is rounded; nothing is sharp. */
export function radiusMm(text: string, unit: TapeUnit): Parsed<number> {
  if (text.trim() === '') return { ok: true, value: 0 };
  const read = tapeMm(text, unit);
  if (read.ok && (read.value < 0 || read.value > LARGEST_RADIUS_MM))
    return no(`"${text}" is no radius; 0 to ${LARGEST_RADIUS_MM} mm is allowed`);
  return read.ok ? { ok: true, value: tenMicrons(read.value) } : read;
}

export const tapesAt = ({ tapes }: PanelDraft, id: string): number =>
  Object.entries(tapes).filter(([pair, text]) => text.trim() !== '' && pair.split(' ').includes(id)).length;

/** Where a corner is; undefined where tapes alone tell it. */
function cornerPlace(
  draft: PanelDraft,
  { id, at }: CornerDraft,
  unit: TapeUnit,
): Parsed<[number, number, number] | undefined> {
  if (at.every((text) => text.trim() === ''))
    return tapesAt(draft, id) >= 2
      ? { ok: true, value: undefined }
      : no(`corner ${id}: it has no place; three numbers, or tapes to two other corners at least`);
  const values: number[] = [];
  for (const [i, text] of at.entries()) {
    const read = tapeMm(text, unit);
    if (!read.ok) return { ...read, fault: `corner ${id}, ${axes[i]!}: ${read.fault}` };
    if (Math.abs(read.value) > FURTHEST_MM) return no(`corner ${id}, ${axes[i]!}: "${text}" is further than 100 m`);
    values.push(tenMicrons(read.value));
  }
  return { ok: true, value: values as [number, number, number] };
}

export const idFault = (id: string, taken: readonly string[]): string | undefined =>
  !/^[\p{L}\p{N}][\p{L}\p{N}_-]{0,63}$/u.test(id)
    ? `"${id}" is no id; letters, digits, - and _ are allowed`
    : taken.includes(id)
      ? `there is a panel ${id} already`
      : undefined;

/** Where its corners and tapes are read, or the first thing that is wrong. */
function measuredFrom(
  draft: PanelDraft,
  was: Panel | undefined,
  unit: TapeUnit,
): Parsed<Pick<Panel, 'corners' | 'tapes'>> {
  if (draft.corners.length < 3) return no('three corners or more are wanted');
  const corners: NonNullable<Panel['corners']> = [];
  for (const corner of draft.corners) {
    const place = cornerPlace(draft, corner, unit);
    if (!place.ok) return place;
    const round = radiusMm(draft.radii[corner.id] ?? '', unit);
    if (!round.ok) return { ...round, fault: `corner ${corner.id}, rounded by: ${round.fault}` };
    const { atMm: _, radiusMm: _r, ...rest } = was?.corners?.find(({ id }) => id === corner.id) ?? { id: corner.id };
    corners.push({
      ...rest,
      ...(place.value === undefined ? {} : { atMm: place.value }),
      ...(round.value === 0 ? {} : { radiusMm: round.value }),
    });
  }
  const tapes: NonNullable<Panel['tapes']> = [];
  for (const pair of tapePairs(draft)) {
    const text = draft.tapes[pair] ?? '';
    if (text.trim() === '') continue;
    const [from = '', to = ''] = pair.split(' ');
    const read = tapeMm(text, unit);
    if (!read.ok) return { ...read, fault: `tape ${from} to ${to}: ${read.fault}` };
    if (read.value <= 0) return no(`tape ${from} to ${to}: "${text}" is no distance; above 0 is allowed`);
    const own = was?.tapes?.find((tape) => tape.from === from && tape.to === to);
    tapes.push({ ...own, from, to, mm: tenMicrons(read.value) });
  }
  return { ok: true, value: { corners, ...(tapes.length === 0 ? {} : { tapes }) } };
}

/** The panel that a form says; what the form does not know of it stays, but for edges between corners that are gone. */
export function panelFrom(car: Car, draft: PanelDraft, was: Panel | undefined, unit: TapeUnit): Parsed<Panel> {
  const taken = (car.panels ?? []).map(({ id }) => id).filter((id) => id !== was?.id);
  const wrongId = idFault(draft.id, taken);
  if (wrongId !== undefined) return no(wrongId);
  const thick = thicknessMm(draft.thickness, unit);
  if (!thick.ok) return { ...thick, fault: `thickness: ${thick.fault}` };
  const known = knownMm(draft.known, unit);
  if (!known.ok) return { ...known, fault: `known to: ${known.fault}` };
  const plane: Parsed<number> =
    draft.mirrorPlane.trim() === '' ? { ok: true, value: 0 } : tapeMm(draft.mirrorPlane, unit);
  if (!plane.ok) return { ...plane, fault: `plane of the mirror: ${plane.fault}` };
  const measured = was?.template === undefined ? measuredFrom(draft, was, unit) : ({ ok: true, value: {} } as const);
  if (!measured.ok) return measured;
  const {
    corners: _c,
    tapes: _t,
    name: _n,
    outside,
    mirrorOf,
    onScan: _s,
    grain: _g,
    removable: _r,
    givesWay: _w,
    ...rest
  } = was ?? {};
  const panel: Panel = {
    ...rest,
    id: draft.id,
    ...(draft.name.trim() === '' ? {} : { name: draft.name.trim() }),
    sheet: draft.sheet,
    thicknessMm: thick.value,
    knownToMm: known.value,
    ...measured.value,
    ...outsideOf(draft, outside),
    ...(draft.onScan === '' ? {} : { onScan: draft.onScan }),
    ...(draft.mirrorOf === '' ? {} : { mirrorOf: { panel: draft.mirrorOf, ...planeOf(draft, plane.value, mirrorOf) } }),
    ...(draft.grain === '' ? {} : { grain: draft.grain }),
    ...(draft.removable ? { removable: true } : {}),
    ...(draft.givesWay ? { givesWay: true } : {}),
  };
  return { ok: true, value: withoutLost(panel).panel };
}

/** The plane of the mirror as it is kept: what was not touched stays as it was said. */
function planeOf(
  { mirrorPlane }: PanelDraft,
  mm: number,
  was: Panel['mirrorOf'],
): Pick<NonNullable<Panel['mirrorOf']>, 'planeYMm'> {
  if (mirrorPlane.trim() === '') return {};
  return {
    planeYMm: was?.planeYMm !== undefined && Math.abs(was.planeYMm - mm) < 1e-6 ? was.planeYMm : tenMicrons(mm),
  };
}

function outsideOf({ outside }: PanelDraft, was: Panel['outside']): Pick<Panel, 'outside'> {
  if (outside === 'own') return was === undefined ? {} : { outside: was };
  if (outside === '') return {};
  const [x, y, z] = ways[outside];
  return { outside: [x, y, z] };
}

/** What was said of corners and edges that are there no longer goes with them, and is named. */
export function withoutLost(panel: Panel): { readonly panel: Panel; readonly lost: readonly string[] } {
  if (panel.corners === undefined) return { panel, lost: [] };
  const ids = panel.corners.map(({ id }) => id);
  const isEdge = ({ from, to }: { from: string; to: string }): boolean => {
    const [a, b] = [ids.indexOf(from), ids.indexOf(to)];
    return a >= 0 && b >= 0 && [1, ids.length - 1].includes(Math.abs(a - b));
  };
  const { edges = [], creases = [], windows = [], top, ...rest } = panel;
  const isCrease = ({ from, to }: { from: string; to: string }): boolean => ids.includes(from) && ids.includes(to);
  const kept = {
    edges: edges.filter(isEdge),
    creases: creases.filter((crease) => isCrease(crease) && !isEdge(crease)),
  };
  const letGo = windows.filter(({ along }) => along !== undefined && !isEdge(along));
  return {
    panel: {
      ...rest,
      ...(kept.edges.length === 0 ? {} : { edges: kept.edges }),
      ...(kept.creases.length === 0 ? {} : { creases: kept.creases }),
      ...(windows.length === 0
        ? {}
        : { windows: windows.map((window) => (letGo.includes(window) ? withoutEdge(window) : window)) }),
      ...(top === undefined || !isEdge(top) ? {} : { top }),
    },
    lost: [
      ...edges.filter((edge) => !isEdge(edge)).map(({ from, to }) => `edge ${from}-${to}`),
      ...creases.filter((crease) => !kept.creases.includes(crease)).map(({ from, to }) => `crease ${from}-${to}`),
      ...letGo.map(({ id }) => `the edge that window ${id} follows`),
    ],
  };
}

type Window = NonNullable<Panel['windows']>[number];

const withoutEdge = ({ along: _edge, centreAlongMm: _along, centreAcrossMm: _across, ...window }: Window): Window =>
  window;

/** The edits that put a panel in, or change the one that is there, in one step. */
export function panelEdits(was: Panel | undefined, panel: Panel): readonly Edit[] {
  if (was === undefined) return [{ do: 'add-panel', panel }];
  const fields = [...new Set([...Object.keys(was), ...Object.keys(panel)])] as (keyof Panel)[];
  const edits = fields
    .filter((field) => JSON.stringify(was[field]) !== JSON.stringify(panel[field]))
    .map(
      (field) =>
        ({
          do: 'set-panel',
          panel: was.id,
          field,
          ...(panel[field] === undefined ? {} : { value: panel[field] }),
        }) as Edit,
    );
  return edits.length === 0 ? [] : [{ do: 'several', edits }];
}

/** The panel laid out as it would be, in the browser: without what goes through it and what it does to its neighbours, which the server adds. */
export const laidAsTyped = (car: Car, panel: Panel): readonly PanelLayout[] => layoutsOfPanel(car, panel);
