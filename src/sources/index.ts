// Where does a number come from, how do we know it, and how is a finding or a formula written down?
export { describeSource, findSource, sources } from './bibliography.ts';
export type { Known, Source, SourceId } from './bibliography.ts';
export type { Finding, Level } from './finding.ts';
export type { Formula, FormulaInput } from './formula.ts';
export { nearestName } from './nearest-name.ts';
export { workFormula } from './work-formula.ts';
export type { Worked } from './work-formula.ts';
