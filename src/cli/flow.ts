import { flowOf, lapsOf } from '#answers';
import { casesOf, type DriveLog, type FlowAnswer } from '#flow';
import { readDriveLog } from '#intake';
import { linesWorld, type PlannedLine } from '#lines';
import { cautionsFor, flowSnags } from '#snags';
import { nearestName } from '#sources';
import { carOnFile, type CarOnFile } from './car-on-file.ts';
import type { Asked, Command } from './command.ts';
import { CommandFault } from './command-fault.ts';
import { exitCode } from './exit-code.ts';
import { caseRows, summaryRows } from './flow-rows.ts';
import { flowUnits } from './flow-units.ts';
import { freshOption } from './kept-plans.ts';
import { lapRows } from './lap-rows.ts';
import { lengthsIn } from '#units';
import { plannedCar } from './planned-car.ts';
import { progress } from './progress.ts';
import { quoted } from './quoted.ts';
import { snagCount, snagRows } from './snag-rows.ts';
import { styleFor } from './style.ts';
import type { Terminal } from './terminal.ts';
import { colourOption, inchesOption, jsonOption } from './usual-options.ts';
import { wrapped } from './wrapped.ts';

export const flow: Command = {
  name: 'flow',
  about: 'does it flow: oil, water and fuel in every case, and what is open about it',
  operands: [{ name: 'CAR', about: 'the car file' }],
  options: [
    { name: 'case', value: 'ID', about: 'this case only, with every line, pump and vessel' },
    {
      name: 'log',
      value: 'FILE',
      about: 'a driven log (CSV: time, rpm, g, oil temperature) through the dry sump, in time',
    },
    {
      name: 'as-is',
      about: 'plan nothing: a line without a way taken counts as 1.3 times straight across, and it says so',
    },
    jsonOption,
    inchesOption,
    freshOption,
    colourOption,
  ],
  more: [
    'Lines count as they were taken; where one has no way yet, the car is planned first, unless --as-is.',
    'Pressures are above the air outside. Flow is positive from the first port of a line to its second.',
  ],
  async run(asked, terminal) {
    const [file = ''] = asked.operands;
    const onFile = await carOnFile(file);
    checkCase(onFile, asked.value('case'), file);
    const logFile = asked.value('log');
    const log = logFile === undefined ? null : await logOn(logFile);
    const lines = await linesOf(onFile, asked, terminal);
    if (log !== null) return lapRun(onFile, lines, log, asked, terminal);
    const told = progress('circuits', terminal, true);
    const caseId = asked.value('case');
    const answer = flowOf(linesWorld(onFile.car, onFile.input.meshes), lines, {
      ...(caseId === undefined ? {} : { caseId }),
      watch: (done, total) => {
        told.at(done, total);
        return true;
      },
    });
    told.end();
    terminal.out(asked.has('json') ? `${JSON.stringify(answer)}\n` : text(onFile, answer, asked, terminal));
    const isStopped = flowSnags(answer).some(({ level }) => level === 'stop');
    return isStopped ? exitCode.stop : exitCode.done;
  },
};

async function logOn(file: string): Promise<DriveLog> {
  const reading = await readDriveLog(file);
  if (!reading.ok) throw new CommandFault([`${quoted(file).slice(1, -1)}: ${reading.fault}`]);
  return reading.log;
}

function lapRun(
  { car, input }: CarOnFile,
  lines: readonly PlannedLine[],
  log: DriveLog,
  asked: Asked,
  terminal: Terminal,
): number {
  const laps = lapsOf(linesWorld(car, input.meshes), lines, log);
  const style = styleFor(asked, terminal);
  const units = flowUnits(asked.has('inches'), lengthsIn(asked.has('inches')));
  terminal.out(
    asked.has('json')
      ? `${JSON.stringify({ laps })}\n`
      : `${laps.flatMap((lap) => lapRows(lap, units, style, terminal.columns)).join('\n')}\n`,
  );
  const isStopped = laps.some((lap) => 'why' in lap || lap.findings.some(({ level }) => level === 'stop'));
  return isStopped ? exitCode.stop : exitCode.done;
}

