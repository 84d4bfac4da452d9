import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { FlatPattern } from '#panels';
import dxfParser, { type IDxf } from 'dxf-parser';
import { beforeAll, describe, expect, it } from 'vitest';
import { systemNeed } from '../../scripts/system-needs.mjs';
import { chance, lid } from '../../test/panels/shapes.ts';
import { dxfText } from './dxf-text.ts';

interface Entity {
  readonly kind: string;
  readonly layer: string;
  readonly closed?: boolean;
  readonly points?: readonly (readonly number[])[];
  readonly centre?: readonly number[];
  readonly radius?: number;
  readonly from?: readonly number[];
  readonly to?: readonly number[];
  readonly at?: readonly number[];
  readonly text?: string;
  readonly turnDeg?: number;
}

interface Read {
  readonly errors: readonly string[];
  readonly fixes: readonly string[];
  readonly insunits: number;
  readonly entities: readonly Entity[];
}

const script = fileURLToPath(new URL('../../test/panels/read-dxf.py', import.meta.url));
/** All in one go: the program takes longer to start than to read. */
const readByPython = (dxfs: readonly string[]): Read[] =>
  JSON.parse(execFileSync('/usr/bin/python3', [script], { input: JSON.stringify(dxfs), encoding: 'utf8' })) as Read[];

/** Its types speak of a namespace, the module itself is the class. */
const Parser = dxfParser as unknown as new () => { parseSync: (text: string) => IDxf | null };

/** What dxf-parser makes of it, in the same words. */
function readByParser(dxf: string): Entity[] {
  const read = new Parser().parseSync(dxf);
  // Each kind has its own fields; the library's type names those that all have.
  return (read?.entities ?? []).map((entity): Entity => {
    const e = entity as unknown as Record<string, unknown> & {
      vertices: { x: number; y: number; bulge?: number }[];
      center: { x: number; y: number };
      radius: number;
      shape: boolean;
    };
    const row = { kind: entity.type, layer: entity.layer };
    if (entity.type === 'LWPOLYLINE')
      return { ...row, closed: e.shape, points: e.vertices.map((v) => [v.x, v.y, v.bulge ?? 0]) };
    if (entity.type === 'CIRCLE') return { ...row, centre: [e.center.x, e.center.y], radius: e.radius };
    if (entity.type === 'LINE') {
      const [a, b] = e.vertices;
      return { ...row, from: [a!.x, a!.y], to: [b!.x, b!.y] };
    }
    const start = e['startPoint'] as { x: number; y: number };
    return { ...row, at: [start.x, start.y], text: e['text'] as string };
  });
}

/** What must stand on the layers that are worked from, straight from the pattern. */
const wanted = (pattern: FlatPattern): Entity[] => [
  ...[pattern.outline, ...pattern.cutOuts.map((cut) => cut.outline)].map((outline) => ({
    kind: 'LWPOLYLINE',
    layer: 'CUT',
    closed: true,
    points: outline.map(({ at, bulge }) => [at[0], at[1], bulge ?? 0]),
  })),
  ...(pattern.slits ?? []).map(({ from, to }) => ({ kind: 'LINE', layer: 'CUT', from: [...from], to: [...to] })),
  ...pattern.holes.map((hole) => ({
    kind: 'CIRCLE',
    layer: 'DRILL',
    centre: [...hole.at],
    radius: hole.diameterMm / 2,
  })),
  ...pattern.folds.map((fold) => ({
    kind: 'LINE',
    layer: fold.way === 'up' ? 'FOLD-UP' : 'FOLD-DOWN',
    from: [...fold.from],
    to: [...fold.to],
  })),
];

/** Entities of the layers that are worked from, without the slots, which are looked at by themselves. */
const worked = (entities: readonly Entity[]): Entity[] =>
  entities.filter((e) => !['MARK', 'WORDS'].includes(e.layer) && !isSlot(e));
const isSlot = (e: Entity): boolean => e.points?.length === 4 && e.points.filter((p) => p[2] === 1).length === 2;

/** Whatever a name may hold: codes of drawing programs, ends of line, quotes, letters of all kinds. */
function hostileTexts(): string[] {
  const draw = chance(11);
  const signs = [
    '%%c',
    '%%d',
    '%%%',
    '%%u',
    '\\U+00E9',
    '\\M+1',
    '^J',
    '^ ',
    '\n',
    '\r\n0\nEOF\n',
    '"',
    "'",
    '\\P',
    '{',
    ';',
  ];
  signs.push('漢字', '⌀½″', 'Ö', '\u0000', '\u2028', '\uD800', '😀', 'plain', ' ', '%', '\\', '^', 'U+0041');
  return Array.from({ length: 300 }, () =>
    Array.from({ length: 1 + Math.floor(draw() * 8) }, () => signs[Math.floor(draw() * signs.length)]!).join(''),
  );
}

