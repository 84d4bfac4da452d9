import type { Car } from '#car';
import { accessSnag } from './access-snags.ts';
import { heatSnags } from './heat-snags.ts';
import { listed } from './listed.ts';
import { placedFlowSnags } from './placed-flow-snags.ts';
import { ruleSnag } from './rule-snags.ts';
import type { Snag } from './snag.ts';
import type { FoundElsewhere } from './snags.ts';

/** What takes longer than the rest and may join it later. */
export type FoundLater = Pick<FoundElsewhere, 'flow' | 'heat' | 'access' | 'rules'>;

/** Open points known already with those that came in later, in one list, worst first: the same as if they had been asked for together. */
export const withFound = (
  car: Car,
  known: readonly Snag[],
  { flow = null, heat = null, access = [], rules = [] }: FoundLater,
): Snag[] =>
  listed(car, [
    ...known,
    ...access.map(accessSnag),
    ...rules.map(ruleSnag),
    ...(flow === null ? [] : placedFlowSnags(car, flow)),
    ...(heat === null ? [] : heatSnags(heat)),
  ]);
