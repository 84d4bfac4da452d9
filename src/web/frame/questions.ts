import type { Car } from '#car';
import type { Snag } from '#snags';
import type { Paper } from '../bench/place.ts';
import type { Standing } from '../server/answers.ts';
import { counted } from '../snags/counted.ts';
import { openSnags } from '../snags/open-snags.ts';

/** One of the builder's questions, as it stands along the top. */
export interface AskedQuestion {
  readonly words: string;
  /** What it opens. */
  readonly paper: Paper;
  /** Papers that belong to it. */
  readonly kinds: readonly Paper['kind'][];
  /** In one line, how it stands. */
  readonly stands: (judged: Standing, car: Car) => string;
  /** Whether it can be asked of this car. */
  readonly isAsked?: (car: Car) => boolean;
}

const flowing = (car: Car): number => (car.circuits ?? []).filter(({ kind }) => kind !== 'other').length;

const graveWords = (snags: readonly Snag[]): string => {
  const open = openSnags(snags);
  const [stops, fixes] = (['stop', 'fix'] as const).map((level) => open.filter((snag) => snag.level === level).length);
  return `${stops} stop, ${fixes} fix`;
};

/** The questions that have an answer today, in the order of the top row; each opens its papers beside the same car. */
export const askedQuestions: readonly AskedQuestion[] = [
  {
    words: 'Does it fit?',
    paper: { kind: 'lines' },
    kinds: ['lines', 'line', 'parts', 'part', 'snags', 'snag', 'history', 'tape'],
    stands: ({ lines, snags }) =>
      `${counted(lines.length, 'line')}, ${graveWords(snags.filter(({ question }) => question === 'fit'))}`,
  },
  {
    words: 'Does it flow?',
    paper: { kind: 'flow', id: 'all' },
    kinds: ['flow'],
    isAsked: (car) => flowing(car) > 0,
    stands: ({ snags, behind }, car) => {
      const flow = behind?.flow;
      const circuits = counted(flowing(car), 'circuit');
      if (flow?.state === 'fault') return `${circuits}: could not be worked out`;
      if (flow?.state === 'waiting') return `${circuits}, being worked out`;
      return `${circuits}, ${graveWords(snags.filter(({ question }) => question === 'flow'))}`;
    },
  },
  {
    words: 'Does it cook?',
    paper: { kind: 'cook', id: 'all' },
    kinds: ['cook'],
    isAsked: (car) => car.lines.length > 0 && car.parts.some((part) => part.class === 'hot'),
    stands: ({ snags }, { bays = [] }) => {
      const own = snags.filter(({ question }) => question === 'cook');
      // Six questions stand beside the car's name: what is not open yet is said at more length than what is.
      if (own.length > 0) return graveWords(own);
      return bays.length === 0 ? 'lines and panels' : `lines, panels, ${counted(bays.length, 'bay')}`;
    },
  },
  {
    words: 'What do I cut?',
    paper: { kind: 'cut', id: 'all' },
    kinds: ['cut'],
    isAsked: ({ panels = [], levers = [] }) => panels.length + levers.length > 0,
    stands: ({ snags }, { panels = [] }) =>
      `${counted(panels.length, 'panel')}, ${graveWords(snags.filter(({ question }) => question === 'cut'))}`,
  },
  {
    words: 'What do I buy?',
    paper: { kind: 'buy' },
    kinds: ['book', 'buy', 'compare', 'shop'],
    stands: ({ order }) =>
      `${counted(order.rows.filter((row) => row.toBuy > 0 && row.spare !== true).length, 'row')} to buy`,
  },
  {
    words: 'What comes off?',
    paper: { kind: 'off', id: 'all' },
    kinds: ['off'],
    isAsked: ({ parts }) => parts.length > 0,
    stands: (_, { parts }) => `${counted(parts.filter(({ staysOn }) => staysOn !== true).length, 'part')} that may`,
  },
];
