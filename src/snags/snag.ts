import type { Vec } from '#geometry';
import type { Level } from '#sources';
import type { Opens } from './opened/opened-number.ts';

/** The builder's six questions, as they stand over the list and on the screen. */
export const questions = {
  fit: 'Does it fit?',
  flow: 'Does it flow?',
  cook: 'Does it cook?',
  cut: 'What do I cut?',
  buy: 'What do I buy?',
  off: 'What comes off?',
} as const;
export type Question = keyof typeof questions;

/** One open point: the number, the limit, where the limit comes from, the place, and what would cure it. */
export interface Snag {
  /** The same point has the same id from one run to the next. */
  readonly id: string;
  /** What is wrong, by the word of the room that found it: the limit that is broken, or a finding's code. */
  readonly kind: string;
  readonly level: Level;
  readonly question: Question;
  readonly line?: string;
  readonly part?: string;
  /** A sheet panel. */
  readonly panel?: string;
  /** A lever or pedal. */
  readonly lever?: string;
  /** One sentence in words of the trade. */
  readonly text: string;
  readonly value?: number;
  readonly limit?: number;
  readonly unit?: string;
  /** In words. */
  readonly source: string;
  readonly atMm?: Vec;
  readonly cures: readonly string[];
  /** What may help but is not worked out, with the reason. */
  readonly advice?: readonly string[];
  /** Of what flows: the circuit, and the case in which it was found where it is not so in all of them. */
  readonly circuit?: string;
  readonly case?: string;
  /** What its number is made of, where the room that found it says so. */
  readonly opens?: Opens;
  /** The builder lives with it; `isWorse`: it has got worse since, and counts again. */
  readonly accepted?: { readonly by: string; readonly why: string; readonly on: string; readonly isWorse: boolean };
}
