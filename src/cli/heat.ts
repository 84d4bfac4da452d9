import { curesOf, flowOf, hasHeat, heatOf } from '#answers';
import { heatCases, type HeatAnswer, type LineCures } from '#heat';
import { linesWorld, type LinesWorld, type PlannedLine } from '#lines';
import { cautionsFor, heatSnags } from '#snags';
import { nearestName } from '#sources';
import { carOnFile, type CarOnFile } from './car-on-file.ts';
import type { Asked, Command } from './command.ts';
import { CommandFault } from './command-fault.ts';
import { exitCode } from './exit-code.ts';
import { flowUnits } from './flow-units.ts';
import { cureRows, heatRows, readingRows } from './heat-rows.ts';
import { freshOption } from './kept-plans.ts';
import { lengthsIn } from '#units';
import { plannedCar } from './planned-car.ts';
import { progress } from './progress.ts';
import { quoted } from './quoted.ts';
import { snagCount, snagRows } from './snag-rows.ts';
import { styleFor } from './style.ts';
import type { Terminal } from './terminal.ts';
import { colourOption, inchesOption, jsonOption } from './usual-options.ts';
import { wrapped } from './wrapped.ts';

export const heat: Command = {
  name: 'heat',
  about: 'does it cook: how hot every line, panel and part gets, running and after switching off, and what cures it',
  operands: [{ name: 'CAR', about: 'the car file' }],
  options: [
    { name: 'case', value: 'ID', about: 'this case only, with every line, panel, part and opening' },
    { name: 'cures', value: 'LINE', about: 'what gap, shield, blanket, sleeve or another way is worth on this line' },
    jsonOption,
    inchesOption,
    freshOption,
    colourOption,
  ],
  more: [
    'Lines count as they were taken; where one has no way yet, the car is planned first.',
    'Degrees of a line are its outside at the hottest place, with the error of rays, emissivities and given temperatures.',
  ],
  async run(asked, terminal) {
    const [file = ''] = asked.operands;
    const onFile = await carOnFile(file);
    checkNames(onFile, asked, file);
    const world = linesWorld(onFile.car, onFile.input.meshes);
    if (!hasHeat(world) && !asked.has('json')) {
      terminal.out(NOTHING_HOT);
      return exitCode.done;
    }
    const lines = await linesOf(onFile, asked, terminal);
    const told = progress('cases', terminal, true);
    const watch = (done: number, total: number): boolean => {
      told.at(done, total);
      return true;
    };
    const caseId = asked.value('case');
    const flow = flowOf(world, lines, caseId === undefined ? {} : { caseId });
    const wish = { flow, watch, ...(caseId === undefined ? {} : { caseId }) };
    const answer = heatOf(world, lines, wish);
    const cures = curesFor(world, lines, asked, wish);
    told.end();
    terminal.out(
      asked.has('json')
        ? `${JSON.stringify(cures === null ? answer : { ...answer, cures })}\n`
        : text(onFile, answer, cures, asked, terminal),
    );
    return heatSnags(answer).some(({ level }) => level === 'stop') ? exitCode.stop : exitCode.done;
  },
};

const NOTHING_HOT =
  'No part of the car is of class hot with a surfaceC: nothing cooks until the file says what is hot (docs/heat.md).\n';

function curesFor(
  world: LinesWorld,
  lines: readonly PlannedLine[],
  asked: Asked,
  wish: Parameters<typeof curesOf>[3],
): LineCures | null {
  const line = asked.value('cures');
  return line === undefined ? null : curesOf(world, lines, line, wish);
}

function checkNames({ car }: CarOnFile, asked: Asked, file: string): void {
  const check = (option: string, what: string, known: readonly string[]): void => {
    const id = asked.value(option);
    if (id === undefined || known.includes(id)) return;
    const nearest = nearestName(id, known);
    throw new CommandFault([
      `--${option}: ${quoted(id)} is not a ${what} of ${quoted(file).slice(1, -1)}; allowed: ${known.join(', ')}${nearest === undefined ? '' : ` (nearest: ${nearest})`}`,
    ]);
  };
  check(
    'case',
    'case',
    heatCases(car).map(({ id }) => id),
  );
  check(
    'cures',
    'line',
    car.lines.map(({ id }) => id),
  );
}

/** No line needs planning where each has a way taken. */
async function linesOf(onFile: CarOnFile, asked: Asked, terminal: Terminal): Promise<readonly PlannedLine[]> {
  const open = onFile.car.lines.filter(({ taken, state }) => state === 'planned' && (taken ?? null) === null);
  // Where most are taken the rest has been tried: what has no way then has no temperature either, and the answer says so.
  if (open.length <= onFile.car.lines.length / MOSTLY) return [];
  return (await plannedCar(onFile.file, asked, terminal)).planned.lines;
}

const MOSTLY = 4;

function text(
  { car }: CarOnFile,
  answer: HeatAnswer,
  cures: LineCures | null,
  asked: Asked,
  terminal: Terminal,
): string {
  const style = styleFor(asked, terminal);
  const lengths = lengthsIn(asked.has('inches'));
  const units = flowUnits(asked.has('inches'), lengths);
  const isWhole = asked.value('case') !== undefined;
  const tables = answer.cases.flatMap((row) => heatRows(row, units, style, isWhole));
  const readings = readingRows(answer, units);
  const snags = heatSnags(answer).toSorted((a, b) => rank[a.level] - rank[b.level]);
  const rows = snags.flatMap((snag) => snagRows(snag, style, lengths, terminal.columns));
  const feet = cautionsFor(car)
    .flatMap((caution) => wrapped(caution, Math.max(60, terminal.columns), ''))
    .map(style.soft);
  return `${[
    ...tables,
    ...(readings.length === 0 ? [] : [style.strong('As measured'), ...readings, '']),
    ...(cures === null ? [] : cureRows(cures, style, units)),
    ...rows,
    '',
    `${snagCount(snags)}.`,
    ...feet,
  ].join('\n')}\n`;
}

const rank = { stop: 0, fix: 1, note: 2 } as const;
