import type { Lever } from '#car';
import { add, cross, dot, motionAbout, movedPoint, scale, sub, unit, type Vec } from '#geometry';
import type { LeverAnswer, LeverOutput } from '#levers';
import { formatInches, formatMm, formatNumber } from '#units';
import { curveChart } from './curve-chart.ts';
import type { Drawing, Pen, Role, Shape, Spot } from './drawing.ts';
import type { FlowUnits } from './flow-words.ts';
import type { Sheet } from './gap-ruler.ts';
import { brokenText, row } from './text-block.ts';
import { ABOVE, BELOW, ROW } from './text-width.ts';

const RAD = Math.PI / 180;
/** An arc is drawn in so many pieces. */
const ARC_STEPS = 40;

type Flat = (at: Vec) => Spot;

interface Pose {
  readonly turnDeg: number;
  readonly words: string;
  readonly role: Role;
  readonly dash?: readonly number[];
}

/**
 * A lever from the side, looking along its axis: as drawn, and at both ends of its swing, with the arc of its handle and what its arms pull at.
 * Which is which is said by dashes and words, not by colour alone.
 */
export function leverPicture(lever: Lever, answer: LeverAnswer, units: FlowUnits, sheet: Sheet): Drawing {
  const { size, width } = sheet;
  const flat = sideView(lever);
  const poses = posesOf(lever, size);
  const spots = poses
    .flatMap(({ turnDeg }) => outline(lever, turnDeg).flat())
    .concat(linkEnds(lever))
    .map(flat);
  const reach = bounds([...spots, flat(lever.pivotMm)]);
  const words = leverWords(answer, units);
  const rows = words.flatMap((text) => brokenText(text, width, size * 0.85));
  const sideWithin = (free: number): number => Math.min(free / reach.wide, (width * 0.7) / reach.high);
  // Beside the ends of its swing there is room for the knob.
  const margin = size + knobRadius(lever, sideWithin(width - 2 * size), size);
  const side = sideWithin(width - 2 * margin);
  // Under the title there is room for the knob and for what stands over it.
  const top = size * (ROW + 1.5) + knobRadius(lever, side, size);
  const paper: Flat = (at) => {
    const [x, y] = flat(at);
    return [margin + (x - reach.left) * side, top + (reach.top - y) * side];
  };
  const bottom = top + reach.high * side + size;
  return {
    title: `${answer.name}, from the side`,
    description: words.join('. '),
    unit: sheet.unit,
    width,
    height: bottom + rows.length * size * 0.85 * ROW + size * BELOW,
    shapes: [
      row([0, size * ABOVE], `${answer.name}: looking along its axis`, { size, weight: 'bold' }),
      ...arcShapes(lever, paper, size),
      ...poses.flatMap((pose) => poseShapes(lever, pose, paper, side, size)),
      ...linkShapes(lever, paper, size),
      {
        kind: 'circle',
        centre: paper(lever.pivotMm),
        radius: size * 0.4,
        fill: 'card',
        pen: { role: 'ink', width: size * 0.16 },
      },
      ...rows.map((text, i) => row([0, bottom + (i + 1) * size * 0.85 * ROW], text, { size: size * 0.85 })),
    ],
  };
}

/** The ratio of one output over the travel of the handle. */
export function leverRatioChart(output: LeverOutput, units: FlowUnits, sheet: Sheet): Drawing {
  const length = units === 'inch' ? 25.4 : 1;
  const points = output.curve.flatMap(({ handleMm, leverRatio }): Spot[] =>
    leverRatio === null ? [] : [[handleMm / length, leverRatio]],
  );
  const rest = output.restRatio === null ? 'on a dead centre' : `${formatNumber(output.restRatio, 2)} to 1 as drawn`;
  return curveChart(
    {
      title: `Ratio to ${output.to}`,
      description: `${output.id}: ${rest}; ${output.leastRatio === null ? 'none' : formatNumber(output.leastRatio, 2)} to ${output.mostRatio === null ? 'none' : formatNumber(output.mostRatio, 2)} over the swing`,
      across: `handle along its arc [${units === 'inch' ? 'in' : 'mm'}]`,
      up: 'handle over output',
      curves: points.length === 0 ? [] : [{ words: output.id, role: 'blue', mark: 'none', points }],
      limits: [],
    },
    sheet,
  );
}

/** Across the axis: car up is up where it can be, car rearward or right is right. */
function sideView(lever: Lever): Flat {
  const axis = unit(lever.axis);
  const upright: Vec = Math.abs(axis[2]) > 0.9 ? [-1, 0, 0] : [0, 0, 1];
  const up = unit(sub(upright, scale(axis, dot(axis, upright))));
  const side = cross(up, axis);
  const right = side[0] + side[1] >= 0 ? side : scale(side, -1);
  return (at) => [dot(sub(at, lever.pivotMm), right), dot(sub(at, lever.pivotMm), up)];
}

function posesOf(lever: Lever, size: number): readonly Pose[] {
  const dash = [size * 0.5, size * 0.35];
  const ends = lever.turnDeg.filter((deg) => deg !== 0);
  return [
    ...ends.map((turnDeg): Pose => ({ turnDeg, words: `${formatNumber(turnDeg)}°`, role: 'soft', dash })),
    { turnDeg: 0, words: '0°', role: 'ink' },
  ];
}

const turnedAt = (lever: Lever, at: Vec, deg: number): Vec =>
  movedPoint(motionAbout(lever.pivotMm, lever.axis, deg * RAD), at);

