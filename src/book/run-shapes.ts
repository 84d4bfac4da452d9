import type { Way, WayClamp } from '#lines';
import { formatInches, formatNumber } from '#units';
import type { Shape, Spot } from './drawing.ts';
import type { StripScale } from './fitting-shapes.ts';
import type { StripItem } from './make-up-parts.ts';
import { numberTag } from './number-tag.ts';
import { fitsRow, spreadOut, type Wanted } from './spread-out.ts';
import { cutWords, type RowWish } from './strip-wish.ts';
import { row } from './text-block.ts';
import { ABOVE, textWidth } from './text-width.ts';

type Run = Extract<StripItem, { kind: 'run' }>;

/** A hose or tube as it is drawn: from x to x, true to scale or shortened. */
interface DrawnRun {
  readonly run: Run;
  readonly left: number;
  readonly right: number;
  readonly isShortened: boolean;
}

const cutRows = (run: Run, wish: RowWish): string[] => {
  const [cut, range] = cutWords(run.piece, wish.inches === true).split(/, (?=[−+])/u);
  return [cut!, range!];
};

const labelWidth = (run: Run, wish: RowWish): number =>
  Math.max(...cutRows(run, wish).map((text) => textWidth(text, wish.size, 'bold'))) + wish.size;

/** Bends are named in this much above a tube [em]. */
const BEND_WORDS = 1.35;

/** What stiff things between runs take, and the least that the runs do. */
export function leastRunsWidth(items: readonly StripItem[], scale: number, wish: RowWish): number {
  return items.reduce((sum, item) => {
    if (item.kind === 'run') return sum + labelWidth(item, wish);
    return sum + stiffLength(item, scale);
  }, 0);
}

/** What all of it takes at its true length. */
export const trueWidth = (items: readonly StripItem[], scale: number): number =>
  items.reduce((sum, item) => sum + (item.kind === 'run' ? item.lengthMm * scale : stiffLength(item, scale)), 0);

const stiffLength = (item: StripItem, scale: number): number => {
  if (item.kind === 'over') return item.lengthMm * scale;
  if (item.kind !== 'fitting') return 0;
  return item.bodies.reduce((sum, body) => sum + body.steps.reduce((s, step) => s + step.lengthMm, 0), 0) * scale;
};

/** Hoses and tubes between the ends, on the axis from x = 0 to `length`. */
export function drawnRuns(
  items: readonly StripItem[],
  way: Way,
  length: number,
  look: StripScale,
  wish: RowWish,
): Shape[] {
  const runs = items.filter((item): item is Run => item.kind === 'run');
  if (runs.length === 0) return [];
  const stiff = items.reduce((sum, item) => sum + stiffLength(item, look.scale), 0);
  const lengths = sharedLengths(runs, length - stiff, look.scale, wish);
  const shapes: Shape[] = [];
  const drawn: DrawnRun[] = [];
  let x = 0;
  for (const item of items) {
    if (item.kind === 'run') {
      const width = lengths.get(item)!;
      const run = { run: item, left: x, right: x + width, isShortened: width < item.lengthMm * look.scale * 0.97 };
      drawn.push(run);
      shapes.push(...runShapes(run, look, wish));
      x += width;
    } else if (item.kind === 'over') {
      shapes.push(...overShapes(x, item.lengthMm * look.scale, item.odMm * look.scale, look));
      x += item.lengthMm * look.scale;
    } else x += stiffLength(item, look.scale);
  }
  const below = Math.max(...runs.map((run) => run.odMm)) * (look.scale / 2);
  const numbers: Spot[] = [];
  for (const { run, left, right } of drawn)
    shapes.push(
      ...numberTag(
        wish.names.get(run) ?? 0,
        { at: [left + (right - left) * 0.36, 0], headingRad: 0 },
        (run.odMm * look.scale) / 2,
        -1,
        numbers,
        wish.size,
        (run.piece.bends ?? []).length === 0 ? 0 : wish.size * BEND_WORDS,
      ),
    );
  const clamps = clampShapes(drawn, way, below, look, wish);
  return [...shapes, ...clamps.shapes, ...cutLines(drawn, clamps.bottom, wish)];
}

