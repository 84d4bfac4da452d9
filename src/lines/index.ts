// How does each line get from port to port: which fittings, turned how, which way, how long, and what does it clear?
export { chooseHoses } from './make-up/choose-hoses.ts';
export type { HoseChoice, HoseChoices } from './make-up/choose-hoses.ts';
export { clockFace } from './make-up/clock-face.ts';
export type { ClockFace } from './make-up/clock-face.ts';
export { clockDeg, clockFrame } from './make-up/clock-frame.ts';
export type { ClockFrame } from './make-up/clock-frame.ts';
export { clockTime, clockWords, directionWords } from './make-up/clock-words.ts';
export { cutLength } from './make-up/cut-length.ts';
export type { CutLength, CutLengthWish, EndTolerance } from './make-up/cut-length.ts';
export type { ClockHow, EndMakeUp, MakeUpPart } from './make-up/end-make-up.ts';
export { endMakeUps } from './make-up/end-make-ups.ts';
export type { MakeUps, MakeUpWish } from './make-up/end-make-ups.ts';
export { endKernel, endShape } from './make-up/end-shape.ts';
export type { EndBody, EndKernel, EndShape, PortPose } from './make-up/end-shape.ts';
export { assemblyPressureBar, hoseFitness } from './make-up/hose-fitness.ts';
export type { HeldBy, HoseFinding, LineConditions } from './make-up/hose-fitness.ts';
export { lineSpans } from './make-up/line-spans.ts';
export type { LineJoint, LineSpan, LineSpans } from './make-up/line-spans.ts';
export { makeUpFormulas } from './make-up/make-up-formulas.ts';
export { makeUpText } from './make-up/make-up-text.ts';
export type { PortEnd } from './make-up/port-end.ts';
export { beadedTubeEnd, tubeEndMakeUps } from './make-up/tube-end-make-ups.ts';
export type { TubeEnd } from './make-up/tube-end-make-ups.ts';
export { inTurn, lineGaps, plan } from './plan.ts';
export { BEND_GRACE } from './ways/judged-way.ts';
export { laidWay, standingWay } from './standing-way.ts';
export type { ExtraCost } from './ways/ranked-ways.ts';
export { bodiesOfWay, endLengths, takenInBay } from './ways/taken-in-bay.ts';
export type { Ahead, LineGap, LineSolver, Planned, PlannedLine, PlanWants } from './plan.ts';
export { firstWay, followingWay, lineWays } from './line-ways.ts';
export type {
  Limit,
  TubeBend,
  Way,
  WayBody,
  WayClamp,
  WayEnd,
  WayFail,
  WayGap,
  WayNote,
  WayPart,
  WayPiece,
} from './way.ts';
export { conditionsOf, LinesError, linesWorld, portOf } from './world.ts';
export type { LinesWorld } from './world.ts';
