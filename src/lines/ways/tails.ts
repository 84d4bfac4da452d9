import { type Body, type EndPose, type Vec, addScaled, distanceToBounds, dot, sub, tailPose, turned } from '#geometry';
import type { EndMakeUp } from '../make-up/end-make-up.ts';
import { type EndShape, endKernel, endShape } from '../make-up/end-shape.ts';
import { type NearItem, type SlackReading, type SpanEnd, straightOut } from './span.ts';

/** Clocks tried at each bent end. */
export const CLOCKS = 24;
/** Clocks tried for an elbow adapter, which stays where it is set while the hose end turns. */
const ADAPTER_CLOCKS = 12;
/** Places looked at along an end; the exact judgement comes later. */
const SAMPLE_MM = 6;
/** How much nearer than asked a sampled place may seem: round caps overstate flat ends. */
const SAMPLING_GRACE_MM = 0.5;

/** A port need not stand quite square on its part: its fittings leave the surface this fast at least. */
const OBLIQUE = 0.8;

/** A make-up at one end with the clocks at which it is clear of everything near. */
export interface Tail {
  readonly makeUp: EndMakeUp;
  readonly adapterClockRad: number | null;
  readonly pose: Omit<EndPose, 'phiRad'>;
  /** Clear clocks [rad]. */
  readonly clocks: readonly { readonly phiRad: number }[];
}

interface Sample {
  readonly point: Vec;
  readonly radiusMm: number;
  readonly alongMm: number;
  readonly turns: boolean;
}

/** Places along the bodies of an end, then along the first straight of the hose. */
function samplesAlong(
  bodies: readonly Body[],
  hoseRadiusMm: number,
  tail: { at: Vec; along: Vec },
  straightMm: number,
  allTurn: boolean,
) {
  const samples: Sample[] = [];
  let along = 0;
  let sinceLast = SAMPLE_MM;
  for (const body of bodies) {
    const p = body.path;
    for (let i = 0; i + 2 < p.length; i += 3) {
      const point: Vec = [p[i]!, p[i + 1]!, p[i + 2]!];
      if (i > 0) {
        const step = Math.hypot(p[i]! - p[i - 3]!, p[i + 1]! - p[i - 2]!, p[i + 2]! - p[i - 1]!);
        along += step;
        sinceLast += step;
      }
      const last = i + 5 >= p.length;
      if (sinceLast < SAMPLE_MM && !last) continue;
      sinceLast = 0;
      samples.push({ point, radiusMm: body.radiusMm, alongMm: along, turns: allTurn || body.part === 'hose-end' });
    }
  }
  const steps = Math.ceil(straightMm / SAMPLE_MM);
  for (let n = 1; n <= steps; n++) {
    const s = (straightMm * n) / steps;
    samples.push({ point: addScaled(tail.at, tail.along, s), radiusMm: hoseRadiusMm, alongMm: along + s, turns: true });
  }
  return samples;
}

/** The item that leaves least slack near a port, and how much. */
export function nearestItem(
  items: readonly NearItem[],
  faceDistances: readonly number[],
  point: Vec,
  radiusMm: number,
  alongMm: number,
): { readonly slackMm: number; readonly item: NearItem | null } {
  let slackMm = Number.POSITIVE_INFINITY;
  let nearest: NearItem | null = null;
  for (let i = 0; i < items.length; i++) {
    const item = items[i]!;
    const want = wanted(item, faceDistances[i]!, radiusMm, alongMm);
    const limit = want + Math.min(slackMm, FAR_MM);
    if (distanceToBounds(item.solid.bounds, point[0], point[1], point[2]) >= limit) continue;
    const slack = item.solid.distanceWithin(point[0], point[1], point[2], limit) - want;
    if (slack >= slackMm) continue;
    slackMm = slack;
    nearest = item;
  }
  return { slackMm, item: nearest };
}

/** How far from an item a place beside a port must be [mm]. */
const wanted = (item: NearItem, faceMm: number, radiusMm: number, alongMm: number): number =>
  item.own
    ? Math.min(alongMm * OBLIQUE + Math.min(0, faceMm), radiusMm + item.keepOffMm) - SAMPLING_GRACE_MM
    : Math.min(item.keepOffMm + radiusMm, faceMm - SAMPLING_GRACE_MM);

/** Slack beyond this does not matter beside a port [mm]. */
const FAR_MM = 200;

export const faceDistances = (end: SpanEnd): number[] =>
  end.nearItems.map((item) => item.solid.distance(end.at[0], end.at[1], end.at[2]));

/** Every way this end can be fitted up and turned without touching what is near it. */
export function tails(end: SpanEnd, odMm: number, lines: Pick<SlackReading, 'toLines'>): Tail[] {
  const faces = faceDistances(end);
  const found: Tail[] = [];
  for (const makeUp of end.makeUps) {
    const settable = hasBend(makeUp, 0) && hasBend(makeUp, 1);
    for (let n = 0; n < (settable ? ADAPTER_CLOCKS : 1); n++) {
      const adapterClockRad = settable ? (n * 2 * Math.PI) / ADAPTER_CLOCKS : null;
      const tail = clearTail(end, makeUp, adapterClockRad, odMm, faces, lines);
      if (tail.clocks.length > 0) found.push(tail);
    }
  }
  return found;
}

