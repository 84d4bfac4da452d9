import { type Body, type Vec, addScaled, cross, distance, dot, scale, sub, turned, unit } from '#geometry';
import { type Catalogue, type End, type HoseRow, catalogue } from '#standards';
import { cutLength } from '../make-up/cut-length.ts';
import type { EndMakeUp } from '../make-up/end-make-up.ts';
import { endMakeUps } from '../make-up/end-make-ups.ts';
import { type PortPose, endShape } from '../make-up/end-shape.ts';
import { type HungRod, type Lay, type RodPose, hungRod } from '../ways/hung-rod.ts';
import { straightOut } from '../ways/span.ts';
import type { Chance } from './chance.ts';

/** A ball that the planted line takes up: everything else keeps off it. */
export interface Ball {
  readonly at: Vec;
  readonly radiusMm: number;
  /** At which end it lies in or beside the fittings; 0 elsewhere. */
  readonly beside: -1 | 0 | 1;
}

/** A line that is known to be there: its ports, ends and hose, and all the room that the hose takes as it hangs. */
export interface PlantedLine {
  readonly hose: HoseRow;
  readonly end: End;
  readonly from: PortPose;
  readonly to: PortPose;
  readonly makeUps: readonly [EndMakeUp, EndMakeUp];
  readonly clocksRad: readonly [number, number];
  readonly balls: readonly Ball[];
  /** The hose as it hangs, without its straights. */
  readonly rod: Float64Array;
  /** Length and what the ends cost, counted as ways are [mm]. */
  readonly cost: number;
}

/** Hoses planted; the built-in ones, small enough for a bay of a metre. */
const HOSES = [
  'ptfe-steel-4',
  'ptfe-steel-5',
  'ptfe-steel-6',
  'ptfe-steel-8',
  'rubber-braid-4',
  'rubber-braid-6',
  'rubber-braid-8',
  'rubber-braid-10',
] as const;
/** No longer than hangs without a clamp: lines of oil are held every 610 mm. */
const MOST_HOSE_MM = 560;
const LEAST_HOSE_MM = 170;
/** The planted curve and all its shapes bend this much wider than the hose must. */
const ROOMY = 1.06;
const SHORTER = 0.04;
/** How well a bay's ports are known: the cut length's allowance comes from it. */
export const PORT_KNOWN = { knownToMm: 2, facingKnownDeg: 1 } as const;
const TRIES = 400;
const STEP_MM = 3;

const shelf: Catalogue = catalogue(undefined);

/** Ends and curves drawn until one hangs well: it reaches 4 % shorter and keeps its radius over the whole allowance. */
export function plantedLine(draw: Chance, at: Vec, hoses: readonly string[] = HOSES): PlantedLine {
  for (let n = 0; n < TRIES; n++) {
    const line = drawn(draw, at, hoses);
    if (line !== null) return line;
  }
  throw new Error('planted line: nothing that hangs well was drawn');
}

