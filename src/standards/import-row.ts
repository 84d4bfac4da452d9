import { boreDisagreement, disagreements } from './agreement.ts';
import type { End } from './end.ts';
import type { ImportTable, NumberColumn, TextColumn } from './import-columns.ts';
import type { OwnAdapter, OwnClamp, OwnGrommet, OwnHose, OwnHoseEnd, OwnSeal, OwnTube } from './own-catalogue.ts';
import { parseEnd } from './parse-end.ts';
import { allFluids, clampKinds, type Fixing, sealKinds } from './rows.ts';

/** One row of a builder's list with its cells read. */
export interface ImportRow {
  readonly table: ImportTable;
  readonly id: string;
  readonly texts: Readonly<Partial<Record<TextColumn, string>>>;
  readonly numbers: Readonly<Partial<Record<NumberColumn, number>>>;
}

export interface Imported {
  readonly hose?: OwnHose;
  readonly hoseEnd?: OwnHoseEnd;
  readonly adapter?: OwnAdapter;
  readonly tube?: OwnTube;
  readonly seal?: OwnSeal;
  readonly clamp?: OwnClamp;
  readonly grommet?: OwnGrommet;
  /** "column: what is wrong", one line each. */
  readonly faults: readonly string[];
}

const fixings: readonly Fixing[] = ['crimped', 'crushed-collar', 'reusable', 'push-on'];
const clocks = ['none', 'swivel', 'locknut', 'taper', 'banjo'] as const;
const angles = [0, 30, 45, 60, 90, 120, 150, 180] as const;

/** Checks one row and makes the builder's row of it; dash, thread and diameter must agree with each other. */
export function checkCatalogueRow(row: ImportRow): Imported {
  const faults: string[] = [];
  const made = makers[row.table](row, faults);
  return faults.length > 0 ? { faults } : { ...made, faults };
}

/** Part number, supplier, price and words that any row may carry. */
function common({ id, texts, numbers }: ImportRow) {
  const { name, source, partNumber, supplier, currency } = texts;
  return { id, ...defined({ name, source, partNumber, supplier, currency, price: numbers.price }) };
}

/** Only what is there: an absent cell leaves the row it overrides alone. */
function defined<T extends object>(fields: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(fields).filter(([, v]) => v !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };
}

/** The cell as one of the allowed words, or a fault. */
function oneOf<T extends string | number>(
  column: string,
  value: string | number | undefined,
  allowed: readonly T[],
  faults: string[],
): T | undefined {
  if (value === undefined) return undefined;
  const found = allowed.find((a) => a === value);
  if (found === undefined) faults.push(`${column}: "${value}"; allowed: ${allowed.join(' ')}`);
  return found;
}

function listOf<T extends string>(
  column: string,
  text: string | undefined,
  allowed: readonly T[],
  faults: string[],
): readonly T[] | undefined {
  if (text === undefined) return undefined;
  return text
    .split(/[\s,;/]+/u)
    .filter((w) => w !== '')
    .flatMap((w) => oneOf(column, w, allowed, faults) ?? []);
}

function endIn(column: 'end' | 'a' | 'b', row: ImportRow, faults: string[]): End | undefined {
  const text = row.texts[column];
  if (text === undefined) return undefined;
  const read = parseEnd(text);
  if (!read.ok) {
    faults.push(`${column}: ${read.fault}`);
    return undefined;
  }
  return read.end;
}

/** Thread and diameter columns belong to one end: the hose end's own, or the one of an adapter's that has that dash or thread. */
function checkEnd(end: End | undefined, row: ImportRow, faults: string[]): void {
  const { dash, threadOdMm } = row.numbers;
  const { thread } = row.texts;
  if (end === undefined) return;
  if (dash !== undefined && end.dash !== undefined && dash !== end.dash)
    faults.push(`dash: -${dash} stands beside an end of -${end.dash}`);
  for (const fault of disagreements({ end, thread, threadOdMm }))
    faults.push(`${fault.startsWith('diameter') ? 'threadOdMm' : 'thread'}: ${fault}`);
}

function asHose(row: ImportRow, faults: string[]): Omit<Imported, 'faults'> {
  const { texts, numbers } = row;
  const { dash, boreMm, odMm, pressureBar, vacuumBar, minC, maxC } = numbers;
  const wrongBore = dash === undefined || boreMm === undefined ? undefined : boreDisagreement(dash, boreMm);
  if (wrongBore !== undefined) faults.push(`boreMm: ${wrongBore}`);
  if (boreMm !== undefined && odMm !== undefined && boreMm >= odMm)
    faults.push(`boreMm: ${boreMm} is not smaller than odMm ${odMm}`);
  const radiusMeasured = oneOf('radiusMeasured', texts.radiusMeasured, ['centreline', 'inside'] as const, faults);
  if (numbers.minBendRadiusMm !== undefined && radiusMeasured === undefined && texts.radiusMeasured === undefined) {
    faults.push('radiusMeasured: is missing; centreline or inside: half the outside diameter lies between them');
  }
  const inside = radiusMeasured === 'inside' && odMm !== undefined;
  const minBendRadiusMm =
    inside && numbers.minBendRadiusMm !== undefined ? numbers.minBendRadiusMm + odMm / 2 : numbers.minBendRadiusMm;
  const yes = oneOf('conductive', texts.conductive, ['yes', 'no'] as const, faults);
  const carries = listOf('fluids', texts.fluids, allFluids, faults);
  const conductive = yes === undefined ? undefined : yes === 'yes';
  const fields = {
    family: texts.family,
    dash,
    boreMm,
    odMm,
    minBendRadiusMm,
    radiusMeasured,
    pressureBar,
    vacuumBar,
    minC,
    maxC,
    fluids: carries,
    conductive,
  };
  return { hose: { ...common(row), ...defined(fields) } };
}

