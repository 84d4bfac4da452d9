import type { Formula } from '#sources';
import { aerationFormulas } from './aeration-register.ts';
import { airFormulas } from './air-register.ts';
import { bubbleFormulas } from './bubble-register.ts';
import { coolantFormulas } from './coolant-register.ts';
import { fuelFormulas } from './fuel-register.ts';
import { oilFormulas } from './oil-register.ts';

/** The formulas of the fluids, as the register lists them. */
export const fluidFormulas: readonly Formula[] = [
  ...oilFormulas,
  ...coolantFormulas,
  ...fuelFormulas,
  ...airFormulas,
  ...aerationFormulas,
  ...bubbleFormulas,
];
