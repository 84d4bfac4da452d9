import { type Body, type EndPose, type Vec, add, addScaled, scale, turned, unit, cross } from '#geometry';
import { type ClockFrame, clockDirection, clockFrame } from './clock-frame.ts';
import type { EndMakeUp } from './end-make-up.ts';
import { type BendStage, type Stage, stageLength } from './stage.ts';

/** Where a port is and the way it faces (unit vector). */
export interface PortPose {
  readonly at: Vec;
  readonly faces: Vec;
}

/** A fitting's body, with the catalogue row that it is. */
export interface EndBody extends Body {
  readonly part: 'adapter' | 'hose-end';
  readonly row: string;
}

export interface EndShape {
  readonly bodies: readonly EndBody[];
  /** Where the hose comes free, and the unit vector that it leaves along. */
  readonly tail: { readonly at: Vec; readonly along: Vec };
  readonly lengthMm: number;
}

/** Farthest apart that points of a path may be [mm]; the outside contract is 3. */
const stepMm = 2.95;
/** Farthest that a chord may leave its arc [mm]; the outside contract is 0.05. */
const chordMm = 0.045;

interface Pen {
  at: Vec;
  along: Vec;
}

/**
 * The bodies of an end as fitted to a port, from the port face to where the hose comes free. `clocksRad[0]` is the hose end's
 * clock, `clocksRad[1]` an elbow adapter's; each is read on the clock face of the axis that its part screws onto.
 */
export function endShape(makeUp: EndMakeUp, port: PortPose, clocksRad: readonly number[]): EndShape {
  const pen: Pen = { at: port.at, along: port.faces };
  const hoseEnds = new Set(makeUp.parts.filter((p) => p.kind === 'hose-end').map((p) => p.id));
  const bodies: EndBody[] = [];
  for (const run of bodyRuns(makeUp.stages)) {
    const points: number[] = [...pen.at];
    for (const stage of run.stages) draw(stage, pen, points, clocksRad);
    const part = hoseEnds.has(run.part) ? 'hose-end' : 'adapter';
    bodies.push({ part, row: run.part, path: Float64Array.from(points), radiusMm: run.odMm / 2 });
  }
  return {
    bodies,
    tail: { at: pen.at, along: pen.along },
    lengthMm: makeUp.stages.reduce((sum, s) => sum + stageLength(s), 0),
  };
}

/** Neighbouring stages of one part and one diameter are one body, so that its corners are filled. */
function bodyRuns(stages: readonly Stage[]): { part: string; odMm: number; stages: Stage[] }[] {
  const runs: { part: string; odMm: number; stages: Stage[] }[] = [];
  for (const stage of stages) {
    if (stageLength(stage) === 0 && !(stage.kind === 'bend' && stage.angleRad > 0)) continue;
    const last = runs.at(-1);
    if (last !== undefined && last.part === stage.part && last.odMm === stage.odMm) last.stages.push(stage);
    else runs.push({ part: stage.part, odMm: stage.odMm, stages: [stage] });
  }
  return runs;
}

function draw(stage: Stage, pen: Pen, points: number[], clocksRad: readonly number[]): void {
  if (stage.kind === 'straight') drawStraight(stage.lengthMm, pen, points);
  else drawBend(stage, clocksRad[stage.clock] ?? 0, pen, points);
}

function drawStraight(lengthMm: number, pen: Pen, points: number[]): void {
  const from = pen.at;
  const steps = Math.max(1, Math.ceil(lengthMm / stepMm));
  for (let n = 1; n < steps; n++) points.push(...addScaled(from, pen.along, (lengthMm * n) / steps));
  pen.at = addScaled(from, pen.along, lengthMm);
  points.push(...pen.at);
}

