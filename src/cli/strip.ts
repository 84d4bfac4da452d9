import {
  type BreakJob,
  breakJobs,
  type BreakJobs,
  provedWords,
  stripOf,
  type StripOf,
  strippable,
  uncountedWords,
  undoneWords,
} from '#answers';
import { stripAims, type StripAim } from '#access';
import { linesWorld } from '#lines';
import { nearestName } from '#sources';
import { litresWords, minutesWords, usText } from '#units';
import { carOnFile } from './car-on-file.ts';
import { columns } from './columns.ts';
import type { Asked, Command } from './command.ts';
import { CommandFault } from './command-fault.ts';
import { exitCode } from './exit-code.ts';
import { quoted } from './quoted.ts';
import { type Style, styleFor } from './style.ts';
import type { Terminal } from './terminal.ts';
import { colourOption, inchesOption, jsonOption } from './usual-options.ts';
import { wholeNumber } from './whole-number.ts';
import { wrapped } from './wrapped.ts';

/** What comes off to get at one thing, in order. */
export const strip: Command = {
  name: 'strip',
  about: 'what comes off to reach, remove or replace a part, panel or line: order, minutes, litres, caps',
  operands: [
    { name: 'CAR', about: 'car file (.json); lines without a way taken are not in the way' },
    { name: 'PART', about: 'part, panel or line; absent: the jobs of each break', isOptional: true },
  ],
  options: [
    { name: 'to', value: 'AIM', about: `${stripAims.join(', ')}; replace if absent` },
    { name: 'crew', value: 'N', about: "how many work on the car; absent: the workshop's crew" },
    { name: 'wins', about: 'also what a quarter-turn, a dry-break or another panel split would win' },
    jsonOption,
    inchesOption,
    colourOption,
  ],
  run: async (asked, terminal) => {
    const [file = '', word] = asked.operands;
    const onFile = await carOnFile(file);
    const crewText = asked.value('crew');
    const crew = crewText === undefined ? {} : { crew: wholeNumber(crewText, '--crew', 1, 20) };
    if (word === undefined) return breaksOf(onFile, file, crew, asked, terminal);
    const id = named(strippable(onFile), word, file);
    const answer = stripOf(linesWorld(onFile.car, onFile.input.meshes), [], id, {
      aim: aimOf(asked),
      wins: asked.has('wins'),
      ...crew,
    });
    terminal.out(asked.has('json') ? `${JSON.stringify(answer)}\n` : text(answer, asked, terminal));
    return answer.found === 'found' ? exitCode.done : exitCode.stop;
  },
};

/** The jobs of each break; a part that is wanted at all is asked for by itself. */
function breaksOf(
  { car, input }: Awaited<ReturnType<typeof carOnFile>>,
  file: string,
  crew: { readonly crew?: number },
  asked: Asked,
  terminal: Terminal,
): number {
  const alone = ['to', 'wins'].find((name) => asked.has(name) || asked.value(name) !== undefined);
  if (alone !== undefined) throw new CommandFault([`--${alone} is for one PART; allowed without: --crew, --json`]);
  if (!(car.workshop?.breaks ?? []).some(({ jobs = [] }) => jobs.length > 0))
    throw new CommandFault([
      `${file}: "workshop.breaks" names no job, so say what comes off; allowed: fairlead strip CAR PART`,
    ]);
  const breaks = breakJobs(linesWorld(car, input.meshes), [], crew);
  terminal.out(asked.has('json') ? `${JSON.stringify({ breaks })}\n` : breaksText(breaks, asked, terminal));
  return breaks.some(({ jobs }) => jobs.some(({ found }) => found === 'none')) ? exitCode.stop : exitCode.done;
}

function breaksText(breaks: readonly BreakJobs[], asked: Asked, terminal: Terminal): string {
  const style = styleFor(asked, terminal);
  const rows = breaks.flatMap(({ name, minutes, crew, jobs }) => [
    style.strong(`${name}: ${minutesWords(minutes)}${crew > 1 ? `, ${crew} at it` : ', one alone'}`),
    ...columns(jobs.map(jobColumns), [1, 3]).map((row) => `  ${row}`),
  ]);
  const said = `${[...rows, style.soft('Minutes are from memory where the crew has not clocked its own.')].join('\n')}\n`;
  return asked.has('inches') ? usText(said) : said;
}

const jobColumns = (job: BreakJob): string[] =>
  job.found === 'found'
    ? [
        job.target,
        minutesWords(job.crewMinutes),
        job.fits ? 'within it' : 'longer than it',
        job.litres < LEAST_L ? '' : litresWords(job.litres),
        job.name,
      ]
    : [job.target, '', job.found === 'stays-on' ? 'stays on the car' : 'no way found', '', job.name];

