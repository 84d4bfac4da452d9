import type { Covering, GGPicture, GreatestG } from '#flow';
import { formatNumber } from '#units';
import type { Drawing, Look, Shape, Spot } from './drawing.ts';
import { type FlowUnits, volumeWords } from './flow-words.ts';
import type { Sheet } from './gap-ruler.ts';
import { coveringWords, wayWords } from './g-words.ts';
import { brokenText, row, shrunkSize } from './text-block.ts';
import { ABOVE, BELOW, ROW, textWidth } from './text-width.ts';

/** Which outlet of the picture is shown, and how far it holds in each direction where that is known. */
export interface GPictureWish {
  readonly picture: GGPicture;
  readonly outlet: string;
  readonly greatest?: readonly GreatestG[];
}

/**
 * Covered, partly covered and uncovered over the plane of g: speeding up above, a right-hand corner to the right. Covered is
 * tinted, partly is hatched, uncovered is dark and hatched, and each says its word in it; rings stand at round g.
 */
export function gPicture(wish: GPictureWish, units: FlowUnits, sheet: Sheet): Drawing {
  const { picture } = wish;
  const { size, width } = sheet;
  const index = picture.outlets.indexOf(wish.outlet);
  if (index < 0)
    throw new RangeError(`book: outlet "${wish.outlet}" of the g-g picture; allowed: ${picture.outlets.join(', ')}`);
  const head = headRows(wish, index, units, sheet);
  const frame = frameOf(picture, head.height + size * 1.5, sheet);
  const legend = legendRow([0, frame.bottom + size * 1.6], size, width);
  return {
    title: `${picture.tank}, ${wish.outlet}: covered over g`,
    description: pictureWords(wish, index, units),
    unit: sheet.unit,
    width,
    height: frame.bottom + size * 1.6 + legend.height,
    shapes: [
      ...head.shapes,
      ...cellShapes(picture, index, frame, size),
      ...boundary(wish.greatest ?? [], frame, size),
      ...ringShapes(picture, frame, size),
      ...regionWords(picture, index, frame, size),
      ...edgeWords(frame, size),
      ...legend.shapes,
    ],
  };
}

interface Frame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  /** Where a lateral and a longitudinal g stand. */
  readonly at: (lateralG: number, longitudinalG: number) => Spot;
  /** Half a cell in each direction. */
  readonly half: Spot;
}

function frameOf(picture: GGPicture, top: number, { size, width }: Sheet): Frame {
  const [lateral, longitudinal] = [spanOf(picture.lateralG), spanOf(picture.longitudinalG)];
  const aside = textWidth('right-hand', size * 0.85) + size * 0.5;
  const scale = (width - 2 * aside) / (lateral[1] - lateral[0]);
  const at = (x: number, y: number): Spot => [aside + (x - lateral[0]) * scale, top + (longitudinal[1] - y) * scale];
  return {
    left: aside,
    right: width - aside,
    top,
    bottom: at(0, longitudinal[0])[1],
    at,
    half: [(lateral[2] / 2) * scale, (longitudinal[2] / 2) * scale],
  };
}

/** Ends of the axis with half a cell round the outer samples, and the cell. */
function spanOf(values: readonly number[]): readonly [number, number, number] {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const cell = values.length > 1 ? (high - low) / (values.length - 1) : 1;
  return [low - cell / 2, high + cell / 2, cell];
}

const looks = (size: number): Record<Covering, Look> => ({
  covered: { fill: 'tape' },
  partly: { fill: 'card', hatch: { role: 'fix', pitch: size * 0.5 } },
  uncovered: { fill: 'steel', hatch: { role: 'stop', pitch: size * 0.3 } },
});

/** Overlap of two rows of cells [em]. */
const SEAM = 0.03;

/** One rectangle a run of like cells. */
function cellShapes(picture: GGPicture, index: number, frame: Frame, size: number): Shape[] {
  const look = looks(size);
  const shapes: Shape[] = [];
  picture.cells.forEach((line, i) => {
    for (let from = 0; from < line.length; ) {
      const covering = line[from]![index]!.covering;
      let to = from;
      while (to + 1 < line.length && line[to + 1]![index]!.covering === covering) to++;
      const [x, y] = frame.at(picture.lateralG[from]!, picture.longitudinalG[i]!);
      const [end] = frame.at(picture.lateralG[to]!, 0);
      shapes.push({
        kind: 'rect',
        at: [x - frame.half[0], y - frame.half[1]],
        width: end - x + 2 * frame.half[0],
        // A hair more than the row, or the paper shows between two rows.
        height: 2 * frame.half[1] + (i > 0 ? size * SEAM : 0),
        ...look[covering],
      });
      from = to + 1;
    }
  });
  return shapes;
}

