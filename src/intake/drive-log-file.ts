import type { DriveLog } from '#flow';
import { headOf, type Head, QUANTITIES, type Quantity, quantityOf } from './drive-log-heads.ts';
import { fileBytes } from './file-bytes.ts';
import { IntakeFault } from './intake-fault.ts';
import { counted } from './limits.ts';

/** A drive log, or the one line that says why not. */
export type DriveLogReading =
  | { readonly ok: true; readonly log: DriveLog }
  | { readonly ok: false; readonly fault: string };

export interface DriveLogOptions {
  /** Oil temperature where the log has none [degC]. */
  readonly oilC?: number;
}

const MOST_BYTES = 256 * 1024 * 1024;
const MOST_ROWS = 2_000_000;
/** Lines above the heads that may say something else. */
const MOST_LINES_ABOVE = 60;
const NEEDED: readonly Quantity[] = ['time', 'rpm', 'longitudinal', 'lateral'];

/**
 * Reads a drive log, a CSV file or its bytes: time, engine speed, longitudinal and lateral g, oil temperature, vertical g where it
 * is logged. Commas, semicolons or tabs; decimal points, or commas where they do not part cells; units in brackets behind
 * the heads or in a line of their own below them. Other columns are let be. Whatever is wrong comes back as one line.
 */
export async function readDriveLog(
  source: string | Uint8Array,
  options: DriveLogOptions = {},
): Promise<DriveLogReading> {
  try {
    const bytes = typeof source === 'string' ? await fileBytes(source, MOST_BYTES) : source;
    if (bytes.length > MOST_BYTES)
      throw new IntakeFault('file', `${counted(bytes.length)} bytes`, `at most ${counted(MOST_BYTES)}`);
    return { ok: true, log: driveLogOf(textOf(bytes), options) };
  } catch (fault) {
    if (fault instanceof IntakeFault) return { ok: false, fault: fault.message };
    throw fault;
  }
}

/** Loggers write UTF-8, or the older set of western Europe for their degree sign. */
function textOf(bytes: Uint8Array): string {
  if (bytes.includes(0)) throw new IntakeFault('file', 'bytes of value 0', 'a text file with a table in it');
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('latin1').decode(bytes);
  }
}

interface Column {
  readonly quantity: Quantity;
  readonly index: number;
  readonly head: Head;
  readonly times: number;
  readonly plus: number;
}

interface Table {
  readonly columns: readonly Column[];
  readonly part: string;
  /** Of the first row of numbers, from 0. */
  readonly from: number;
}

function driveLogOf(text: string, options: DriveLogOptions): DriveLog {
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);
  while (lines.length > 0 && lines.at(-1)!.trim() === '') lines.pop();
  if (lines.length === 0) throw new IntakeFault('file', 'empty', 'a table with heads and rows');
  const table = tableOf(lines, options);
  const count = lines.length - table.from;
  if (count < 2) throw new IntakeFault('file', `${count} row${count === 1 ? '' : 's'} below the heads`, 'two or more');
  if (count > MOST_ROWS) throw new IntakeFault('file', `${counted(count)} rows`, `at most ${counted(MOST_ROWS)}`);
  const values = new Map(table.columns.map(({ quantity }) => [quantity, new Float64Array(count)]));
  for (let i = 0; i < count; i++) readRow(lines[table.from + i]!, table.from + i + 1, table, values, i);
  return logOf(values, table, options, count);
}

function readRow(line: string, row: number, table: Table, values: Map<Quantity, Float64Array>, i: number): void {
  const cells = cellsOf(line, table.part);
  for (const column of table.columns) {
    const { least, most, unitWords } = QUANTITIES[column.quantity];
    const where = `row ${row}, column "${column.head.text}"`;
    const cell = cells[column.index]?.trim() ?? '';
    const number = numberOf(cell, table.part);
    if (number === undefined)
      throw new IntakeFault(
        where,
        cell === '' ? 'empty' : `"${shortened(cell)}"`,
        `a number [${column.head.unit || unitWords}]`,
      );
    const value = number * column.times + column.plus;
    if (!(value >= least && value <= most))
      throw new IntakeFault(where, shortened(cell), `${inUnit(least, column)} to ${inUnit(most, column)}`);
    values.get(column.quantity)![i] = value;
  }
  const time = values.get('time')!;
  if (i > 0 && !(time[i]! > time[i - 1]!))
    throw new IntakeFault(
      `row ${row}, column "${table.columns.find(({ quantity }) => quantity === 'time')!.head.text}"`,
      `${time[i]} s after ${time[i - 1]} s`,
      'later than the row before',
    );
}

const shortened = (cell: string): string => (cell.length > 40 ? `${cell.slice(0, 40)}…` : cell);
const inUnit = (value: number, { times, plus }: Column): string => String(Math.round((value - plus) / times));

