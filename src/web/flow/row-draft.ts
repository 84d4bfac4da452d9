import type { Parsed } from '#units';
import { tapeMm, type TapeUnit, unitWritten } from '../tape/tape-text.ts';
import { figureText, readFigure } from './figure.ts';
import type { SizesField } from './sizes-field.ts';
import type { LengthField, Pairs, RowField, RowLaw, RowPlan } from './row-plan.ts';

type Row = Readonly<Record<string, unknown>>;

/** A row as it is typed. */
export interface RowDraft {
  readonly texts: Readonly<Record<string, string>>;
  /** Which of several it is; nothing where there is no choice. */
  readonly law: string;
}

export const lawOf = (plan: RowPlan, id: string): RowLaw | undefined => plan.laws?.of.find((law) => law.id === id);

const fieldsIn = (plan: RowPlan, law: string): readonly RowField[] => [
  ...plan.fields,
  ...(lawOf(plan, law)?.fields ?? []),
  ...plan.more,
];

/** A row as it would be typed; the first law where it is new. */
export function rowDraft(plan: RowPlan, row: Row, isInch: boolean): RowDraft {
  const laws = plan.laws?.of ?? [];
  const law =
    laws.find(({ marks }) => marks.some((mark) => at(row, mark) !== undefined)) ??
    laws.find(({ marks }) => marks.length === 0) ??
    laws[0];
  const all = [...plan.fields, ...laws.flatMap(({ fields }) => fields), ...plan.more];
  return {
    texts: Object.fromEntries(all.map((field) => [field.at, textOf(field, at(row, field.at), isInch)])),
    law: law?.id ?? '',
  };
}

/** The row that a draft means: what was not touched stays to its last digit, what the form does not know stays as it is. */
export function rowFrom(
  plan: RowPlan,
  draft: RowDraft,
  was: Row,
  isInch: boolean,
  unit: TapeUnit = isInch ? 'in' : 'mm',
): Parsed<Row> {
  const before = rowDraft(plan, was, isInch);
  const law = lawOf(plan, draft.law);
  let row: Row = was;
  const own = new Set(Object.keys(law?.stands ?? {}));
  for (const other of plan.laws?.of ?? [])
    for (const place of [...other.marks, ...other.fields.map((field) => field.at), ...Object.keys(other.stands ?? {})])
      if (other.id !== law?.id && !own.has(place)) row = without(row, place);
  row = { ...row, ...(before.law === draft.law ? {} : law?.stands) };
  for (const field of fieldsIn(plan, draft.law)) {
    const text = draft.texts[field.at] ?? '';
    const isSame = text === before.texts[field.at] && at(row, field.at) !== undefined;
    if (isSame) continue;
    const read = readField(field, text, isInch, unit);
    if (!read.ok) return read;
    row = read.value === undefined ? without(row, field.at) : put(row, field.at, read.value);
  }
  for (const [name, needed] of Object.entries(plan.groups)) {
    const group = at(row, name) as Row | undefined;
    if (group === undefined) continue;
    const missing = needed.filter((place) => at(row, place) === undefined);
    if (Object.keys(group).length > 0 && missing.length > 0)
      return {
        ok: false,
        fault: `${labelAt(plan, missing[0]!)}: nothing stands there, and it belongs to the others`,
        ways: [],
      };
  }
  return { ok: true, value: row };
}

const labelAt = (plan: RowPlan, place: string): string => {
  const all = [...plan.fields, ...(plan.laws?.of ?? []).flatMap(({ fields }) => fields), ...plan.more];
  const field = all.find((one) => one.at === place);
  return field === undefined ? place : labelOf(field);
};

export const labelOf = (field: RowField): string => (field.kind === 'figure' ? field.figure.label : field.label);

function textOf(field: RowField, value: unknown, isInch: boolean): string {
  if (value === undefined || value === null) return '';
  if (field.kind === 'figure') return figureText(value as number, field.figure.unit, isInch);
  if (field.kind === 'yes') return value === true ? 'yes' : '';
  if (field.kind === 'place' || field.kind === 'ids') return (value as readonly unknown[]).join(', ');
  if (field.kind === 'outline')
    return `${(value as readonly (readonly number[])[]).map((one) => one.join(' ')).join('; ')} mm`;
  if (field.kind === 'points') return pointsText(value as readonly unknown[], field.pairs);
  if (field.kind === 'length') return `${value as number} mm`;
  if (field.kind === 'lengths') return (value as readonly number[]).map((mm) => `${mm} mm`).join('; ');
  if (field.kind === 'sizes')
    return (value as readonly (readonly number[])[]).map((pair) => `${pair.join(' × ')} mm`).join('; ');
  if (field.kind === 'side') return `${(value as Row)['from'] as string} ${(value as Row)['to'] as string}`;
  return String(value);
}

const pointsText = (list: readonly unknown[], { names }: Pairs): string =>
  list
    .map((point) =>
      (names === undefined ? (point as readonly number[]) : names.map((name) => (point as Row)[name])).join(' '),
    )
    .join('; ');