/** Rings at whole or half g, with their numbers, and the cross of the axes; what would leave the frame is cut. */
function ringShapes(picture: GGPicture, frame: Frame, size: number): Shape[] {
  const most = Math.max(...picture.lateralG.map(Math.abs), ...picture.longitudinalG.map(Math.abs));
  const step = most > 1.2 ? 0.5 : 0.25;
  const centre = frame.at(0, 0);
  const thin = { role: 'soft', width: size * 0.06 } as const;
  const rings = Array.from({ length: Math.floor(most / step + 1e-9) }, (_, i) => (i + 1) * step);
  const radius = (g: number): number => frame.at(g, 0)[0] - centre[0];
  const inner: Shape[] = [
    ...rings.map((g): Shape => ({ kind: 'circle', centre, radius: radius(g), pen: thin })),
    { kind: 'line', from: [frame.left, centre[1]], to: [frame.right, centre[1]], pen: thin },
    { kind: 'line', from: [centre[0], frame.top], to: [centre[0], frame.bottom], pen: thin },
    ...rings.map((g) =>
      row([centre[0] + radius(g) - size * 0.2, centre[1] - size * 0.2], formatNumber(g, 2).replace(/0$/u, ''), {
        size: size * 0.8,
        anchor: 'end',
        role: 'ink',
        halo: 'card',
      }),
    ),
  ];
  const clip = {
    at: [frame.left, frame.top] as Spot,
    width: frame.right - frame.left,
    height: frame.bottom - frame.top,
  };
  return [
    { kind: 'group', offset: [0, 0], shapes: inner, clip },
    { kind: 'rect', ...clip, pen: { role: 'ink', width: size * 0.1 } },
  ];
}

/** Where the bore begins to draw air, from direction to direction; no line where it holds as far as was asked. */
function boundary(greatest: readonly GreatestG[], frame: Frame, size: number): Shape[] {
  const pen = { role: 'ink', width: size * 0.18 } as const;
  const spot = ({ directionDeg, g }: GreatestG): Spot => {
    const turn = (directionDeg * Math.PI) / 180;
    return frame.at(g * Math.sin(turn), g * Math.cos(turn));
  };
  const lines = greatest.flatMap((one, i): Shape[] => {
    const next = greatest[(i + 1) % greatest.length]!;
    return one.isAll || next.isAll ? [] : [{ kind: 'line', from: spot(one), to: spot(next), pen }];
  });
  const clip = {
    at: [frame.left, frame.top] as Spot,
    width: frame.right - frame.left,
    height: frame.bottom - frame.top,
  };
  return lines.length === 0 ? [] : [{ kind: 'group', offset: [0, 0], shapes: lines, clip }];
}

/** Each covering's word in the middle of its cells, on the cell of it that is nearest to their middle. */
function regionWords(picture: GGPicture, index: number, frame: Frame, size: number): Shape[] {
  return (['covered', 'uncovered'] as const).flatMap((covering) => {
    const spots = picture.cells.flatMap((line, i) =>
      line.flatMap((cell, k) =>
        cell[index]!.covering === covering ? [frame.at(picture.lateralG[k]!, picture.longitudinalG[i]!)] : [],
      ),
    );
    const word = coveringWords[covering];
    const wide = textWidth(word, size, 'bold');
    if (spots.length * 4 * frame.half[0] * frame.half[1] < wide * size * 3) return [];
    const middle = [0, 1].map((axis) => spots.reduce((sum, s) => sum + s[axis]!, 0) / spots.length);
    const off = (s: Spot): number => Math.hypot(s[0] - middle[0]!, s[1] - middle[1]!);
    const near = spots.reduce((best, s) => (off(s) < off(best) ? s : best));
    const x = Math.min(frame.right - wide / 2 - size * 0.3, Math.max(frame.left + wide / 2 + size * 0.3, near[0]));
    return [row([x, near[1] + size * 1.2], word, { size, weight: 'bold', anchor: 'middle', halo: 'card' })];
  });
}

