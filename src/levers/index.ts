// How far and how hard does a lever move what hangs on it, and does its bracket stand it?
export { type BoreAnswer, type CylinderAnswer } from './cylinder-answer.ts';
export {
  cableGapFindings,
  type CableGap,
  cableGaps,
  type Obstacle,
  sweepFindings,
  type SweepGap,
  sweepGaps,
} from './clearance.ts';
export { type CableAnswer, type CableCrossing, crossingHole } from './cable-answer.ts';
export { angleBetweenDeg } from './cable-path.ts';
export { type BracketAnswer, bracketByTriangles } from './bracket.ts';
export { formulas } from './formulas.ts';
export { type EffortRow, type LeverOutput } from './lever-output.ts';
export { type LeverAnswer, leverAnswer } from './lever-answer.ts';
export { leverClearMm, leverParts, type LeverParts } from './lever-parts.ts';
export type { LeverFinding } from './lever-finding.ts';
export type { Moved, MovedOutput } from './moved.ts';
export type { RatioRow } from './travel.ts';