/** What one field of the form means; undefined where it is empty and may be. */
export function readField(
  field: RowField,
  text: string,
  isInch: boolean,
  unit: TapeUnit = isInch ? 'in' : 'mm',
): Parsed<unknown> {
  if (field.kind === 'figure') return readFigure(text, field.figure, isInch);
  const plain = text.trim();
  if (field.kind === 'length') return readLength(field, plain, unit);
  if (field.kind === 'lengths') return readLengths(field, plain, unit);
  if (field.kind === 'sizes') return readSizes(field, plain, unit);
  if (field.kind === 'side') {
    const [from, to] = plain.split(' ');
    return { ok: true, value: from === undefined || to === undefined ? undefined : { from, to } };
  }
  if (field.kind === 'points') return readPoints(field, plain);
  if (field.kind === 'place')
    return plain === '' && field.isDirection === true ? { ok: true, value: undefined } : readPlace(field.label, plain);
  if (field.kind === 'ids') return readIds(field, plain);
  if (field.kind === 'outline') return readOutline(field, plain, unit);
  if (field.kind === 'yes') return { ok: true, value: plain === 'yes' ? true : undefined };
  const isNeeded = field.kind === 'spot' || field.kind === 'part' || field.kind === 'choice';
  if (plain === '' && isNeeded) return no(`${field.label}: nothing is chosen`);
  return { ok: true, value: plain === '' ? undefined : plain };
}

function readLength(field: LengthField, text: string, unit: TapeUnit): Parsed<number | undefined> {
  const { label, fromMm, toMm, isNeeded } = field;
  const range = `${fromMm} to ${toMm} mm is allowed`;
  if (text === '')
    return isNeeded === true ? no(`${label}: nothing stands there; ${range}`) : { ok: true, value: undefined };
  const read = tapeMm(text, unit);
  if (!read.ok) return { ...read, fault: `${label}: ${read.fault}` };
  if (read.value < fromMm || read.value > toMm) return no(`${label}: "${text}" is out of range; ${range}`);
  return { ok: true, value: hundredth(read.value) };
}

const hundredth = (mm: number): number => Math.round(mm * 100) / 100 + 0;

/** "420 x 180 mm", "16 1/2 in; 7 in": one without a unit has that of the last. */
function readLengths(
  { label, count, isNeeded }: Extract<RowField, { kind: 'lengths' }>,
  text: string,
  unit: TapeUnit,
): Parsed<readonly number[] | undefined> {
  const example = count === 2 ? '420 x 180 mm' : '1370; 250; 780 mm';
  const wanted = `${count === 2 ? 'two' : 'three'} lengths are wanted, such as ${example}`;
  if (text === '')
    return isNeeded === true ? no(`${label}: nothing stands there; ${wanted}`) : { ok: true, value: undefined };
  const parts = text.split(/\s*(?:;|×|x|\bby\b)\s*|,\s+/iu).filter((part) => part !== '');
  if (parts.length !== count) return no(`${label}: "${text}" is not that; ${wanted}`);
  const common = unitWritten(parts.at(-1)!) ?? unit;
  const values: number[] = [];
  for (const part of parts) {
    const read = tapeMm(part, common);
    if (!read.ok) return { ok: false, fault: `${label}: ${read.fault}`, ways: [] };
    values.push(hundredth(read.value));
  }
  return { ok: true, value: values };
}

/** "-40 × 10 mm; 40 × 10 mm", "-1 1/2 x 3/8 in; ...": one without a unit has that of the last. */
function readSizes(
  { label, count, example, isNeeded }: SizesField,
  text: string,
  unit: TapeUnit,
): Parsed<readonly (readonly number[])[] | undefined> {
  const parts = text
    .split(/[;\n]/u)
    .map((part) => part.trim())
    .filter((part) => part !== '');
  if (parts.length === 0)
    return isNeeded === true
      ? no(`${label}: nothing stands there; such as ${example} is wanted`)
      : { ok: true, value: undefined };
  const common = unitWritten(parts.at(-1)!) ?? unit;
  const rows: (readonly number[])[] = [];
  for (const part of parts) {
    const read = readLengths({ kind: 'lengths', at: '', label, count, isNeeded: true }, part, common);
    if (!read.ok) return no(`${label}: "${part}" is not that; such as ${example} is wanted`);
    rows.push(read.value!);
  }
  return { ok: true, value: rows };
}

const no = (fault: string): Parsed<never> => ({ ok: false, fault, ways: [] });
const NUMBER = /^[-−]?\d+(?:[.,]\d+)?$/u;
const read = (text: string): number =>
  NUMBER.test(text) ? Number(text.replace(',', '.').replace('−', '-')) : Number.NaN;

