import { type Car, splitPortRef } from '#car';
import { type Bounds, joined, type TriangleMesh, type Vec } from '#geometry';
import { formatInches, formatNumber, mmPerInch } from '#units';
import type { Drawing, Role, Shape, Spot } from './drawing.ts';
import { conventionWords } from './line-card.ts';
import { Stack } from './stack.ts';
import { cutText, row } from './text-block.ts';
import { type DrawnLine, dutyRole, panelPen, TAG_ROW, viewSize, wallView } from './wall-view.ts';

export interface WallWish {
  /** Or a sheet of any size, lying [mm]. */
  readonly paper?: 'A3' | 'A2' | { readonly width: number; readonly height: number };
  /** Usual size of its words [mm]; names on the parts are 0.72 of it. */
  readonly size?: number;
  readonly meshes?: ReadonlyMap<string, TriangleMesh>;
  /** Ids of lines without a way: named, not drawn. */
  readonly refused?: readonly string[];
  /** Outlines of the panels that close the bay, in car axes [mm]: drawn as a thin broken edge over what lies behind. */
  readonly panels?: readonly { readonly id: string; readonly corners: readonly Vec[] }[];
  /** Cuts to 1/16 in, the scale bar in whole inches. */
  readonly inches?: boolean;
}

const PAPERS_MM = { A3: { width: 420, height: 297 }, A2: { width: 594, height: 420 } } as const;
const MARGIN_MM = 10;
/** Scales that a rule is marked in or that a head divides by. */
const SCALES = [1, 2, 2.5, 4, 5, 6, 7.5, 8, 10, 12.5, 15, 20, 25, 30, 40, 50, 75, 100] as const;
/** Width of the column with title and list, least and most [em]. */
const LEAST_COLUMN = 22;
const MOST_COLUMN = 58;
/** Room round the lines and what they join [mm of the car]. */
const AROUND_MM = 40;

/** The car from its left and from above, to scale, every line in its place with its id: for the wall of the workshop. */
export function wallMap(car: Car, lines: readonly DrawnLine[], wish: WallWish = {}): Drawing {
  const paper = typeof wish.paper === 'object' ? wish.paper : PAPERS_MM[wish.paper ?? 'A2'];
  const size = wish.size ?? (wish.paper === 'A3' ? 2.6 : 3.2);
  const least = size * LEAST_COLUMN;
  const room = { width: paper.width - 2 * MARGIN_MM - least - size * 2, height: paper.height - 2 * MARGIN_MM };
  const bounds = shownBounds(car, lines);
  const gaps = size * (4 * TAG_ROW + 3.8);
  const reduced =
    SCALES.find((k) => {
      const side = viewSize('left', { bounds, scale: 1 / k });
      const top = viewSize('above', { bounds, scale: 1 / k });
      return side.width <= room.width && side.height + top.height + gaps <= room.height;
    }) ?? SCALES.at(-1)!;
  const view = {
    car,
    lines,
    panels: wish.panels ?? [],
    meshes: wish.meshes ?? new Map<string, TriangleMesh>(),
    bounds,
    scale: 1 / reduced,
    size,
  };
  const side = viewSize('left', view);
  const titleRow = size * 1.6;
  const second = titleRow + side.height + 2 * TAG_ROW * size + size * 0.6;
  const columnWidth = Math.min(size * MOST_COLUMN, paper.width - 2 * MARGIN_MM - side.width - size * 2);
  // A list too long for the sheet has its names cut to a row each; one that is longer still is left to the index.
  const column = LISTINGS.map((listing) => titleColumn(car, lines, wish, reduced, columnWidth, size, listing)).find(
    (made, i) => made.height <= paper.height - 2 * MARGIN_MM - size * STAMP_ROWS || i === LISTINGS.length - 1,
  )!;
  const group = (offset: Spot, shapes: readonly Shape[]): Shape => ({ kind: 'group', offset, shapes });
  return {
    title: `Wall map: ${car.name ?? 'the car'}`,
    description: `The car from its left and from above, 1 to ${reduced}, with ${lines.length} lines: ${lines.map(({ line }) => `${line.id} ${line.name ?? line.duty}`).join(', ')}.`,
    unit: 'mm',
    width: paper.width,
    height: paper.height,
    shapes: [
      row([MARGIN_MM, MARGIN_MM + size], 'From the left; the front is at the left', { size, weight: 'bold' }),
      group([MARGIN_MM, MARGIN_MM + titleRow], wallView('left', view)),
      row([MARGIN_MM, MARGIN_MM + second + size], "From above; the car's right is below", { size, weight: 'bold' }),
      group([MARGIN_MM, MARGIN_MM + second + titleRow], wallView('above', view)),
      group([paper.width - MARGIN_MM - columnWidth, MARGIN_MM], column.shapes),
    ],
  };
}

