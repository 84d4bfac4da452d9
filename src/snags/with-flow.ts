import type { Car } from '#car';
import type { FlowAnswer } from '#flow';
import { listed } from './listed.ts';
import { placedFlowSnags } from './placed-flow-snags.ts';
import type { Snag } from './snag.ts';

/** Open points known already with those of the circuits, in one list, worst first: the same as if they had been asked for together. */
export const withFlow = (car: Car, known: readonly Snag[], flow: FlowAnswer): Snag[] =>
  listed(car, [...known, ...placedFlowSnags(car, flow)]);