/** The centrelines of a lever turned: its tubes, else lines from the pivot to handle and arms. */
function outline(lever: Lever, turnDeg: number): readonly (readonly Vec[])[] {
  const own = lever.shapes?.map(({ pointsMm }) => pointsMm) ?? [];
  const bare = [lever.handle?.atMm, ...lever.arms.map(({ atMm }) => atMm)].flatMap((at) =>
    at === undefined ? [] : [[lever.pivotMm, at]],
  );
  return [...own, ...bare].map((points) => points.map((at) => turnedAt(lever, at, turnDeg)));
}

function poseShapes(lever: Lever, pose: Pose, paper: Flat, side: number, size: number): Shape[] {
  const pen: Pen = {
    role: pose.role,
    width: size * (pose.turnDeg === 0 ? 0.2 : 0.12),
    ...(pose.dash === undefined ? {} : { dash: pose.dash }),
  };
  const lines = outline(lever, pose.turnDeg).map(
    (points): Shape => ({ kind: 'polyline', points: points.map(paper), pen }),
  );
  const knob = lever.handle === undefined ? undefined : paper(turnedAt(lever, lever.handle.atMm, pose.turnDeg));
  if (knob === undefined) return lines;
  return [
    ...lines,
    {
      kind: 'circle',
      centre: knob,
      radius: knobRadius(lever, side, size),
      pen,
      ...(pose.turnDeg === 0 ? { fill: 'card' as const } : {}),
    },
    row([knob[0], knob[1] - knobRadius(lever, side, size) - size * 0.3], pose.words, {
      size: size * 0.85,
      role: pose.role,
      anchor: 'middle',
      halo: 'card',
    }),
  ];
}

/** A knob that is not drawn is drawn so large [mm]. */
const KNOB_MM = 15;

function knobRadius({ shapes }: Lever, side: number, size: number): number {
  const ball = shapes?.find(({ pointsMm }) => pointsMm.length === 1)?.radiusMm ?? KNOB_MM;
  return Math.max(size * 0.3, ball * side);
}

function arcShapes(lever: Lever, paper: Flat, size: number): Shape[] {
  const at = lever.handle?.atMm;
  if (at === undefined) return [];
  const [low, high] = lever.turnDeg;
  const points = Array.from({ length: ARC_STEPS + 1 }, (_, i) =>
    paper(turnedAt(lever, at, low + ((high - low) * i) / ARC_STEPS)),
  );
  return [{ kind: 'polyline', points, pen: { role: 'blue', width: size * 0.1 } }];
}

interface LinkEnd {
  readonly id: string;
  readonly fromMm: Vec;
  readonly toMm: Vec;
}

/** A rod, core or cylinder is shown no farther than this from its arm [mm]. */
const SHOWN_MM = 120;

function links(lever: Lever): readonly LinkEnd[] {
  const pin = (arm: string): Vec | undefined => lever.arms.find(({ id }) => id === arm)?.atMm;
  const rows = [
    ...(lever.cables ?? []).map(({ id, arm, pathMm }) => ({ id, arm, toMm: pathMm[0] })),
    ...(lever.cylinders ?? []).map(({ id, arm, farMm }) => ({ id, arm, toMm: farMm })),
    ...(lever.rods ?? []).map(({ id, arm, to }) => ({ id, arm, toMm: to.atMm })),
  ];
  return rows.flatMap(({ id, arm, toMm }): LinkEnd[] => {
    const fromMm = pin(arm);
    if (fromMm === undefined || toMm === undefined) return [];
    const way = sub(toMm, fromMm);
    const share = Math.min(1, SHOWN_MM / Math.max(1, Math.hypot(...way)));
    return [{ id, fromMm, toMm: add(fromMm, scale(way, share)) }];
  });
}

const linkEnds = (lever: Lever): readonly Vec[] => links(lever).flatMap(({ fromMm, toMm }) => [fromMm, toMm]);

function linkShapes(lever: Lever, paper: Flat, size: number): Shape[] {
  return links(lever).flatMap(({ id, fromMm, toMm }): Shape[] => {
    const [from, to] = [paper(fromMm), paper(toMm)];
    return [
      { kind: 'line', from, to, pen: { role: 'steel', width: size * 0.22 } },
      { kind: 'circle', centre: from, radius: size * 0.24, fill: 'steel' },
      row([to[0] + size * 0.3, to[1] - size * 0.3], id, { size: size * 0.85, halo: 'card' }),
    ];
  });
}

function bounds(spots: readonly Spot[]) {
  const [x, y] = [spots.map(([u]) => u), spots.map(([, v]) => v)];
  const [left, right, low, top] = [Math.min(...x), Math.max(...x), Math.min(...y), Math.max(...y)];
  return { left, top, wide: Math.max(1, right - left), high: Math.max(1, top - low) };
}

function leverWords(answer: LeverAnswer, units: FlowUnits): readonly string[] {
  const length = (mm: number): string => (units === 'inch' ? formatInches(mm) : formatMm(mm));
  const travel =
    answer.handleMm === null ? [] : [`Handle ${length(answer.handleMm[1] - answer.handleMm[0])} along its arc`];
  return [
    ...travel,
    ...answer.outputs.map((output) => {
      const ratio = output.restRatio === null ? 'on a dead centre' : `${formatNumber(output.restRatio, 2)} : 1`;
      const moved = Math.abs(output.outputMm[1] - output.outputMm[0]);
      const mm = units === 'inch' ? `${formatNumber(moved / 25.4, 2)} in` : formatMm(moved, moved < 20 ? 1 : 0);
      return `${output.id} to ${output.to}: ${ratio}, ${mm} in all, direction ${output.direction}`;
    }),
  ];
}