/** Left free below the list, for what is stamped on the sheet when it is printed [em]. */
const STAMP_ROWS = 1.6;
const LISTINGS = ['whole', 'a row each', 'none'] as const;

/** All lines, and the parts that they join. */
function shownBounds(car: Car, lines: readonly DrawnLine[]): Bounds {
  const ends = new Set(car.lines.flatMap((line) => [splitPortRef(line.from).part, splitPortRef(line.to).part]));
  const points: Vec[] = [
    ...lines.flatMap(({ bodies }) => bodies.flatMap((body) => body.pathMm)),
    ...car.parts.filter((part) => ends.has(part.id)).flatMap((part) => part.ports.map((port) => port.atMm)),
  ];
  const at = points.map((p): Bounds => ({ min: p, max: p }));
  const all = at.length === 0 ? { min: [0, 0, 0] as Vec, max: [1000, 1000, 1000] as Vec } : at.reduce(joined);
  const out = (v: Vec, by: number): Vec => [v[0] + by, v[1] + by, v[2] + by];
  return { min: out(all.min, -AROUND_MM), max: out(all.max, AROUND_MM) };
}

const kinds: readonly (readonly [Role, string])[] = [
  ['oil', 'oil'],
  ['water', 'water'],
  ['fuel', 'fuel'],
  ['brake', 'brake, clutch'],
  ['air', 'air'],
];

/** Title, scale, legend, the list of lines, how to read it. */
function titleColumn(
  car: Car,
  lines: readonly DrawnLine[],
  wish: WallWish,
  reduced: number,
  width: number,
  size: number,
  listing: (typeof LISTINGS)[number],
): Stack {
  const stack = new Stack(width);
  const inches = wish.inches === true;
  const name = car.name ?? 'Car';
  stack.text(listing === 'whole' ? name : cutText(name, width * 2, size * 1.7, 'bold'), {
    size: size * 1.7,
    weight: 'bold',
  });
  stack.text('Wall map of the lines', { size: size * 1.2 }).space(size * 0.6);
  stack
    .text(`Scale 1 : ${reduced}${typeof wish.paper === 'object' ? '' : ` on ${wish.paper ?? 'A2'}`}`, {
      size,
      weight: 'bold',
    })
    .space(size * 0.4);
  stack.put(scaleBar(reduced, width, size, inches), size * 3).space(size * 0.4);
  stack.text(conventionWords(inches), { size: size * 0.85, role: 'soft' }).space(size * 0.8);
  if (lines.some(({ cutsMm }) => cutsMm !== undefined))
    stack
      .text(`Behind each line: what is cut for it, from its first port [${inches ? 'in' : 'mm'}].`, {
        size: size * 0.85,
        role: 'soft',
      })
      .space(size * 0.5);
  const used = kinds.filter(([role]) => lines.some(({ line }) => dutyRole(line.duty) === role));
  for (const [role, words] of used) stack.put(sample(role, size), 0).text(words, { size }, size * 3.4);
  stack.put(hotSample(size), 0).text('hot, keep off', { size }, size * 3.4);
  stack.put(movingSample(size), 0).text('moves', { size }, size * 3.4);
  if ((wish.panels ?? []).length > 0) stack.put(panelSample(size), 0).text('panel, seen through', { size }, size * 3.4);
  stack.space(size * 0.8);
  if (listing !== 'none') lineList(stack, lines, size, listing === 'whole', inches);
  const refused = wish.refused ?? [];
  if (refused.length > 0)
    stack
      .space(size * 0.6)
      .text(`No way yet, not drawn: ${refused.join(', ')}`, { size, weight: 'bold', role: 'stop' });
  return stack
    .space(size * 0.6)
    .text("A picture to find things by; measure on the car. The event's rules come first.", {
      size: size * 0.85,
      role: 'soft',
    });
}