/** "25 9; 50 25": two numbers a point. */
function readPoints({ label, pairs }: Extract<RowField, { kind: 'points' }>, text: string): Parsed<unknown> {
  const { units, example, least, names } = pairs;
  const wanted = `${least === 1 ? 'points' : 'two or more points'} are wanted, such as ${example} [${units}]`;
  const points = text
    .split(/[;\n]/u)
    .map((one) => one.trim())
    .filter((one) => one !== '')
    .map((one) => one.split(/[\s:]+/u).map(read));
  if (points.length === 0 && least === 1) return { ok: true, value: undefined };
  const wrong = points.findIndex((point) => point.length !== 2 || !point.every(Number.isFinite));
  if (wrong >= 0) return no(`${label}: point ${wrong + 1} is no pair of numbers; ${wanted}`);
  if (points.length < least)
    return no(`${label}: ${points.length === 0 ? 'nothing stands' : '1 point stands'} there; ${wanted}`);
  if (new Set(points.map(([first]) => first)).size < points.length)
    return no(`${label}: two points begin with the same number; ${wanted}`);
  return { ok: true, value: names === undefined ? points : points.map(([a, b]) => ({ [names[0]]: a, [names[1]]: b })) };
}

/** "PN2L, PN3": each one that there is, and once. */
function readIds({ label, of }: Extract<RowField, { kind: 'ids' }>, text: string): Parsed<unknown> {
  const ids = text.split(/[\s,;]+/u).filter((one) => one !== '');
  const strange = ids.find((id) => !of.some(([known]) => known === id));
  if (strange !== undefined)
    return no(`${label}: "${strange}" is none of them; allowed: ${of.map(([known]) => known).join(', ')}`);
  return { ok: true, value: ids.length === 0 ? undefined : [...new Set(ids)] };
}

/**
 * "-20 -15; 20 -15 0.2; 14 15 mm", "-3/4 x -1/2; ... in": two lengths a corner, and a bulge where an arc leaves it; those without a unit have
 * that of the last.
 */
function readOutline(
  { label, example }: Extract<RowField, { kind: 'outline' }>,
  text: string,
  unit: TapeUnit,
): Parsed<unknown> {
  const wanted = `three corners or more are wanted, such as ${example}`;
  const written = text
    .split(/[;\n]/u)
    .map((one) => one.trim())
    .filter((one) => one !== '');
  if (written.length === 0) return { ok: true, value: undefined };
  const common = written.map(unitWritten).findLast((one) => one !== undefined) ?? unit ?? 'mm';
  const corners = written.map((one) => readCorner(one, unitWritten(one) ?? common));
  const wrong = corners.indexOf(undefined);
  if (wrong >= 0) return no(`${label}: corner ${wrong + 1} is not two lengths, or three with a bulge; ${wanted}`);
  return corners.length < 3 ? no(`${label}: ${corners.length} stand there; ${wanted}`) : { ok: true, value: corners };
}

function readCorner(text: string, unit: TapeUnit): readonly number[] | undefined {
  const plain = text.replace(/\s*(?:mm|cm|inches|inch|in\.?|")$/iu, '');
  const parts = plain.split(/[×x]/iu.test(plain) ? /\s*[×x]\s*/iu : /[\s,]+/u);
  const [across, up] = parts.slice(0, 2).map((part) => tapeMm(part, unit));
  const bulge = parts.slice(2).map(read);
  if (across?.ok !== true || up?.ok !== true || bulge.length > 1 || !bulge.every(Number.isFinite)) return undefined;
  return [thousandth(across.value), thousandth(up.value), ...bulge];
}

const thousandth = (mm: number): number => Math.round(mm * 1000) / 1000 + 0;

function readPlace(label: string, text: string): Parsed<unknown> {
  const numbers = text
    .split(/[\s,;]+/u)
    .filter((one) => one !== '')
    .map(read);
  if (numbers.length !== 3 || !numbers.every(Number.isFinite))
    return no(`${label}: three numbers are wanted, X rearward, Y right, Z up, such as 1780, -600, 90 [mm]`);
  return { ok: true, value: numbers };
}

/** What stands at "relief.cracksBar" of a row. */
function at(row: Row, place: string): unknown {
  let value: unknown = row;
  for (const step of place.split('.')) value = (value as Row | undefined)?.[step];
  return value;
}

function put(row: Row, place: string, value: unknown): Row {
  const [first = '', ...rest] = place.split('.');
  if (rest.length === 0) return { ...row, [first]: value };
  return { ...row, [first]: put((row[first] as Row | undefined) ?? {}, rest.join('.'), value) };
}

/** Without it, and without a group of which nothing is left. */
function without(row: Row, place: string): Row {
  const [first = '', ...rest] = place.split('.');
  if (row[first] === undefined) return row;
  const { [first]: inner, ...others } = row;
  if (rest.length === 0) return others;
  const left = without(inner as Row, rest.join('.'));
  return Object.keys(left).length === 0 && rest.length > 0 && !isWhole(first) ? others : { ...row, [first]: left };
}

/** Kinds of fluid stand with nothing in them. */
const isWhole = (name: string): boolean => ['oil', 'fuel', 'water', 'air', 'other'].includes(name);
