import { readFile } from 'node:fs/promises';
import { carWithTaken } from '#answers';
import { type Car, type Catalogue, carText, carWithRows, faultLine, readCar } from '#car';
import { catalogue as shelfOf, importColumns, importTables, type OwnCatalogue, parseCatalogueCsv } from '#standards';
import { carOnFile } from './car-on-file.ts';
import { columns } from './columns.ts';
import type { Command } from './command.ts';
import { CommandFault } from './command-fault.ts';
import { exitCode } from './exit-code.ts';
import { meshesBeside } from './meshes-beside.ts';
import { outFile } from './out-file.ts';
import { quoted } from './quoted.ts';
import { jsonOption } from './usual-options.ts';

export const catalogue: Command = {
  name: 'catalogue',
  about: 'your own list of parts (CSV) checked, and put into the car file',
  operands: [
    { name: 'CAR', about: 'the car file' },
    { name: 'LIST', about: 'the list, comma-separated, one part a row' },
  ],
  options: [
    { name: 'out', value: 'FILE', about: 'write the car with the rows in its catalogue; CAR itself may be named' },
    jsonOption,
  ],
  more: [
    `Columns: ${importColumns.join(' ')}.`,
    `"table" says what a row is (${importTables.join(', ')}); a row with the id of a standard part overrides that part.`,
    'Dash, thread and diameter are checked against each other. With one fault anywhere nothing is written.',
  ],
  async run(asked, terminal) {
    const [file = '', list = ''] = asked.operands;
    const wanted = asked.value('out');
    const out = wanted === undefined ? undefined : await outFile(wanted, file);
    const { car } = await carOnFile(file);
    const { own, faults } = parseCatalogueCsv(await listText(list));
    if (faults.length > 0) throw new CommandFault(faults.map((fault) => `${quoted(list).slice(1, -1)}: ${fault}`));
    const rows = rowsOf(own, car);
    const whole = wholeCar(car, own);
    if (out !== undefined) {
      const meshes = await meshesBeside(whole, file, out.file);
      await out.write(carText(carWithTaken(whole, { lines: [] }, meshes.nameOf)));
      terminal.err(`wrote ${out.file}\n`);
    }
    if (asked.has('json')) terminal.out(`${JSON.stringify({ rows })}\n`);
    else terminal.out(`${inWords(rows, out === undefined).join('\n')}\n`);
    return exitCode.done;
  },
};

/** A list of parts is some pages; more than this is something else [bytes]. */
const MOST_BYTES = 4 * 1024 * 1024;

async function listText(file: string): Promise<string> {
  const bad = (why: string): CommandFault =>
    new CommandFault([`${quoted(file)}: ${why}; allowed: a list of parts (CSV)`]);
  const bytes = await readFile(file).catch((cause: NodeJS.ErrnoException) => {
    throw bad(cause.code === 'ENOENT' ? 'there is no such file' : `cannot be read (${cause.code ?? 'unknown'})`);
  });
  if (bytes.length > MOST_BYTES) throw bad(`has ${Math.round(bytes.length / 1e6)} MB, over 4`);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw bad('is not UTF-8 text');
  }
}

/** The car with the rows in it; what the car file or the shelf does not take is a fault. */
function wholeCar(car: Car, own: OwnCatalogue): Car {
  const whole = carWithRows(car, own as Catalogue);
  const reading = readCar(carText(whole));
  if (!reading.ok) throw new CommandFault(reading.faults.map(faultLine));
  const { faults } = shelfOf((whole.catalogue ?? {}) as OwnCatalogue);
  if (faults.length > 0) throw new CommandFault([...faults]);
  return whole;
}

interface ListRow {
  readonly table: string;
  readonly id: string;
  /** What stood under this id before. */
  readonly replaces: 'nothing' | 'the standard part' | "the car's own row";
}

const tableWords = {
  hoses: 'hose',
  hoseEnds: 'hose end',
  adapters: 'adapter',
  tubes: 'tube',
  seals: 'seal',
  clamps: 'clamp',
  grommets: 'grommet',
} as const;

function rowsOf(own: OwnCatalogue, car: Car): ListRow[] {
  const mine = new Map(Object.values(car.catalogue ?? {}).flatMap((rows) => (rows ?? []).map((row) => [row.id, row])));
  const standard = shelfOf({});
  const ends = standard.hoses.flatMap((hose) => standard.hoseEndsFor(hose));
  const { hoses, adapters, tubes, seals, clamps, grommets } = standard;
  const parts = [...hoses, ...ends, ...adapters, ...tubes, ...seals, ...clamps, ...grommets];
  const known = new Set(parts.map((row) => row.id));
  return (Object.keys(tableWords) as (keyof typeof tableWords)[]).flatMap((table) =>
    (own[table] ?? []).map(({ id }) => ({
      table: tableWords[table],
      id,
      replaces: mine.has(id) ? "the car's own row" : known.has(id) ? 'the standard part' : 'nothing',
    })),
  );
}

function inWords(rows: readonly ListRow[], isTrial: boolean): string[] {
  if (rows.length === 0) return ['The list has no rows.'];
  return [
    ...columns(
      rows.map(({ table, id, replaces }) => [table, id, replaces === 'nothing' ? 'new' : `in place of ${replaces}`]),
    ),
    `${rows.length} ${rows.length === 1 ? 'row agrees' : 'rows agree'} with the standards in dash, thread and diameter.${isTrial ? ' Nothing was written: say --out FILE.' : ''}`,
  ];
}
