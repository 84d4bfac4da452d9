import { type Clause, type Measured, unitOf } from './measured.ts';
import { isAtLeastState } from './measured-of-line.ts';
import type { RuleVerdict } from './rule-answer.ts';

/** A number this near to its limit keeps it: what is printed is no nearer. */
const SAME = 1e-9;

/** A clause against what was measured. */
export function judged(clause: Clause, { value, word, isAtLeast }: Measured): RuleVerdict {
  const { least, most, is, measure } = clause;
  if (measure === 'by-eye') return 'not measured: look';
  if (word !== undefined) return is === undefined ? 'not measured: look' : verdict(says(measure, word, is));
  if (value === undefined || (least === undefined && most === undefined)) return 'not measured: look';
  if (isAtLeast === true) {
    // It is farther off than was looked: enough for a least below that, nothing is known of more.
    if (least !== undefined && least <= value && most === undefined) return 'meets the entered rule';
    return 'not measured: look';
  }
  return verdict((least === undefined || value >= least - SAME) && (most === undefined || value <= most + SAME));
}

const verdict = (isMet: boolean): RuleVerdict => (isMet ? 'meets the entered rule' : 'does not meet');

function says(measure: Clause['measure'], word: string, is: string): boolean {
  if (measure === 'state') return isAtLeastState(word, is);
  const [said, asked] = [word.toLowerCase(), is.toLowerCase()];
  if (measure === 'sleeve' && asked === 'yes') return said !== 'none';
  // Every piece of a line is of that material.
  return said.split(', ').every((part) => part.includes(asked));
}

/** What a clause asks, in words: "at least 76 mm". */
export function askedWords({ least, most, is, measure }: Clause): string {
  const unit = unitOf(measure);
  const of = (n: number): string => `${n}${unit === '' ? '' : ` ${unit === 'degC' ? '°C' : unit}`}`;
  const words = [
    ...(least === undefined ? [] : [`at least ${of(least)}`]),
    ...(most === undefined ? [] : [`at most ${of(most)}`]),
    ...(is === undefined ? [] : [measure === 'state' ? `${is} or further` : is]),
  ];
  return words.length === 0 ? 'by eye' : words.join(', ');
}
