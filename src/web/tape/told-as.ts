import { readAs } from './tape-text.ts';
import { tapeUnit } from './tape-unit.ts';

/** What stands under a field, in the unit of the tape in the hand. */
export const toldAs = (text: string, mm: number): string => readAs(text, mm, tapeUnit.get());
