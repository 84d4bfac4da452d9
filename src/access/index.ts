// What comes off, in which order, how does it come out, does a tool go on, what drips and how long does it take?
export type { AccessFinding } from './finding.ts';
export { formulas } from './formulas.ts';
export type { AccessWorld } from './access-world.ts';
export { carDrips, type EndDrip } from './drips/car-drips.ts';
export { crewMinutes } from './minutes/crew-minutes.ts';
export { fastenerMinutes, minutesOf } from './minutes/minutes-of.ts';
export type { Pose } from './removal/pose.ts';
export { type CarProblem, carProblem } from './strip-down/car-problem.ts';
export { neverOff, type StripGain, stripGains } from './strip-down/strip-gains.ts';
export {
  type Coming,
  type StripAim,
  stripAims,
  type StripFound,
  stripPlan,
  type StripStep,
  type Undone,
} from './strip-down/strip-plan.ts';
export type { Nut, NutReach, ToolReach } from './tool-reach.ts';
export { swingBesideWallDeg } from './tool-room/swing-beside-wall.ts';
export type { NutRole, ToolNut } from './tool-room/tool-nut.ts';
export { type NutRoom, type ToolRoom, toolRoom, type ToolRoomAsk } from './tool-room/tool-room.ts';
export { swingReach } from './tool-room/swing-reach.ts';
export { toolReachOf, toolWords } from './tool-room/tool-reach-of.ts';
export { curesOf, isMarked, toolFindings } from './tool-room/tool-findings.ts';
export { toolCost } from './tool-room/tool-cost.ts';
