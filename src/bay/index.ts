// What stands where in the car, what moves against what, and how near is a line to each part?
export { bay, type Bay } from './bay.ts';
export { bayWithMovedPart } from './bay-with-part.ts';
export { type BayPart, isOwnPart } from './bay-part.ts';
export type { BayPort } from './bay-port.ts';
export {
  GAP_KNOWN_MM,
  type GapFault,
  gapFaults,
  type GapRow,
  gapsToParts,
  type LineInBay,
  marginMm,
  type RegionGap,
} from './gaps.ts';
export { keepOff, type KeepOffRule } from './keep-off.ts';
export { type BayMover, bayMover, type JointPose, jointPoses, poses, relativeTo } from './movement.ts';
export { solidsSeenFrom } from './moved-solids.ts';
export { bridgedBodies, movedBodies } from './moved-line.ts';
export { faceGap, LEAST_NEAR_MM, type LineEnds, type Region, regions } from './near-port.ts';
export { planningItems, type PlanningItem } from './planning-items.ts';
export { distanceToPart } from './port-inside.ts';
export { lengthAlong, stretch } from './stretch.ts';