/** Every line by its id, with what is cut for it. */
function lineList(stack: Stack, lines: readonly DrawnLine[], size: number, isWhole: boolean, inches: boolean): void {
  const small = size * 0.85;
  const isWide = stack.width > size * 36;
  for (const { line, cutsMm } of lines) {
    const route = isWide ? `: ${line.from} to ${line.to}` : '';
    const cut =
      cutsMm === undefined ? '' : `; ${cutsMm.map((mm) => (inches ? formatInches(mm) : formatNumber(mm))).join(' + ')}`;
    stack
      .put([row([0, small * 0.82], line.id, { size: small, weight: 'bold' })], 0)
      .text(
        isWhole
          ? `${line.name ?? line.duty.replace('-', ' ')}${route}${cut}`
          : cutText(
              `${cut.replace('; ', '')} ${line.name ?? line.duty.replace('-', ' ')}`,
              stack.width - size * 3.4,
              small,
            ),
        { size: small },
        size * 3.4,
      );
  }
}

const sample = (role: Role, size: number): Shape[] => [
  { kind: 'line', from: [0, size * 0.6], to: [size * 2.6, size * 0.6], pen: { role: 'ink', width: size * 0.62 } },
  { kind: 'line', from: [size * 0.07, size * 0.6], to: [size * 2.53, size * 0.6], pen: { role, width: size * 0.48 } },
];

const hotSample = (size: number): Shape[] => [
  {
    kind: 'rect',
    at: [0, size * 0.15],
    width: size * 2.6,
    height: size * 0.9,
    fill: 'card',
    pen: { role: 'hot', width: size * 0.08 },
    hatch: { role: 'hot', pitch: size * 0.55 },
  },
];

const movingSample = (size: number): Shape[] => [
  {
    kind: 'rect',
    at: [0, size * 0.15],
    width: size * 2.6,
    height: size * 0.9,
    pen: { role: 'soft', width: size * 0.08, dash: [size * 0.5, size * 0.3] },
  },
];

const panelSample = (size: number): Shape[] => [
  { kind: 'line', from: [0, size * 0.6], to: [size * 2.6, size * 0.6], pen: panelPen(size) },
];

/** A round length of the car, at its length on the sheet, in fifths. */
function scaleBar(reduced: number, width: number, size: number, inches: boolean): Shape[] {
  const one = inches ? mmPerInch : 1;
  const round = inches ? [80, 40, 20, 10, 5] : [2000, 1000, 500, 200, 100];
  const lengthMm = one * (round.find((count) => (one * count) / reduced <= width - size * 3) ?? round.at(-1)!);
  const cell = lengthMm / 5 / reduced;
  const bars = Array.from(
    { length: 5 },
    (_, i): Shape => ({
      kind: 'rect',
      at: [i * cell, 0],
      width: cell,
      height: size * 0.6,
      pen: { role: 'ink', width: size * 0.08 },
      fill: i % 2 === 0 ? 'ink' : 'card',
    }),
  );
  return [
    ...bars,
    row([0, size * 1.8], '0', { size: size * 0.85 }),
    row([cell * 5, size * 1.8], inches ? formatInches(lengthMm) : `${formatNumber(lengthMm)} mm`, {
      size: size * 0.85,
      anchor: 'middle',
    }),
  ];
}
