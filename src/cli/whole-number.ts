import { CommandFault } from './command-fault.ts';
import { quoted } from './quoted.ts';

/** A whole number behind a name; anything else is a fault that says what is allowed. */
export function wholeNumber(text: string, option: string, least: number, most: number): number {
  const value = /^\d{1,9}$/u.test(text) ? Number(text) : Number.NaN;
  if (value >= least && value <= most) return value;
  throw new CommandFault([`${option}: stands ${quoted(text)}; allowed: a whole number from ${least} to ${most}`]);
}