/** Points on the true arc; the last one is the arc's end as the closed form gives it. */
function drawBend(bend: BendStage, clockRad: number, pen: Pen, points: number[]): void {
  const side = clockDirection(clockFrame(pen.along), clockRad);
  const normal = unit(cross(pen.along, side));
  if (bend.radiusMm > 0) {
    const centre = addScaled(pen.at, side, bend.radiusMm);
    const sagStep = 2 * Math.acos(1 - Math.min(1, chordMm / bend.radiusMm));
    const steps = Math.max(1, Math.ceil(bend.angleRad / Math.min(sagStep, stepMm / bend.radiusMm)));
    for (let n = 1; n <= steps; n++) {
      const out = turned(scale(side, -bend.radiusMm), normal, (bend.angleRad * n) / steps);
      pen.at = add(centre, out);
      points.push(...pen.at);
    }
  }
  pen.along = unit(turned(pen.along, normal, bend.angleRad));
}

/** The closed form of an end as one clock turns it, for a solver: see `EndPose`. */
export type EndKernel = Pick<EndPose, 'origin' | 'axis' | 'up' | 'right' | 'riseMm' | 'offsetMm' | 'angleRad'>;

/**
 * Tail point and direction of an end as a function of its hose end's clock:
 *
 *     tail = origin + axis riseMm + (up cos phi + right sin phi) offsetMm
 *
 * An elbow adapter stands at `adapterClockRad`. Without it, a make-up whose only bend is the adapter is turned by phi itself.
 */
export function endKernel(makeUp: EndMakeUp, port: PortPose, adapterClockRad?: number): EndKernel {
  const pen: Pen = { at: port.at, along: port.faces };
  const bends = makeUp.stages.filter((s) => s.kind === 'bend');
  const turning = bends.findLast((s) => s.clock === 0) ?? (adapterClockRad === undefined ? bends.at(-1) : undefined);
  let plane: { riseMm: number; offsetMm: number; angleRad: number } | undefined;
  let frame: ClockFrame = clockFrame(pen.along);
  for (const stage of makeUp.stages) {
    if (stage === turning) {
      frame = clockFrame(pen.along);
      plane = { riseMm: 0, offsetMm: 0, angleRad: 0 };
    }
    if (plane === undefined) moveOn(stage, pen, adapterClockRad ?? 0);
    else plane = movedInPlane(stage, plane);
  }
  if (plane === undefined) frame = clockFrame(pen.along);
  const { riseMm, offsetMm, angleRad } = plane ?? { riseMm: 0, offsetMm: 0, angleRad: 0 };
  return { origin: pen.at, axis: pen.along, up: frame.up, right: frame.right, riseMm, offsetMm, angleRad };
}

function moveOn(stage: Stage, pen: Pen, clockRad: number): void {
  if (stage.kind === 'straight') {
    pen.at = addScaled(pen.at, pen.along, stage.lengthMm);
    return;
  }
  const side = clockDirection(clockFrame(pen.along), clockRad);
  const c = Math.cos(stage.angleRad);
  const s = Math.sin(stage.angleRad);
  pen.at = addScaled(addScaled(pen.at, pen.along, stage.radiusMm * s), side, stage.radiusMm * (1 - c));
  pen.along = unit(addScaled(scale(pen.along, c), side, s));
}

/** After the turning bend everything lies in one plane: along the axis, and sideways from it. */
function movedInPlane(stage: Stage, from: { riseMm: number; offsetMm: number; angleRad: number }) {
  const { riseMm, offsetMm, angleRad } = from;
  if (stage.kind === 'straight') {
    return {
      riseMm: riseMm + stage.lengthMm * Math.cos(angleRad),
      offsetMm: offsetMm + stage.lengthMm * Math.sin(angleRad),
      angleRad,
    };
  }
  const end = angleRad + stage.angleRad;
  return {
    riseMm: riseMm + stage.radiusMm * (Math.sin(end) - Math.sin(angleRad)),
    offsetMm: offsetMm + stage.radiusMm * (Math.cos(angleRad) - Math.cos(end)),
    angleRad: end,
  };
}
