import { minutesWords } from '#units';
import type { StripOf } from './strip-answer.ts';

/** Whether a strip-down is the least, in a sentence; where that is not proved, how much a cheaper one could win at most. */
export const provedWords = ({ isProved, couldWinMin }: Pick<StripOf, 'isProved' | 'couldWinMin'>): string =>
  isProved
    ? 'The least among the ways out that were found.'
    : `The cheapest that was found; a cheaper one is not ruled out, by ${minutesWords(Math.max(1, Math.ceil(couldWinMin)))} of taking off at most, litres and opened joints weighed in.`;