function aimOf(asked: Asked): StripAim {
  const word = asked.value('to') ?? 'replace';
  const aim = stripAims.find((one) => one === word);
  if (aim === undefined) throw new CommandFault([`--to: stands ${quoted(word)}; allowed: ${stripAims.join(', ')}`]);
  return aim;
}

function named(ids: readonly string[], word: string, file: string): string {
  const found = ids.find((id) => id === word) ?? ids.find((id) => id.toLowerCase() === word.toLowerCase());
  if (found !== undefined) return found;
  const near = nearestName(word, ids);
  throw new CommandFault([
    `${file}: no part, panel or line ${quoted(word)}; ${near === undefined ? 'the car has none' : `nearest: ${near}`}`,
  ]);
}

const aims = { reach: 'To reach', remove: 'To take off', replace: 'To change' } as const;
/** Less is a drop on a rag. */
const LEAST_L = 0.005;

function text(answer: StripOf, asked: Asked, terminal: Terminal): string {
  const style = styleFor(asked, terminal);
  const wide = Math.max(60, terminal.columns);
  const head = `${aims[answer.aim]} ${answer.name}`;
  if (answer.found !== 'found') {
    const why =
      answer.found === 'stays-on'
        ? 'it stays on the car, by its own mark'
        : 'no way was found; that does not say that there is none';
    const blocked = answer.blockedBy.map((row) => `  pulled ${row}`);
    return `${[`${style.strong(head)}: ${why}.`, ...blocked].join('\n')}\n`;
  }
  const rows = [
    style.strong(
      `${head}: ${minutesWords(answer.minutes)} alone (off ${minutesWords(answer.minutesOff)}, on again ${minutesWords(answer.minutesOn)})${answer.crew > 1 ? ', ' : '; '}${answer.crew > 1 ? `${minutesWords(answer.crewMinutes)} with ${answer.crew}; ` : ''}${answer.litres < LEAST_L ? 'by what the car file states of fills nothing runs out' : `${litresWords(answer.litres)} run or are drained`}`,
    ),
    ...answer.drainFirst.map((row) => `  drain first: ${row.name}, ${litresWords(row.litres)} (else out of ${row.by})`),
    ...(answer.uncounted.length === 0 ? [] : wrapped(uncountedWords(answer), wide, '  ').map((row) => `  ${row}`)),
    ...answer.steps.flatMap((step) => stepRows(step, style, wide)),
    ...answer.caps.map((cap) => `  ready: ${cap.qty} x ${cap.name} (${cap.inBox} in the box)`),
    ...answer.closeWith.map((words) => `  ready for ${words}`),
    `  on again: ${answer.onAgain.join('; ')}`,
    ...answer.fitBefore.map(({ words }) => `  ${words}: no order the other way was found`),
    ...answer.breaks.map(
      (row) =>
        `  ${row.name} (${minutesWords(row.minutes)}): ${minutesWords(row.jobMinutes)} with ${answer.crew}, ${row.fits ? 'within it' : 'longer than it'}`,
    ),
    ...answer.wins.map(
      (win) => `  would win ${minutesWords(win.savedMin)}: ${win.words} (${minutesWords(win.minutes)} alone)`,
    ),
    ...(asked.has('wins') && answer.wins.length === 0
      ? ['  No quarter-turn, dry-break or other panel split wins a minute.']
      : []),
    `  ${provedWords(answer)}`,
    '  Minutes are from memory where the crew has not clocked its own.',
    ...answer.cautions.flatMap((caution) => wrapped(caution, wide, '')).map(style.soft),
  ];
  const said = `${rows.join('\n')}\n`;
  return asked.has('inches') ? usText(said) : said;
}

function stepRows(step: StripOf['steps'][number], style: Style, wide: number): string[] {
  const undo = undoneWords([...step.undo, ...step.onBench]);
  const opens = step.opens.filter((open) => open.litres > LEAST_L);
  return [
    `${String(step.number).padStart(3)}. ${step.words}, ${minutesWords(step.minutes)}`,
    ...(undo.length === 0 ? [] : wrapped(`undo: ${undo.join('; ')}`, wide, '  ').map((row) => `     ${row}`)),
    ...(step.spillsL > LEAST_L ? [style.soft(`     ${step.name}: ${litresWords(step.spillsL)}`)] : []),
    ...opens.map((open) =>
      style.soft(
        `     ${open.line} at ${open.port}: ${litresWords(open.litres)}${open.vessel === null ? '' : ` with what ${open.vessel} holds above it`}`,
      ),
    ),
  ];
}