/** True lengths where they fit; else each has its label's room, and a share of the rest by how much longer it is. */
function sharedLengths(runs: readonly Run[], room: number, scale: number, wish: RowWish): Map<Run, number> {
  const least = runs.map((run) => labelWidth(run, wish));
  const more = runs.map((run, i) => Math.max(0, run.lengthMm * scale - least[i]!));
  const wanted = more.reduce((a, b) => a + b, 0);
  const rest = Math.max(0, room - least.reduce((a, b) => a + b, 0));
  const share = wanted === 0 ? 0 : Math.min(1, rest / wanted);
  return new Map(runs.map((run, i) => [run, least[i]! + share * more[i]!]));
}

function runShapes(drawn: DrawnRun, look: StripScale, wish: RowWish): Shape[] {
  const { run, left, right } = drawn;
  const od = run.odMm * look.scale;
  const isHose = run.piece.hose !== undefined;
  const shapes: Shape[] = [
    {
      kind: 'rect',
      at: [left, -od / 2],
      width: right - left,
      height: od,
      fill: 'card',
      pen: look.pen,
      ...(isHose ? { hatch: { role: 'soft', pitch: wish.size * 0.42 } as const } : {}),
    },
  ];
  if (run.hasLayLine)
    shapes.push({
      kind: 'line',
      from: [left, -od * 0.2],
      to: [right, -od * 0.2],
      pen: { role: 'ink', width: look.thin.width * 1.4, dash: [wish.size * 1.6, wish.size * 0.5] },
    });
  if (!isHose) shapes.push(...bendMarks(drawn, od, look, wish));
  if (drawn.isShortened) shapes.push(...breakMark(left + (right - left) * 0.62, od, look, wish));
  return shapes;
}

/** Two slanted lines with nothing between: the run is drawn shorter than it is. */
function breakMark(x: number, od: number, look: StripScale, wish: RowWish): Shape[] {
  const slant = wish.size * 0.35;
  const half = wish.size * 0.28;
  const reach = od / 2 + look.pen.width;
  const line = (at: number): Shape => ({
    kind: 'line',
    from: [at - slant, reach],
    to: [at + slant, -reach],
    pen: look.thin,
  });
  return [
    {
      kind: 'polyline',
      points: [
        [x - half - slant, reach],
        [x + half - slant, reach],
        [x + half + slant, -reach],
        [x - half + slant, -reach],
      ],
      isClosed: true,
      fill: 'card',
    },
    line(x - half),
    line(x + half),
  ];
}

/** Where the bender takes hold: a mark at the start of each bend, with the bend's angle above. */
function bendMarks({ run, left, right }: DrawnRun, od: number, look: StripScale, wish: RowWish): Shape[] {
  const bends = run.piece.bends ?? [];
  const size = wish.size * 0.85;
  const at = (markMm: number) => left + ((right - left) * markMm) / Math.max(1, run.piece.cutLengthMm);
  const labels = bends.map((bend): Wanted & { text: string } => ({
    at: at(bend.markMm),
    text: `${formatNumber(bend.bendDeg)}°`,
    width: textWidth(`${formatNumber(bend.bendDeg)}°`, size),
  }));
  const reach = od / 2 + wish.size * 0.35;
  const marks = labels.map(
    (label): Shape => ({ kind: 'line', from: [label.at, -reach], to: [label.at, od / 2], pen: look.pen }),
  );
  if (!fitsRow(labels, right - left, size * 0.4)) return marks;
  const middles = spreadOut(labels, left, right, size * 0.4);
  return [
    ...marks,
    ...labels.map((label, i) => row([middles[i]!, -reach - size * 0.25], label.text, { size, anchor: 'middle' })),
  ];
}

/** A hose over a tube, a clamp round it. */
function overShapes(x: number, length: number, od: number, look: StripScale): Shape[] {
  return [
    {
      kind: 'rect',
      at: [x, -od / 2],
      width: length,
      height: od,
      fill: 'card',
      pen: look.pen,
      hatch: { role: 'soft', pitch: length * 0.3 },
    },
    {
      kind: 'rect',
      at: [x + length * 0.3, -od / 2 - look.pen.width],
      width: length * 0.4,
      height: od + look.pen.width * 2,
      fill: 'steel',
      pen: look.thin,
    },
  ];
}