function edgeWords(frame: Frame, size: number): Shape[] {
  const small = { size: size * 0.85, role: 'soft' } as const;
  const [x, y] = [(frame.left + frame.right) / 2, (frame.top + frame.bottom) / 2];
  return [
    row([x, frame.top - size * 0.4], 'speeding up', { ...small, anchor: 'middle' }),
    row([x, frame.bottom + size * 0.95], 'braking', { ...small, anchor: 'middle' }),
    row([frame.left - size * 0.3, y], 'left-hand', { ...small, anchor: 'end' }),
    row([frame.left - size * 0.3, y + size], 'corner', { ...small, anchor: 'end' }),
    row([frame.right + size * 0.3, y], 'right-hand', small),
    row([frame.right + size * 0.3, y + size], 'corner', small),
  ];
}

function legendRow(at: Spot, size: number, width: number): { shapes: Shape[]; height: number } {
  const shapes: Shape[] = [];
  let [x, y] = at;
  const look = looks(size);
  for (const covering of ['covered', 'partly', 'uncovered'] as const) {
    const word = coveringWords[covering];
    const wide = size * 1.8 + textWidth(word, size) + size * 1.2;
    if (x > 0 && x + wide > width) [x, y] = [0, y + size * ROW];
    const box = { kind: 'rect', at: [x, y] as Spot, width: size * 1.4, height: size * 0.9 } as const;
    shapes.push({ ...box, ...look[covering], pen: { role: 'soft', width: size * 0.06 } });
    shapes.push(row([x + size * 1.8, y + size * 0.75], word, { size }));
    x += wide;
  }
  return { shapes, height: y - at[1] + size * (ROW + BELOW) };
}

function counted(picture: GGPicture, index: number): Record<Covering, number> {
  const count = { covered: 0, partly: 0, uncovered: 0 };
  for (const cell of picture.cells.flat()) count[cell[index]!.covering]++;
  return count;
}

/** The direction in which the bore is bared first, in words. */
function weakest(greatest: readonly GreatestG[] | undefined): string | undefined {
  if (greatest === undefined || greatest.length === 0) return undefined;
  const least = greatest.reduce((a, b) => (b.g < a.g ? b : a));
  if (least.isAll) return `covered up to ${formatNumber(least.g, 2)} g every way`;
  if (least.g === 0) return 'uncovered standing still';
  return `bared first at ${formatNumber(least.g, 2)} g, ${wayWords(least.directionDeg)}`;
}

function headRows(
  wish: GPictureWish,
  index: number,
  units: FlowUnits,
  { size, width }: Sheet,
): { shapes: Shape[]; height: number } {
  const { picture } = wish;
  const title = `${picture.tank}, ${wish.outlet}: ${volumeWords(picture.oilM3, units)}`;
  const big = shrunkSize(title, width, size * 1.15, size * 0.8, 'bold');
  const { covered } = counted(picture, index);
  const share = formatNumber((100 * covered) / picture.cells.flat().length, 0);
  const words = weakest(wish.greatest) ?? `covered over ${share} % of the picture`;
  const upright = picture.verticalG === 1 ? '' : `; ${formatNumber(picture.verticalG, 2)} g downward`;
  const shapes: Shape[] = [row([0, big * ABOVE], title, { size: big, weight: 'bold' })];
  const rows = brokenText(`${words}${upright}`, width, size);
  rows.forEach((text, i) => shapes.push(row([0, big * ABOVE + size * ROW * (i + 1)], text, { size, role: 'soft' })));
  return { shapes, height: big * ABOVE + size * ROW * rows.length + size * BELOW };
}

function pictureWords(wish: GPictureWish, index: number, units: FlowUnits): string {
  const { picture } = wish;
  const count = counted(picture, index);
  const all = picture.cells.flat().length;
  const share = (covering: Covering): string =>
    `${coveringWords[covering]} ${formatNumber((100 * count[covering]) / all, 0)} %`;
  const least = weakest(wish.greatest);
  const range = (values: readonly number[]): string =>
    `${formatNumber(Math.min(...values), 1)} to ${formatNumber(Math.max(...values), 1)} g`;
  return `${picture.tank} with ${volumeWords(picture.oilM3, units)}, ${wish.outlet}, over ${range(picture.longitudinalG)} along the car (braking below 0) and ${range(picture.lateralG)} across it (left-hand corner below 0): ${share('covered')}, ${share('partly')}, ${share('uncovered')}${least === undefined ? '' : `; ${least}`}.`;
}
