import type { EndDrip, StripStep } from '#access';
import type { Fastener } from '#car';
import { directionWords } from '#lines';
import type { StripOfStep, StripOpen, StripUndo } from './strip-answer.ts';
import { fasteningKind, type StripNames } from './strip-names.ts';

/** What the words of a step are made of. */
export interface Wordbook {
  readonly drips: ReadonlyMap<string, EndDrip>;
  readonly spills: ReadonlyMap<string, number>;
  readonly names: StripNames;
  readonly heldWords: (line: string) => string;
  /** By "part/fastener". */
  readonly fastenings: ReadonlyMap<string, Fastener>;
}

/** One step of a plan as it is told. */
export function stepOf(step: StripStep, number: number, book: Wordbook): StripOfStep {
  const { drips, spills, names } = book;
  const undo = (rows: StripStep['undone']): StripUndo[] =>
    rows.map((row) => ({ ...undoneOf(row, step.what, book), minutes: row.minutes, isReached: !row.isUnreached }));
  return {
    number,
    kind: step.kind,
    what: step.what,
    name: names.full(step.what.split('@')[0]!),
    along: step.along,
    words: wordsOf(step, book),
    undo: undo(step.undone),
    onBench: undo(step.onBench),
    opens: step.ends.flatMap((end) => {
      const drip = drips.get(end);
      return drip === undefined ? [] : [openOf(drip)];
    }),
    spillsL: spills.get(step.what) ?? 0,
    minutes: step.minutes,
    coming: step.coming,
    lift: step.lift ?? null,
  };
}

/** A joint by its line and port; a fastener by its name, with its part where that is not what is taken hold of. */
function undoneOf(
  { id, kind, tool }: StripStep['undone'][number],
  taken: string,
  { drips, names, fastenings }: Wordbook,
): Pick<StripUndo, 'id' | 'words' | 'is' | 'tool'> {
  const said = tool === undefined ? {} : { tool: { goes: tool.goes, words: toolSaidWords(tool) } };
  if (kind === 'joint') return { id, words: jointWords(id, drips), ...said };
  const [of = '', ...rest] = id.split('/');
  const row = fastenings.get(id);
  const name = row?.name ?? rest.join('/');
  return {
    id,
    words: of === taken ? name : `${name} of ${names.short(of)}`,
    ...(row === undefined ? {} : { is: fasteningKind(row) }),
    ...said,
  };
}

const toolSaidWords = ({ goes, tool }: NonNullable<StripStep['undone'][number]['tool']>): string =>
  goes === 'tight'
    ? `tight for a tool: ${tool}`
    : `no tool of the table goes on (nearest: ${tool}): one ground or bent for it, or measure the one in your hand`;

/** A joint by its line and port. */
export const jointWords = (end: string, drips: ReadonlyMap<string, EndDrip>): string => {
  const drip = drips.get(end);
  return drip === undefined ? end : `${drip.line} at ${drip.port}`;
};

const openOf = ({ line, port, heightMm, fluid, litres, vessel, caps, closeWith }: EndDrip): StripOpen => ({
  line,
  port,
  heightMm,
  fluid,
  litres,
  vessel,
  caps,
  closeWith,
});

function wordsOf(step: StripStep, { drips, names, heldWords }: Wordbook): string {
  const name = names.short(step.what.split('@')[0]!);
  if (step.kind === 'end') return `undo ${jointWords(step.what, drips)} and swing the hose aside`;
  if (step.kind === 'line') return `take ${name} off${heldWords(step.what)}`;
  const along = step.along.length === 0 ? '' : `; with it: ${step.along.map(names.short).join('; ')}`;
  const how =
    step.coming.how === 'straight'
      ? `, ${directionWords(step.coming.direction)}`
      : step.coming.how === 'turning'
        ? ', worked round on the way'
        : '';
  const lift =
    step.lift?.by === 'hoist'
      ? `, by hoist${step.lift.massKg === null ? '' : ` (${Math.round(step.lift.massKg)} kg)`}`
      : '';
  return `take ${name} out${how}${lift}${along}`;
}
