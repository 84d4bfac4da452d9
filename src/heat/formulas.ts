import type { Formula } from '#sources';
import { lawFormulas } from './laws/formulas.ts';

/** Every formula of this room, as the register lists them. */
export const formulas: readonly Formula[] = [...lawFormulas];
