/** A table read from text: header and rows with the line each began on; or the first thing that is not a table. */
export type CsvText =
  | {
      readonly ok: true;
      readonly header: readonly string[];
      readonly rows: readonly { readonly line: number; readonly cells: readonly string[] }[];
    }
  | { readonly ok: false; readonly fault: string };

/** A list of parts is short; a longer text is some other file. */
const mostSigns = 4_000_000;
const mostCellSigns = 2000;

/**
 * Strict reader of comma-, semicolon- or tab-parted text (RFC 4180): quoted cells, doubled quotes, either line end, a leading byte
 * mark. Whichever sign stands most often in the header parts the cells. An open quote or a stray one is a fault with its line.
 */
export function csvText(text: string): CsvText {
  if (text.length > mostSigns) return { ok: false, fault: `longer than ${mostSigns} signs; a list of parts is wanted` };
  const plain = text.replace(/^\uFEFF/u, '');
  const parting = partingSign(plain.slice(0, plain.search(/[\r\n]|$/u)));
  const records = readRecords(plain, parting);
  if (typeof records === 'string') return { ok: false, fault: records };
  const [first, ...rows] = records;
  if (first === undefined) return { ok: false, fault: 'line 1: empty; a header of column names is wanted' };
  return { ok: true, header: first.cells.map((c) => c.trim()), rows };
}

function partingSign(header: string): string {
  const count = (sign: string): number => header.split(sign).length;
  return [',', ';', '\t'].reduce((best, sign) => (count(sign) > count(best) ? sign : best));
}

interface Record {
  line: number;
  cells: string[];
}

function readRecords(text: string, parting: string): Record[] | string {
  const records: Record[] = [];
  let [at, line] = [0, 1];
  while (at < text.length) {
    const record: Record = { line, cells: [] };
    let ended = false;
    while (!ended) {
      const cell = readCell(text, at, parting, line);
      if (typeof cell === 'string') return cell;
      record.cells.push(cell.value);
      [at, line, ended] = [cell.next, cell.line, cell.ended];
    }
    if (record.cells.some((c) => c.trim() !== '')) records.push(record);
  }
  return records;
}

interface Cell {
  readonly value: string;
  readonly next: number;
  readonly line: number;
  readonly ended: boolean;
}

function readCell(text: string, from: number, parting: string, line: number): Cell | string {
  let [at, value, here] = [from, '', line];
  if (text[at] === '"') {
    at++;
    for (;;) {
      const quote = text.indexOf('"', at);
      if (quote < 0) return `line ${line}: a quote is opened and never closed`;
      value += text.slice(at, quote);
      at = quote + 1;
      if (text[at] !== '"') break;
      value += '"';
      at++;
    }
    here += value.split('\n').length - 1;
  } else {
    const start = at;
    while (at < text.length && text[at] !== parting && text[at] !== '\n' && text[at] !== '\r') at++;
    value = text.slice(start, at);
  }
  if (value.length > mostCellSigns) return `line ${line}: a cell of more than ${mostCellSigns} signs`;
  if (at >= text.length) return { value, next: at, line: here, ended: true };
  if (text[at] === parting) return { value, next: at + 1, line: here, ended: false };
  if (text[at] === '\r' && text[at + 1] === '\n') at++;
  if (text[at] === '\n' || text[at] === '\r') return { value, next: at + 1, line: here + 1, ended: true };
  return `line ${here}: "${text.slice(at, at + 10).replaceAll(/\s/gu, ' ')}" stands after a closing quote; part the cells or double the quote`;
}