const texts = hostileTexts();
const hostile: FlatPattern = {
  ...lid,
  name: texts.join(''),
  holes: [],
  slots: [],
  folds: [],
  words: texts.map((text, i) => ({ at: [0, i], text, heightMm: 1, turnDeg: 0 })),
};

describe.skipIf(!systemNeed('python3-ezdxf').isMet)('a panel as DXF, read by ezdxf', () => {
  let reads: readonly Read[] = [];
  beforeAll(() => {
    reads = readByPython([
      dxfText({ patterns: [lid] }),
      dxfText({ patterns: [hostile] }),
      dxfText({ patterns: [lid], sheets: [{ at: [-10, -10], sizeMm: [2000, 1000], name: 'sheet 1' }] }),
    ]);
  });

  it('is clean, in millimetres, and holds each outline, hole and fold as it is', () => {
    const read = reads[0]!;
    expect([read.errors, read.fixes, read.insunits]).toEqual([[], [], 4]);
    expect(worked(read.entities)).toEqual(wanted(lid));
  });

  it('draws a slot round at its ends, and marks the middle of every hole and both ends of a slot', () => {
    const { entities } = reads[0]!;
    const slot = entities.find(isSlot)!;
    // hand: 11 long, 5.5 wide at 30 degrees about 300, 330: its straight sides are 5.5 long, 2.75 off the middle line.
    const [c, s] = [Math.cos(Math.PI / 6), Math.sin(Math.PI / 6)];
    const corner = (a: number, b: number) => [300 + a * c - b * s, 330 + a * s + b * c];
    for (const [i, [a, b]] of (
      [
        [-2.75, -2.75],
        [2.75, -2.75],
        [2.75, 2.75],
        [-2.75, 2.75],
      ] as const
    ).entries()) {
      expect(slot.points![i]![0]).toBeCloseTo(corner(a, b)[0]!, 9);
      expect(slot.points![i]![1]).toBeCloseTo(corner(a, b)[1]!, 9);
    }
    const marks = entities.filter((e) => e.kind === 'LINE' && e.layer === 'MARK');
    // hand: it is drilled 2.75 either side of its middle, along 30 degrees.
    const ends = [corner(-2.75, 0), corner(2.75, 0)] as [number, number][];
    for (const at of [...lid.holes.map((hole) => hole.at), ...ends]) {
      const through = marks.filter(
        (e) =>
          Math.abs((e.from![0]! + e.to![0]!) / 2 - at[0]) < 1e-9 &&
          Math.abs((e.from![1]! + e.to![1]!) / 2 - at[1]) < 1e-9,
      );
      expect(through).toHaveLength(2);
    }
  });

  it('gives back any text, letter for letter but for its spaces', () => {
    const read = reads[1]!;
    expect([read.errors, read.fixes]).toEqual([[], []]);
    // ezdxf drops carets at the end of a text.
    const bare = (text: string) => text.replace(/[\p{Cc}\p{Zl}\p{Zp}\p{Cs}\s]/gu, '').replace(/\^+$/u, '');
    const back = new Map(read.entities.filter((e) => e.kind === 'TEXT').map((e) => [e.at!.join(), bare(e.text!)]));
    for (const [i, text] of texts.entries()) expect(back.get(`0,${i}`) ?? '').toBe(bare(text));
  });

  it('writes sheets apart from what is cut', () => {
    const read = reads[2]!;
    expect(read.errors).toEqual([]);
    expect(read.entities.find((e) => e.layer === 'SHEET' && e.kind === 'LWPOLYLINE')?.points).toEqual([
      [-10, -10, 0],
      [1990, -10, 0],
      [1990, 990, 0],
      [-10, 990, 0],
    ]);
    expect(worked(read.entities).filter((e) => e.layer !== 'SHEET')).toEqual(wanted(lid));
  });
});

describe('a panel as DXF', () => {
  it('is read by dxf-parser entity for entity', () => {
    expect(worked(readByParser(dxfText({ patterns: [lid] })))).toEqual(wanted(lid));
  });

  it('holds a round opening as a circle', () => {
    const round = {
      name: 'W',
      outline: [
        { at: [130, 100] as const, bulge: 1 },
        { at: [70, 100] as const, bulge: 1 },
      ],
    };
    const read = readByParser(dxfText({ patterns: [{ ...lid, cutOuts: [round] }] }));
    expect(read).toContainEqual({ kind: 'CIRCLE', layer: 'CUT', centre: [100, 100], radius: 30 });
  });

  it('is the same text each time', () => {
    expect(dxfText({ patterns: [lid] })).toBe(dxfText({ patterns: [lid] }));
  });
});