function drawn(draw: Chance, at: Vec, hoses: readonly string[]): PlantedLine | null {
  const id = draw.oneOf(hoses);
  const hose = shelf.hoses.find((row) => row.id === id)!;
  const end: End = draw.oneOf<End>([
    { type: 'orb', dash: hose.dash! },
    { type: 'flare37-male', dash: hose.dash! },
  ]);
  const made = endMakeUps({ end }, hose, shelf, { duty: 'oil-pressure', allowElbowAdapters: false });
  if ('missing' in made) return null;
  const makeUps = [draw.oneOf(made.makeUps), draw.oneOf(made.makeUps)] as const;
  const from: PortPose = { at, faces: draw.direction() };
  const clockA = wholeDegree(draw.between(0, 360));
  const straightMm = straightOut(hose.odMm);
  const tailA = endShape(makeUps[0], from, [clockA, clockA]).tail;
  const start: RodPose = { point: addScaled(tailA.at, tailA.along, straightMm), direction: tailA.along };
  const curve = drawnCurve(draw, start, hose.minBendRadiusMm);
  const placed = portBehind(
    draw,
    makeUps[1],
    addScaled(curve.end.point, curve.end.direction, straightMm),
    scale(curve.end.direction, -1),
  );
  const tailB = endShape(makeUps[1], placed.port, [placed.clockRad, placed.clockRad]).tail;
  const stop: RodPose = { point: addScaled(tailB.at, tailB.along, straightMm), direction: scale(tailB.along, -1) };
  const lengthMm = curve.lengthMm;
  if (lengthMm + 2 * straightMm > MOST_HOSE_MM || lengthMm + 2 * straightMm < LEAST_HOSE_MM) return null;
  const { allowanceMm } = cutLength({
    flexibleMm: lengthMm + 2 * straightMm,
    insertAMm: makeUps[0].insertMm,
    insertBMm: makeUps[1].insertMm,
    ends: makeUps.map((makeUp) => ({ ...PORT_KNOWN, makeUp })),
  });
  const shapes = hangingShapes({
    start,
    stop,
    lengthMm,
    straightMm,
    laid: curve.points,
    radiusMm: hose.minBendRadiusMm * ROOMY,
    allowanceMm,
  });
  if (shapes === null) return null;
  const clocksRad = [clockA, placed.clockRad] as const;
  const balls = ballsOf({ hose, from, to: placed.port, makeUps, clocksRad, straightMm, shapes });
  if (touchesItself(balls, hose.odMm)) return null;
  const ends = makeUps[0].lengthMm + makeUps[0].cost + makeUps[1].lengthMm + makeUps[1].cost;
  return {
    hose,
    end,
    from,
    to: placed.port,
    makeUps,
    clocksRad,
    balls,
    rod: shapes[0]!,
    cost: ends + lengthMm + 2 * straightMm,
  };
}

const wholeDegree = (deg: number): number => (Math.round(deg) * Math.PI) / 180;

interface Curve {
  readonly points: Float64Array;
  readonly end: RodPose;
  readonly lengthMm: number;
}

/** Two to four arcs with straights between, none tighter than the hose and its room. */
function drawnCurve(draw: Chance, start: RodPose, radiusMm: number): Curve {
  const points: number[] = [...start.point];
  let at = start.point;
  let along = start.direction;
  let lengthMm = 0;
  const walk = (stepMm: number): void => {
    at = addScaled(at, along, stepMm);
    points.push(...at);
    lengthMm += stepMm;
  };
  const arcs = draw.whole(1, 3);
  for (let n = 0; n < arcs; n++) {
    const bend = radiusMm * draw.between(1.1, 2);
    const angle = draw.between(0.25, 1.9);
    const axis = cross(along, draw.squareTo(along));
    const steps = Math.ceil((bend * angle) / STEP_MM);
    for (let k = 0; k < steps; k++) {
      along = unit(turned(along, axis, angle / steps));
      walk((bend * angle) / steps);
    }
    const straight = draw.between(0, 90);
    for (let k = 0; k < Math.ceil(straight / STEP_MM); k++) walk(STEP_MM);
  }
  return { points: Float64Array.from(points), end: { point: at, direction: along }, lengthMm };
}

/** A port such that the end, turned to a whole degree, has its tail near `at` and pointing along `out`. */
function portBehind(draw: Chance, makeUp: EndMakeUp, at: Vec, out: Vec): { port: PortPose; clockRad: number } {
  const angle = (makeUp.angleDeg * Math.PI) / 180;
  const side = draw.squareTo(out);
  // The axis the end screws onto leads into the tail's direction by the end's angle, in the plane of `side`.
  const faces = unit(addScaled(scale(out, Math.cos(angle)), side, -Math.sin(angle)));
  const there: PortPose = { at: [0, 0, 0], faces };
  const clockRad = makeUp.angleDeg === 0 ? 0 : bestClock(makeUp, there, out, side);
  const tail = endShape(makeUp, there, [clockRad, clockRad]).tail;
  return { port: { at: sub(at, tail.at), faces }, clockRad };
}

/** The whole degree at which the tail points most nearly along `out`; a return bend's is told by where it goes. */
function bestClock(makeUp: EndMakeUp, port: PortPose, out: Vec, side: Vec): number {
  let best = 0;
  let most = Number.NEGATIVE_INFINITY;
  for (let deg = 0; deg < 360; deg++) {
    const { tail } = endShape(makeUp, port, [wholeDegree(deg), wholeDegree(deg)]);
    const fits = dot(tail.along, out) + 1e-3 * dot(unit(tail.at), side);
    if (fits > most) [most, best] = [fits, wholeDegree(deg)];
  }
  return best;
}