function asHoseEnd(row: ImportRow, faults: string[]): Omit<Imported, 'faults'> {
  const { texts, numbers } = row;
  const to = endIn('end', row, faults);
  checkEnd(to, row, faults);
  const angleDeg = oneOf('angleDeg', numbers.angleDeg, angles, faults);
  const fixing = oneOf('fixing', texts.fixing, fixings, faults);
  const families = texts.families?.split(/[\s,;]+/u).filter((w) => w !== '');
  const { nutMm, bendRadiusMm, afterBendMm, socketMm, socketOdMm, neckOdMm, nutHexMm, insertMm, boreMm, cutFactorMm } =
    numbers;
  const fits = numbers.dash === undefined ? { hoseBoreMm: boreMm } : { hoseDash: numbers.dash };
  const fields = {
    to,
    angleDeg,
    fixing,
    families,
    nutMm,
    bendRadiusMm,
    afterBendMm,
    socketMm,
    socketOdMm,
    neckOdMm,
    nutHexMm,
    insertMm,
    cutFactorMm,
    boreMm,
    ...fits,
  };
  return { hoseEnd: { ...common(row), ...defined(fields) } };
}

function asAdapter(row: ImportRow, faults: string[]): Omit<Imported, 'faults'> {
  const { texts, numbers } = row;
  const [a, b] = [endIn('a', row, faults), endIn('b', row, faults)];
  if (texts.thread !== undefined || numbers.threadOdMm !== undefined || numbers.dash !== undefined)
    checkEnd(a, row, faults);
  const angleDeg = oneOf('angleDeg', numbers.angleDeg, [0, 45, 90] as const, faults);
  const clock = oneOf('clock', texts.clock, clocks, faults);
  const { lengthMm, aLegMm, bLegMm, bodyOdMm, hexMm, boreMm, bendRadiusMm } = numbers;
  return {
    adapter: {
      ...common(row),
      ...defined({ a, b, angleDeg, clock, lengthMm, aLegMm, bLegMm, bodyOdMm, hexMm, boreMm, bendRadiusMm }),
    },
  };
}

function asTube(row: ImportRow, faults: string[]): Omit<Imported, 'faults'> {
  const { texts, numbers } = row;
  const { dash, odMm, wallMm, bendRadiusMm, minStraightMm, clampStraightMm, supportMm, pressureBar, maxC } = numbers;
  const tubeOd = dash === undefined ? undefined : (dash * 25.4) / 16;
  if (tubeOd !== undefined && odMm !== undefined && Math.abs(tubeOd - odMm) > 0.15) {
    faults.push(`odMm: ${odMm} does not belong to a -${dash} tube (${tubeOd.toFixed(2)} mm)`);
  }
  if (odMm !== undefined && wallMm !== undefined && 2 * wallMm >= odMm)
    faults.push(`wallMm: ${wallMm} leaves no bore in odMm ${odMm}`);
  const fields = {
    material: texts.material,
    dash,
    odMm,
    wallMm,
    bendRadiusMm,
    minStraightMm,
    clampStraightMm,
    supportMm,
    pressureBar,
    maxC,
    fluids: listOf('fluids', texts.fluids, allFluids, faults),
  };
  return { tube: { ...common(row), ...defined(fields) } };
}

function asSeal(row: ImportRow, faults: string[]): Omit<Imported, 'faults'> {
  const { texts, numbers } = row;
  const kind = oneOf('kind', texts.kind, sealKinds, faults);
  const { idMm, sectionMm } = numbers;
  return { seal: { ...common(row), ...defined({ kind, size: texts.size, idMm, sectionMm }) } };
}

function asClamp(row: ImportRow, faults: string[]): Omit<Imported, 'faults'> {
  const { texts, numbers } = row;
  const kind = oneOf('kind', texts.kind, clampKinds, faults);
  const { minOdMm, maxOdMm, widthMm, standOffMm, maxC } = numbers;
  const fields = { kind, minOdMm, maxOdMm, widthMm, standOffMm, screw: texts.screw, maxC };
  return { clamp: { ...common(row), ...defined(fields) } };
}

function asGrommet(row: ImportRow): Omit<Imported, 'faults'> {
  const { lineOdMinMm, lineOdMaxMm, holeMm, panelMaxMm, outsideOdMm, maxC } = row.numbers;
  const fields = { lineOdMinMm, lineOdMaxMm, holeMm, panelMaxMm, outsideOdMm, maxC };
  return { grommet: { ...common(row), ...defined(fields) } };
}

const makers: Readonly<Record<ImportTable, (row: ImportRow, faults: string[]) => Omit<Imported, 'faults'>>> = {
  hose: asHose,
  'hose-end': asHoseEnd,
  adapter: asAdapter,
  tube: asTube,
  seal: asSeal,
  clamp: asClamp,
  grommet: asGrommet,
};
