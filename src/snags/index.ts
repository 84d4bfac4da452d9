// What is still open on this car, worst first, and what would cure it?
export { accessSnag } from './access-snags.ts';
export { byCause, type Cause } from './by-cause.ts';
export { cautionsFor, lineCautions } from './cautions.ts';
export type { ExtraFinding } from './car-snags.ts';
export { flowSnags } from './flow-snags.ts';
export { leverSnag } from './lever-snags.ts';
export { panelSnag } from './panel-snags.ts';
export { openNumber } from './opened/open-number.ts';
export type { OpenedInput, OpenedNumber, Opens } from './opened/opened-number.ts';
export { questions } from './snag.ts';
export type { Question, Snag } from './snag.ts';
export { snags } from './snags.ts';
export { type FoundLater, withFound } from './with-found.ts';
export { brokenBy } from './worst-first.ts';
export { flowOpens } from './opened/flow-opened.ts';
export { heatSnags } from './heat-snags.ts';
export { ruleSnag } from './rule-snags.ts';
