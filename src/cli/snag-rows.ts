import type { Snag } from '#snags';
import { type Lengths, usText } from '#units';
import type { Style } from './style.ts';
import { wrapped } from './wrapped.ts';

const marks = { stop: '▲ Stop', fix: '◆ Fix ', note: '· Note' } as const;
const MARGIN = '        ';

/** Cures that a list of many snags prints of each. */
const FIRST_CURES = 2;

/** Questions whose sentences are told in US units beside inches. */
const US_QUESTIONS: ReadonlySet<Snag['question']> = new Set(['flow', 'cut', 'cook']);

/** One open point: the sentence, its cures, and where the limit comes from; names that the builder gave stay as they are. */
export function snagRows(
  snag: Snag,
  style: Style,
  lengths: Lengths,
  columns: number,
  mostCures = FIRST_CURES,
  names: readonly string[] = [],
): string[] {
  const isUs = lengths.unit === 'in' && (US_QUESTIONS.has(snag.question) || snag.lever !== undefined);
  const say = (words: string): string => {
    const plain = words.replaceAll(/\bdegC\b/gu, '°C');
    return lengths.text(isUs ? usText(plain, names) : plain);
  };
  const width = Math.max(60, columns) - MARGIN.length;
  const place = snag.atMm === undefined ? '' : ` At ${lengths.place(snag.atMm)}.`;
  // Most sentences begin with the line they are about.
  const named =
    snag.line !== undefined && /^[ :]/.test(snag.text.slice(snag.line.length)) && snag.text.startsWith(snag.line);
  // So do those about panels.
  const about =
    named || snag.panel !== undefined ? '' : [snag.line, snag.part].filter((id) => id !== undefined).join(', ');
  const paint = snag.level === 'stop' ? style.stop : snag.level === 'fix' ? style.fix : style.soft;
  const text = wrapped(`${about === '' ? '' : `${about}: `}${say(snag.text)}${place}`, width, MARGIN);
  return [
    `${paint(marks[snag.level])}  ${text.join('\n')}`,
    ...snag.cures
      .slice(0, mostCures)
      .flatMap((cure) => wrapped(`cure: ${say(cure)}`, width, '  ').map((row) => style.blue(MARGIN + row))),
    ...(snag.advice ?? [])
      .slice(0, 1)
      .flatMap((words) => wrapped(`advice: ${say(words)}`, width, '  ').map((row) => style.soft(MARGIN + row))),
    style.soft(`${MARGIN}${snag.limit === undefined ? 'source' : 'limit from'}: ${lengths.text(snag.source)}`),
  ];
}

/** "3 stops, 12 fixes, 40 notes". */
export function snagCount(snags: readonly Snag[]): string {
  const count = (level: Snag['level'], one: string, many: string): string => {
    const n = snags.filter((snag) => snag.level === level).length;
    return `${n} ${n === 1 ? one : many}`;
  };
  return [count('stop', 'stop', 'stops'), count('fix', 'fix', 'fixes'), count('note', 'note', 'notes')].join(', ');
}
