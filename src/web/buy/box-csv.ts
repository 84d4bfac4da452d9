import type { BoxRow } from '#car';
import { csvOf } from './csv.ts';

/** The box as comma-separated text with a heading: id, how many (metres of hose), remark. */
export function boxToCsv(rows: readonly BoxRow[]): string {
  const cells = rows.map((row) => [row.id, `${row.qty}`, row.note ?? '']);
  return csvOf([['id', 'qty', 'note'], ...cells]);
}

export type BoxRead =
  | { readonly fault: null; readonly rows: readonly BoxRow[] }
  | { readonly fault: string; readonly rows: readonly [] };

/** A count as a spreadsheet writes it; commas, semicolons or tabs between the cells. Columns go by the heading's names. */
export function boxFromCsv(text: string): BoxRead {
  const table = cellsOf(text.replace(/^\uFEFF/, ''));
  const heading = table[0]?.map((cell) => cell.trim().toLowerCase()) ?? [];
  const [id, qty, note] = ['id', 'qty', 'note'].map((name) => heading.indexOf(name)) as [number, number, number];
  if (id === -1 || qty === -1)
    return faulty(`row 1: "${table[0]?.join(',') ?? ''}"; wanted: a heading with id and qty`);
  const rows: BoxRow[] = [];
  for (const [i, row] of table.slice(1).entries()) {
    const name = row[id]?.trim() ?? '';
    if (name === '' && row.every((cell) => cell.trim() === '')) continue;
    const count = Number((row[qty] ?? '').trim().replace(',', '.'));
    if (name === '') return faulty(`row ${i + 2}: no id`);
    if ((row[qty] ?? '').trim() === '' || !Number.isFinite(count) || count < 0 || count > 1e6)
      return faulty(`row ${i + 2}: qty of ${name} is "${row[qty] ?? ''}"; wanted: a number from 0 to 1000000`);
    const remark = note === -1 ? '' : (row[note]?.trim() ?? '');
    rows.push({ id: name, qty: count, ...(remark === '' ? {} : { note: remark }) });
  }
  return { fault: null, rows };
}

const faulty = (fault: string): BoxRead => ({ fault, rows: [] });

/** Rows of cells; quotes may hold the separator and line breaks, and stand doubled for themselves. */
function cellsOf(text: string): string[][] {
  const between = [',', ';', '\t'].find((mark) => (text.split(/\r?\n/)[0] ?? '').includes(mark)) ?? ',';
  const rows: string[][] = [[]];
  let cell = '';
  let isQuoted = false;
  const end = (): void => {
    rows.at(-1)!.push(cell);
    cell = '';
  };
  for (let i = 0; i < text.length; i++) {
    const letter = text[i]!;
    if (isQuoted) {
      if (letter === '"' && text[i + 1] === '"') cell += text[++i];
      else if (letter === '"') isQuoted = false;
      else cell += letter;
    } else if (letter === '"') isQuoted = true;
    else if (letter === between) end();
    else if (letter === '\n') {
      end();
      rows.push([]);
    } else if (letter !== '\r') cell += letter;
  }
  end();
  return rows;
}
