import type { Formula } from '#sources';
import { coolantFormulas } from './coolant/formulas.ts';
import { drainFormulas } from './drains/formulas.ts';
import { fluidFormulas } from './fluids/formulas.ts';
import { lapFormulas } from './lap/formulas.ts';
import { lossFormulas } from './losses/formulas.ts';
import { pumpFormulas } from './pumps/formulas.ts';
import { tankFormulas } from './tank/formulas.ts';

/** Every formula of this room, as the register lists them. */
export const formulas: readonly Formula[] = [
  ...fluidFormulas,
  ...lossFormulas,
  ...pumpFormulas,
  ...drainFormulas,
  ...tankFormulas,
  ...coolantFormulas,
  ...lapFormulas,
];
