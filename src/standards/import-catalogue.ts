import { nearestName } from '#sources';
import { catalogue } from './catalogue.ts';
import { csvText } from './csv-text.ts';
import {
  importColumns,
  importTables,
  type NumberColumn,
  numberColumns,
  type TextColumn,
  textColumns,
} from './import-columns.ts';
import { checkCatalogueRow, type Imported, type ImportRow } from './import-row.ts';
import type { OwnCatalogue } from './own-catalogue.ts';

/** A builder's list read: the sound rows, and one line for each fault with the line of the file and the column. */
export interface ImportedCatalogue {
  readonly own: OwnCatalogue;
  readonly faults: readonly string[];
}

const numberLimit = 1e6;
/** More parts than any one builder lists. */
const mostRows = 5000;

/**
 * Reads a builder's list of parts (CSV; columns named as in `importColumns`, one row a part, `table` says which kind). A row with a
 * fault is left out; the others stand.
 */
export function parseCatalogueCsv(text: string): ImportedCatalogue {
  const { own, faults } = readRows(text);
  return { own, faults: faults.map(inOneLine) };
}

/** A quoted cell may hold line ends; a fault that shows it stays one line. */
const inOneLine = (fault: string): string => fault.replaceAll(/[\p{C}\p{Z}]+/gu, ' ');

function readRows(text: string): ImportedCatalogue {
  const read = csvText(text);
  if (!read.ok) return { own: {}, faults: [read.fault] };
  const faults = headerFaults(read.header);
  if (faults.length > 0) return { own: {}, faults };
  if (read.rows.length > mostRows) return { own: {}, faults: [`${read.rows.length} rows; up to ${mostRows} are read`] };
  const lines = new Map<string, number>();
  const imported = read.rows.flatMap(({ line, cells }) => {
    const row = cellsOf(read.header, cells, `line ${line}`, faults);
    if (row === undefined) return [];
    const before = lines.get(`${row.table} ${row.id}`);
    if (before !== undefined) {
      faults.push(`line ${line}, id: "${row.id}" stands already on line ${before}`);
      return [];
    }
    lines.set(`${row.table} ${row.id}`, line);
    const made = checkCatalogueRow(row);
    const whole = made.faults.length > 0 ? made.faults : incomplete(made);
    faults.push(...whole.map((f) => `line ${line}, ${f}`));
    return whole.length > 0 ? [] : [made];
  });
  return { own: joined(imported), faults };
}

function headerFaults(header: readonly string[]): string[] {
  const faults = header.flatMap((name, i) => {
    if (importColumns.includes(name))
      return header.indexOf(name) === i ? [] : [`line 1, column ${i + 1}: "${name}" stands twice`];
    const near = nearestName(name, importColumns);
    return [
      `line 1, column ${i + 1}: no column is named "${name.slice(0, 40)}"; ${near === undefined ? `allowed: ${importColumns.join(' ')}` : `nearest: ${near}`}`,
    ];
  });
  const missing = ['table', 'id'].filter((name) => !header.includes(name));
  return [...faults, ...missing.map((name) => `line 1: the column ${name} is missing`)];
}

const isNumberColumn = (name: string): name is NumberColumn => (numberColumns as readonly string[]).includes(name);
const isTextColumn = (name: string): name is TextColumn => (textColumns as readonly string[]).includes(name);

/** The cells by column; undefined (with faults noted) if one cannot be read. */
function cellsOf(
  header: readonly string[],
  cells: readonly string[],
  where: string,
  faults: string[],
): ImportRow | undefined {
  const before = faults.length;
  if (cells.length > header.length) faults.push(`${where}: ${cells.length} cells under ${header.length} columns`);
  const texts: Partial<Record<TextColumn, string>> = {};
  const numbers: Partial<Record<NumberColumn, number>> = {};
  for (const [i, name] of header.entries()) {
    const cell = cells[i]?.trim() ?? '';
    if (cell === '') continue;
    if (isTextColumn(name)) texts[name] = cell;
    if (isNumberColumn(name)) {
      const value = numberIn(cell, name);
      if (value === undefined)
        faults.push(
          `${where}, ${name}: "${cell.slice(0, 40)}" is not a plain number${name === 'dash' ? ' such as 12 or -12' : ''}`,
        );
      else numbers[name] = value;
    }
  }
  const table = importTables.find((t) => t === texts.table);
  if (table === undefined) faults.push(`${where}, table: "${texts.table ?? ''}"; allowed: ${importTables.join(' ')}`);
  if (texts.id === undefined || !/^[\w.-]{1,64}$/u.test(texts.id))
    faults.push(`${where}, id: "${(texts.id ?? '').slice(0, 40)}"; letters, figures, dot, hyphen, up to 64`);
  if (faults.length > before || table === undefined || texts.id === undefined) return undefined;
  return { table, id: texts.id, texts, numbers };
}

/** A decimal point or a decimal comma; a dash size may carry its hyphen. Temperatures may be negative. */
function numberIn(cell: string, column: NumberColumn): number | undefined {
  const plain = column === 'dash' ? cell.replace(/^-/u, '') : cell;
  if (!/^-?\d{1,7}(?:[.,]\d{1,6})?$/u.test(plain)) return undefined;
  if (/^-?\d{1,3},\d{3}$/u.test(plain)) return undefined;
  const value = Number(plain.replace(',', '.'));
  const mayBeNegative = column === 'minC' || column === 'maxC';
  return Math.abs(value) > numberLimit || (value < 0 && !mayBeNegative) ? undefined : value;
}

/** What the row still lacks to stand as a part. */
function incomplete(made: Imported): readonly string[] {
  return catalogue(joined([made])).faults.map((f) => f.replace(/^catalogue\.\w+\[\d+\] "[^"]*": /u, ''));
}

function joined(all: readonly Imported[]): OwnCatalogue {
  const hoses = all.flatMap((i) => i.hose ?? []);
  const hoseEnds = all.flatMap((i) => i.hoseEnd ?? []);
  const adapters = all.flatMap((i) => i.adapter ?? []);
  const tubes = all.flatMap((i) => i.tube ?? []);
  const seals = all.flatMap((i) => i.seal ?? []);
  const clamps = all.flatMap((i) => i.clamp ?? []);
  const grommets = all.flatMap((i) => i.grommet ?? []);
  return { hoses, hoseEnds, adapters, tubes, seals, clamps, grommets };
}
