import type { FlowAnswer } from '../circuit/flow-answer.ts';
import type { FlowFinding } from '../finding.ts';

/** Figures that may be without end: a tank that is never left bare, a law that holds for ever. */
const MAY_BE_ENDLESS: ReadonlySet<string> = new Set(['secondsCovered']);
const MOST_LETTERS = 600;

/** What is wrong with an answer as such, whatever the car: numbers that are none, words that are no sentence, silence. */
export function answerFaults(answer: FlowAnswer): string[] {
  return [
    ...numberFaults(answer, 'answer'),
    ...answer.circuits.flatMap((circuit) => [
      ...circuit.findings.flatMap(wordFaults),
      ...circuit.states.flatMap((state) => [
        ...state.findings.flatMap(wordFaults),
        ...(state.fluid === null && state.findings.length === 0
          ? [`${circuit.circuit}, ${state.case.id}: not worked out, and not said why`]
          : []),
      ]),
    ]),
  ];
}

/** Places of a value where a number is none. */
export function numberFaults(value: unknown, path: string): string[] {
  if (typeof value === 'number') {
    const isEndless = !Number.isNaN(value) && MAY_BE_ENDLESS.has(path.slice(path.lastIndexOf('.') + 1));
    return Number.isFinite(value) || isEndless ? [] : [`${path}: ${value}`];
  }
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, item]) => numberFaults(item, `${path}.${key}`));
}

function wordFaults(finding: FlowFinding): string[] {
  const { code, level, circuit, text, cures, limit } = finding;
  return [text, ...cures]
    .flatMap((words) => {
      const broken = /NaN|Infinity|undefined|null|\[object|\n|(?<=^|[\s(])-0(\.0+)?(?![\d.]*\d)/.exec(words)?.[0];
      if (broken !== undefined) return [`${circuit}, ${code}: "${broken}" in "${words}"`];
      if (words.trim() === '') return [`${circuit}, ${code}: no words`];
      if (words.length > MOST_LETTERS)
        return [`${circuit}, ${code}: ${words.length} letters: ${words.slice(0, 80)}...`];
      return [];
    })
    .concat(
      cures.flatMap((words) => {
        const bare = /instead of -?[\d.]+(?![\d.]* ?(?:[a-zA-Z°%]))/u.exec(words)?.[0];
        return bare === undefined ? [] : [`${circuit}, ${code}: "${bare}" without its unit in "${words}"`];
      }),
    )
    .concat(limit === 0 && finding.unit !== 'bar' ? [`${circuit}, ${code}: a limit of nothing`] : [])
    .concat(
      level === 'stop' && limit !== undefined && finding.value === undefined
        ? [`${circuit}, ${code}: a limit without a value`]
        : [],
    );
}
