import type { Formula } from '#sources';
import { airFormulas } from './air/formulas.ts';
import { boilingFormula } from './laws/boiling-formula.ts';
import { lawFormulas } from './laws/formulas.ts';

/** Every formula of this room, as the register lists them. */
export const formulas: readonly Formula[] = [...lawFormulas, boilingFormula, ...airFormulas];
