// What comes off, in which order, how does it come out, does a tool go on, what drips and how long does it take?
export type { AccessFinding } from './finding.ts';
export { formulas } from './formulas.ts';
export type { Nut, NutReach, ToolReach } from './tool-reach.ts';