/** Clamps and grommets where they sit on their run, with how far from the first port they are. */
function clampShapes(drawn: readonly DrawnRun[], way: Way, below: number, look: StripScale, wish: RowWish) {
  const size = wish.size * 0.9;
  const found = way.clamps.flatMap((clamp) => {
    const on = drawn.find(
      ({ run }) => clamp.alongMm >= run.fromMm - 1 && clamp.alongMm <= run.fromMm + run.lengthMm + 1,
    );
    if (on === undefined) return [];
    const share = Math.min(1, Math.max(0, (clamp.alongMm - on.run.fromMm) / on.run.lengthMm));
    const x = on.left + share * (on.right - on.left);
    const text = wish.inches === true ? formatInches(clamp.alongMm).replace(/ in$/u, '') : formatNumber(clamp.alongMm);
    return [{ clamp, at: x, od: on.run.odMm * look.scale, text, width: textWidth(text, size) }];
  });
  const shapes: Shape[] = found.flatMap(({ clamp, at, od }) =>
    isGrommet(clamp, wish) ? grommet(at, od, look, wish) : clip(at, od, below, look, wish),
  );
  if (found.length === 0) return { shapes, bottom: below + wish.size * 0.35 };
  const top = below + wish.size * 0.75;
  const right = drawn.at(-1)!.right;
  const middles = spreadOut(found, drawn[0]!.left, right, size * 0.5);
  shapes.push(
    ...found.map(({ text }, i) =>
      row([middles[i]!, top + size * ABOVE], text, { size, anchor: 'middle', role: 'soft' }),
    ),
  );
  return { shapes, bottom: top + size * 1.15 };
}

const isGrommet = (clamp: WayClamp, wish: RowWish): boolean => wish.grommets?.includes(clamp.on) === true;

/** A band round the line with its foot. */
function clip(x: number, od: number, below: number, look: StripScale, wish: RowWish): Shape[] {
  const half = wish.size * 0.24;
  return [
    {
      kind: 'rect',
      at: [x - half, -od / 2 - look.pen.width],
      width: half * 2,
      height: od + look.pen.width * 2,
      fill: 'blue',
      pen: look.thin,
    },
    {
      kind: 'line',
      from: [x, od / 2],
      to: [x, below + wish.size * 0.55],
      pen: { role: 'blue', width: look.pen.width },
    },
    {
      kind: 'line',
      from: [x - half * 1.8, below + wish.size * 0.55],
      to: [x + half * 1.8, below + wish.size * 0.55],
      pen: { role: 'blue', width: look.pen.width * 1.4 },
    },
  ];
}

/** The wall, and the grommet that keeps its edge off the line. */
function grommet(x: number, od: number, look: StripScale, wish: RowWish): Shape[] {
  const half = wish.size * 0.14;
  const wallReach = od / 2 + wish.size * 1.1;
  const plate = (from: number, to: number): Shape => ({
    kind: 'rect',
    at: [x - half, from],
    width: half * 2,
    height: to - from,
    fill: 'rule',
    pen: look.thin,
    hatch: { role: 'ink', pitch: wish.size * 0.25 },
  });
  const ring = (y: number): Shape => ({
    kind: 'rect',
    at: [x - wish.size * 0.4, y],
    width: wish.size * 0.8,
    height: wish.size * 0.3,
    fill: 'ink',
  });
  return [
    plate(-wallReach, -od / 2),
    plate(od / 2, wallReach - wish.size * 0.4),
    ring(-od / 2 - wish.size * 0.3),
    ring(od / 2),
  ];
}

/** A measure line below each run, its cut length and allowance under it. */
function cutLines(drawn: readonly DrawnRun[], top: number, wish: RowWish): Shape[] {
  const { size } = wish;
  const y = top + size * 0.5;
  const tick = size * 0.3;
  return drawn.flatMap(({ run, left, right }) => {
    const pen = { role: 'ink', width: size * 0.07 } as const;
    const middle = (left + right) / 2;
    const [cut, range] = cutRows(run, wish);
    const one = `${cut}, ${range}`;
    const rows = textWidth(one, size, 'bold') <= right - left ? [one] : [cut!, range!];
    return [
      { kind: 'line', from: [left, y], to: [right, y], pen },
      { kind: 'line', from: [left, y - tick], to: [left, y + tick], pen },
      { kind: 'line', from: [right, y - tick], to: [right, y + tick], pen },
      ...rows.map((text, i) =>
        row([middle, y + size * (0.45 + ABOVE + i * 1.2)], text, { size, weight: 'bold', anchor: 'middle' }),
      ),
    ] satisfies Shape[];
  });
}
