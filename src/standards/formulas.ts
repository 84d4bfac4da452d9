import type { Formula } from '#sources';
import { hoseFormulas, tubeFormulas } from './hose-register.ts';
import { toolFormulas } from './tool-register.ts';
import { threadFormulas } from './thread-register.ts';

/** This room's formulas, as the register lists them. */
export const formulas: readonly Formula[] = [...threadFormulas, ...hoseFormulas, ...tubeFormulas, ...toolFormulas];