interface Hanging {
  readonly start: RodPose;
  readonly stop: RodPose;
  readonly lengthMm: number;
  readonly straightMm: number;
  readonly laid: Float64Array;
  readonly radiusMm: number;
  readonly allowanceMm: readonly [number, number];
}

/** Every shape that the hose may hang in, the nominal one first; null where it does not reach or bends too tightly. */
function hangingShapes({
  start,
  stop,
  lengthMm,
  straightMm,
  laid,
  radiusMm,
  allowanceMm,
}: Hanging): Float64Array[] | null {
  const shortMm = lengthMm - SHORTER * (lengthMm + 2 * straightMm);
  const wanted: readonly (readonly [number, Lay])[] = [
    [lengthMm, 'as laid'],
    [shortMm, 'as laid'],
    [lengthMm + allowanceMm[0], 'as laid'],
    [lengthMm + allowanceMm[1], 'as laid'],
    [lengthMm + allowanceMm[1], 'sagging'],
    [lengthMm + allowanceMm[1], 'thrown up'],
  ];
  const shapes: Float64Array[] = [];
  for (const [length, lay] of wanted) {
    if (length < distance(start.point, stop.point) * 1.002) return null;
    const rod: HungRod = hungRod(start, stop, length, { points: laid }, lay);
    if (!rod.ok || rod.leastRadiusMm < radiusMm) return null;
    shapes.push(rod.points);
  }
  return shapes.filter((_, i) => i !== 1);
}

interface Taken {
  readonly hose: HoseRow;
  readonly from: PortPose;
  readonly to: PortPose;
  readonly makeUps: readonly [EndMakeUp, EndMakeUp];
  readonly clocksRad: readonly [number, number];
  readonly straightMm: number;
  readonly shapes: readonly Float64Array[];
}

/** Balls along the ends, the straights and every shape of the hose. */
function ballsOf(taken: Taken): Ball[] {
  const balls: Ball[] = [];
  for (const [i, port] of [taken.from, taken.to].entries()) {
    const beside = i === 0 ? -1 : 1;
    const clock = taken.clocksRad[i]!;
    const { bodies, tail } = endShape(taken.makeUps[i]!, port, [clock, clock]);
    for (const body of bodies) balls.push(...alongBody(body, beside));
    const straight: Body = {
      part: 'hose',
      path: Float64Array.of(...tail.at, ...addScaled(tail.at, tail.along, taken.straightMm)),
      radiusMm: taken.hose.odMm / 2,
    };
    balls.push(...alongBody(straight, beside));
  }
  for (const path of taken.shapes) balls.push(...alongBody({ part: 'hose', path, radiusMm: taken.hose.odMm / 2 }, 0));
  return balls;
}

function alongBody({ path, radiusMm }: Body, beside: -1 | 0 | 1): Ball[] {
  const balls: Ball[] = [];
  for (let i = 0; i + 5 < path.length; i += 3) {
    const p: Vec = [path[i]!, path[i + 1]!, path[i + 2]!];
    const step = sub([path[i + 3]!, path[i + 4]!, path[i + 5]!], p);
    const parts = Math.max(1, Math.ceil(Math.hypot(...step) / STEP_MM));
    for (let k = 0; k <= parts; k++) balls.push({ at: addScaled(p, step, k / parts), radiusMm, beside });
  }
  return balls;
}

/** The ends against each other, and against the hose well away from them; the nominal shape against itself. */
function touchesItself(balls: readonly Ball[], odMm: number): boolean {
  const first = balls.filter((ball) => ball.beside === -1);
  const last = balls.filter((ball) => ball.beside === 1);
  const middle = balls.filter((ball) => ball.beside === 0);
  const near = (p: readonly Ball[], q: readonly Ball[], roomMm: number): boolean =>
    p.some((a) => q.some((b) => distance(a.at, b.at) < a.radiusMm + b.radiusMm + roomMm));
  if (near(first, last, 6)) return true;
  // A hose leaves its own end: only what has come away from the tail by two hoses counts.
  const away = (end: readonly Ball[]): Ball[] =>
    middle.filter((ball) => distance(ball.at, end.at(-1)!.at) > 2.5 * odMm);
  return near(first.slice(0, -12), away(first), 3) || near(last.slice(0, -12), away(last), 3);
}
