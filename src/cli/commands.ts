import type { Command } from './command.ts';
import { plan } from './plan.ts';
import { ways } from './ways.ts';

/** Every command there is, as the help lists them. */
export const commands: readonly Command[] = [ways, plan];