const hasBend = (makeUp: EndMakeUp, clock: 0 | 1): boolean =>
  makeUp.stages.some((stage) => stage.kind === 'bend' && stage.clock === clock);

/** The end's bodies at its clock; an elbow adapter that carries a straight end is turned by the same clock. */
export function tailShape(end: SpanEnd, tail: Pick<Tail, 'makeUp' | 'adapterClockRad'>, phiRad: number): EndShape {
  return endShape(tail.makeUp, end, [phiRad, tail.adapterClockRad ?? phiRad]);
}

function clearTail(
  end: SpanEnd,
  makeUp: EndMakeUp,
  adapterClockRad: number | null,
  odMm: number,
  faces: readonly number[],
  lines: Pick<SlackReading, 'toLines'>,
): Tail {
  const kernel = endKernel(makeUp, end, adapterClockRad ?? undefined);
  const bent = kernel.offsetMm > 1e-9;
  const straightMm = end.straightMm ?? straightOut(odMm);
  const shape = endShape(makeUp, end, [0, adapterClockRad ?? 0]);
  const samples = samplesAlong(shape.bodies, odMm / 2, shape.tail, straightMm, adapterClockRad === null);
  const pose = { ...kernel, free: bent, straightMm, bodySamples: bodySamples(samples, kernel, odMm / 2) };
  const clocks: { phiRad: number }[] = [];
  const isClear = placeCheck(end, faces, lines);
  const turning = samples.filter((sample) => sample.turns);
  if (samples.some((sample) => !sample.turns && !isClear(sample, sample.point)))
    return { makeUp, adapterClockRad, pose, clocks };
  for (let n = 0; n < (bent ? CLOCKS : 1); n++) {
    const phiRad = (n * 2 * Math.PI) / CLOCKS;
    const at = ({ point }: Sample): Vec => (n > 0 ? turnedAbout(point, kernel.origin, kernel.axis, -phiRad) : point);
    if (turning.every((sample) => isClear(sample, at(sample)))) clocks.push({ phiRad });
  }
  return { makeUp, adapterClockRad, pose, clocks };
}

/** Whether a place of an end is clear of all that is near it. */
function placeCheck(end: SpanEnd, faces: readonly number[], lines: Pick<SlackReading, 'toLines'>) {
  const { nearItems, rest } = end;
  const out = new Float64Array(4);
  return ({ radiusMm, alongMm }: Sample, [x, y, z]: Vec): boolean => {
    for (let i = 0; i < nearItems.length; i++) {
      const { solid } = nearItems[i]!;
      const want = wanted(nearItems[i]!, faces[i]!, radiusMm, alongMm);
      if (distanceToBounds(solid.bounds, x, y, z) >= want && want > 0) continue;
      if (solid.distanceWithin(x, y, z, Math.max(want, LEAST_LIMIT_MM)) < want) return false;
    }
    if (rest !== undefined) {
      const restMm = radiusMm - SAMPLING_GRACE_MM;
      rest.slackAndGradient(x, y, z, out);
      if (out[0]! < restMm + READING_OFF_MM) {
        rest.closely(x, y, z, out);
        if (out[0]! < restMm) return false;
      }
    }
    if (lines.toLines === undefined) return true;
    lines.toLines(x, y, z, out);
    return out[0]! >= radiusMm;
  };
}

/** A search for what is nearer than nothing at all would have no limit. */
const LEAST_LIMIT_MM = 1;
/** Bricks read no further off than the way to a corner of their cell [mm]. */
const READING_OFF_MM = 11;

/** Places on the turning part of the end for the solver: along the axis, sideways, slack beyond the hose's own radius. */
function bodySamples(
  samples: readonly Sample[],
  kernel: Pick<EndPose, 'origin' | 'axis' | 'up'>,
  hoseRadiusMm: number,
) {
  const turning = samples
    .filter((sample) => sample.turns && sample.alongMm > sample.radiusMm)
    .slice(0, MOST_BODY_SAMPLES);
  return Float64Array.from(
    turning.flatMap(({ point, radiusMm }) => {
      const from = sub(point, kernel.origin);
      return [dot(from, kernel.axis), dot(from, kernel.up), radiusMm - hoseRadiusMm];
    }),
  );
}

/** The solver holds 64 for each end. */
const MOST_BODY_SAMPLES = 60;

// `right` is up x axis, so a clock angle grows against the right-handed turn about the axis: callers pass -phi.
const turnedAbout = (p: Vec, origin: Vec, axis: Vec, angleRad: number): Vec => {
  const r = turned([p[0] - origin[0], p[1] - origin[1], p[2] - origin[2]], axis, angleRad);
  return [origin[0] + r[0], origin[1] + r[1], origin[2] + r[2]];
};

/** Where the hose is when it may begin to bend, and which way it goes. */
export function startOfBend(tail: Tail, phiRad: number): { point: Vec; direction: Vec } {
  const { point, direction } = tailPose({ ...tail.pose, phiRad }, phiRad);
  return { point: addScaled(point, direction, tail.pose.straightMm), direction };
}