/** Finds the heads: the first line that names a time and an engine speed. */
function tableOf(lines: readonly string[], options: DriveLogOptions): Table {
  for (let i = 0; i < Math.min(lines.length, MOST_LINES_ABOVE); i++) {
    const part = partOf(lines[i]!);
    const heads = cellsOf(lines[i]!, part).map(headOf);
    const named = heads.map(quantityOf);
    if (!named.includes('time') || !named.includes('rpm')) continue;
    const below = cellsOf(lines[i + 1] ?? '', part);
    const hasUnitRow = below.length > 1 && below.every((cell) => numberOf(cell.trim(), part) === undefined);
    return {
      part,
      from: i + (hasUnitRow ? 2 : 1),
      columns: columnsOf(heads, named, hasUnitRow ? below : [], i + 1, options),
    };
  }
  const first = cellsOf(lines[0]!, partOf(lines[0]!))
    .map((cell) => `"${shortened(cell.trim())}"`)
    .slice(0, 8);
  throw new IntakeFault(
    'row 1',
    `heads ${first.join(', ')}`,
    'heads that name time and engine speed (time, rpm), in one of the first 60 rows',
  );
}

function columnsOf(
  heads: readonly Head[],
  named: readonly (Quantity | undefined)[],
  unitRow: readonly string[],
  row: number,
  options: DriveLogOptions,
): Column[] {
  const columns: Column[] = [];
  heads.forEach((own, index) => {
    const quantity = named[index];
    if (quantity === undefined) return;
    const twice = columns.find((column) => column.quantity === quantity);
    if (twice !== undefined)
      throw new IntakeFault(
        `row ${row}`,
        `both "${twice.head.text}" and "${own.text}" for ${QUANTITIES[quantity].words}`,
        'one column for it',
      );
    const unit =
      own.unit === ''
        ? (unitRow[index] ?? '')
            .trim()
            .toLowerCase()
            .replaceAll(/[[\]()"]/g, '')
        : own.unit;
    const rule = QUANTITIES[quantity].units.find(({ names }) => names.includes(unit));
    if (rule === undefined)
      throw new IntakeFault(
        `row ${row}, column "${own.text}"`,
        `unit "${shortened(unit)}"`,
        QUANTITIES[quantity].unitWords,
      );
    columns.push({ quantity, index, head: { ...own, unit }, times: rule.times, plus: rule.plus ?? 0 });
  });
  const wanted: readonly Quantity[] = options.oilC === undefined ? [...NEEDED, 'oil'] : NEEDED;
  const missing = wanted.filter((quantity) => !columns.some((column) => column.quantity === quantity));
  if (missing.length > 0)
    throw new IntakeFault(
      `row ${row}`,
      `no column for ${missing.map((quantity) => QUANTITIES[quantity].words).join(', ')} among ${heads
        .slice(0, 12)
        .map(({ text }) => `"${shortened(text)}"`)
        .join(', ')}`,
      'a head each, such as "time [s]", "rpm", "longitudinal [g]", "lateral [g]", "oil temp [°C]"',
    );
  return columns;
}

/** What parts cells: what stands most often in the line, outside quotes. */
function partOf(line: string): string {
  const bare = line.replaceAll(/"[^"]*"/g, '');
  const counts = [';', '\t', ','].map((part) => bare.split(part).length);
  const most = Math.max(...counts);
  return most === 1 ? ',' : [';', '\t', ','][counts.indexOf(most)]!;
}

function cellsOf(line: string, part: string): string[] {
  if (!line.includes('"')) return line.split(part);
  const cells: string[] = [];
  let cell = '';
  let isQuoted = false;
  for (const c of line) {
    if (c === '"') isQuoted = !isQuoted;
    else if (c === part && !isQuoted) {
      cells.push(cell);
      cell = '';
    } else cell += c;
  }
  return [...cells, cell];
}

const NUMBER = /^[+-]?(\d+([.]\d*)?|[.]\d+)(e[+-]?\d{1,3})?$/i;

function numberOf(cell: string, part: string): number | undefined {
  const point = part === ',' && !cell.includes(',') ? cell : cell.replace(',', '.');
  return NUMBER.test(point) ? Number(point) : undefined;
}

/** A log of upright g may count the earth's pull in or not: its middle says which. */
function logOf(values: Map<Quantity, Float64Array>, table: Table, options: DriveLogOptions, count: number): DriveLog {
  const notes: string[] = [];
  let verticalG = values.get('vertical');
  if (verticalG === undefined) {
    verticalG = new Float64Array(count).fill(1);
    notes.push('no vertical g in the log: taken as 1 all the way');
  } else {
    const middle = verticalG.toSorted()[count >> 1]!;
    const head = table.columns.find(({ quantity }) => quantity === 'vertical')!.head.text;
    if (Math.abs(middle) < 0.5) {
      verticalG = verticalG.map((g) => g + 1);
      notes.push(`"${head}" is about 0 in the middle: taken as without the earth's pull, 1 g added`);
    } else if (middle < 0)
      throw new IntakeFault(
        `column "${head}"`,
        `${middle.toFixed(2)} g in the middle of all rows`,
        'about 1 standing, or about 0 without the pull of the earth',
      );
  }
  const oil = values.get('oil');
  if (oil === undefined) notes.push(`no oil temperature in the log: taken as ${options.oilC} °C all the way`);
  const time = values.get('time')!;
  let gap = 0;
  for (let i = 1; i < count; i++) gap = Math.max(gap, time[i]! - time[i - 1]!);
  if (gap > 0.5)
    notes.push(`the longest time between two rows is ${gap.toFixed(1)} s: what is shorter than that is not in the log`);
  return {
    timeS: time,
    rpm: values.get('rpm')!,
    longitudinalG: values.get('longitudinal')!,
    lateralG: values.get('lateral')!,
    verticalG,
    oilC: oil ?? new Float64Array(count).fill(options.oilC!),
    notes,
  };
}
