import { inchText, usText } from '#units';
import { useSignal } from '../bench/signal.ts';
import { tapeUnit } from '../tape/tape-unit.ts';

/** How sentences about panels and levers are said: in the units that the builder works in. */
export function useCutWords(): (sentence: string) => string {
  return useSignal(tapeUnit) === 'in' ? usCutText : asWritten;
}

const usCutText = (sentence: string): string => usText(inchText(sentence));
const asWritten = (sentence: string): string => sentence;

/** What the two ways to say lengths, areas and masses are called. */
export const cutUnits = ['mm, cm², kg', 'inches, sq in, lb'] as const;