function checkCase({ car }: CarOnFile, id: string | undefined, file: string): void {
  const known = casesOf(car).map((row) => row.id);
  if (id === undefined || known.includes(id)) return;
  const nearest = nearestName(id, known);
  throw new CommandFault([
    `--case: ${quoted(id)} is not a case of ${quoted(file).slice(1, -1)}; allowed: ${known.join(', ')}${nearest === undefined ? '' : ` (nearest: ${nearest})`}`,
  ]);
}

/** No line needs planning where each of the circuits asked for has a way taken; a driven log asks for the dry sump alone. */
async function linesOf(onFile: CarOnFile, asked: Asked, terminal: Terminal): Promise<readonly PlannedLine[]> {
  const isAsked = (kind: string): boolean =>
    asked.value('log') === undefined ? kind !== 'other' : kind === 'dry-sump';
  const wanted = new Set((onFile.car.circuits ?? []).flatMap(({ lines, kind }) => (isAsked(kind) ? lines : [])));
  const open = onFile.car.lines.filter(({ id, taken }) => wanted.has(id) && (taken === null || taken === undefined));
  if (open.length === 0) return [];
  if (asked.has('as-is')) {
    terminal.err(
      `${someOf(open.map(({ id }) => id))}: no way taken, counted as 1.3 times straight across with straight ends; their bends, ends and real lengths cost more\n`,
    );
    return [];
  }
  const begins = (lines: number): void => {
    const has = open.length === 1 ? 'has' : 'have';
    terminal.err(
      `${someOf(open.map(({ id }) => id))} ${has} no way taken: planning ${lines} line${lines === 1 ? '' : 's'} first, some seconds each. To know at once, their lines taken as 1.3 times straight across: \`fairlead flow ${onFile.file} --as-is\`; \`fairlead plan ${onFile.file} --out FILE\` keeps their ways in a car file\n`,
    );
  };
  return (await plannedCar(onFile.file, asked, terminal, { begins })).planned.lines;
}

const MOST_NAMED = 6;

/** "C3, C4, C5" or "A, B, C, D, E, F and 4 more". */
const someOf = (names: readonly string[]): string =>
  names.length <= MOST_NAMED
    ? names.join(', ')
    : `${names.slice(0, MOST_NAMED).join(', ')} and ${names.length - MOST_NAMED} more`;

function text({ car }: CarOnFile, answer: FlowAnswer, asked: Asked, terminal: Terminal): string {
  if (answer.circuits.length === 0)
    return 'The car has no circuit that flows: name its lines, pumps and vessels under "circuits" in the car file (docs/car-file.md).\n';
  const style = styleFor(asked, terminal);
  const lengths = lengthsIn(asked.has('inches'));
  const units = flowUnits(asked.has('inches'), lengths);
  const isWhole = asked.value('case') !== undefined;
  const tables = answer.circuits.flatMap((circuit) => [
    ...(isWhole
      ? [style.strong(circuit.name), ...circuit.states.flatMap((state) => caseRows(state, units, style))]
      : summaryRows(circuit, units, style)),
    '',
  ]);
  const snags = flowSnags(answer).toSorted((a, b) => rank[a.level] - rank[b.level]);
  const names = [...car.parts, ...car.lines, ...(car.cases ?? [])].flatMap(({ name }) => name ?? []);
  const rows = snags.flatMap((snag) => snagRows(snag, style, lengths, terminal.columns, undefined, names));
  const feet = cautionsFor(car)
    .flatMap((caution) => wrapped(caution, Math.max(60, terminal.columns), ''))
    .map(style.soft);
  return `${[...tables, ...rows, '', `${snagCount(snags)}.`, ...feet].join('\n')}\n`;
}

const rank = { stop: 0, fix: 1, note: 2 } as const;
