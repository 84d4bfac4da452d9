import type { Catalogue } from '#car';

type Table = keyof Catalogue;
/** A row of any table: an id, and numbers and words by the names of their columns. */
export interface OwnRow {
  readonly id: string;
  readonly [field: string]: unknown;
}

export const tableWords: Readonly<Record<Table, string>> = {
  hoses: 'Hoses',
  hoseEnds: 'Hose ends',
  adapters: 'Adapters',
  tubes: 'Hard tube',
  seals: 'Seals',
  clamps: 'Clamps',
  grommets: 'Grommets',
};
const tables = Object.keys(tableWords) as Table[];
const rowsIn = (catalogue: Catalogue, table: Table): readonly OwnRow[] => (catalogue[table] ?? []) as readonly OwnRow[];

/** Tables that have rows, with them. */
export const rowsOf = (catalogue: Catalogue): (readonly [Table, readonly OwnRow[]])[] =>
  tables.flatMap((table) => {
    const rows = rowsIn(catalogue, table);
    return rows.length === 0 ? [] : [[table, rows] as const];
  });

export const rowCount = (catalogue: Catalogue): number =>
  tables.reduce((sum, table) => sum + rowsIn(catalogue, table).length, 0);

/** With rows put in; one of the same id takes the place of the one that was there. */
export function withRows(catalogue: Catalogue, more: Catalogue): Catalogue {
  const joined = tables.flatMap((table): [Table, readonly OwnRow[]][] => {
    const fresh = rowsIn(more, table);
    const ids = new Set(fresh.map((row) => row.id));
    const rows = [...rowsIn(catalogue, table).filter((row) => !ids.has(row.id)), ...fresh];
    return rows.length === 0 ? [] : [[table, rows]];
  });
  return Object.fromEntries(joined) as Catalogue;
}

export function withoutRow(catalogue: Catalogue, table: Table, id: string): Catalogue {
  const rows = rowsIn(catalogue, table).filter((row) => row.id !== id);
  const { [table]: _, ...rest } = catalogue;
  return (rows.length === 0 ? rest : { ...rest, [table]: rows }) as Catalogue;
}

/** Ids of rows to be put in that somebody else wrote otherwise, or took away, since the catalogue was as it was seen. */
export function writtenSince(seen: Catalogue, now: Catalogue, more: Catalogue): readonly string[] {
  const text = (from: Catalogue, table: Table, id: string): string =>
    JSON.stringify(rowsIn(from, table).find((row) => row.id === id)) ?? '';
  return tables.flatMap((table) =>
    rowsIn(more, table).flatMap((row) => {
      const theirs = text(now, table, row.id);
      return theirs === text(seen, table, row.id) || theirs === JSON.stringify(row) ? [] : [row.id];
    }),
  );
}

/** One row by itself. */
export const onlyRow = (catalogue: Catalogue, table: Table, id: string): Catalogue =>
  ({ [table]: rowsIn(catalogue, table).filter((row) => row.id === id) }) as Catalogue;

/** A field of the form for one row, which is a column of the list too. */
export interface OwnField {
  readonly column: string;
  readonly label: string;
  readonly isWanted?: boolean;
  /** Words that may stand there; anything if absent. */
  readonly words?: readonly string[];
}

const named: readonly OwnField[] = [
  { column: 'id', label: 'Id', isWanted: true },
  { column: 'name', label: 'Name' },
];
const bought: readonly OwnField[] = [
  { column: 'partNumber', label: 'Part number' },
  { column: 'supplier', label: 'Bought from' },
  { column: 'price', label: 'Price, each or by the metre' },
  { column: 'currency', label: 'Currency' },
];
const wanted = (column: string, label: string): OwnField => ({ column, label, isWanted: true });
const field = (column: string, label: string): OwnField => ({ column, label });

/** What is asked of a new row, by the kind of part as a list names it. */
export const ownFields = {
  hose: [
    ...named,
    field('dash', 'Size, -'),
    wanted('boreMm', 'Bore, mm'),
    wanted('odMm', 'Outside diameter, mm'),
    wanted('minBendRadiusMm', 'Least bend radius, mm'),
    { column: 'radiusMeasured', label: 'Radius measured to', isWanted: true, words: ['centreline', 'inside'] },
    field('pressureBar', 'Stands, bar'),
    field('vacuumBar', 'Stands vacuum, bar'),
    field('minC', 'Coldest, °C'),
    field('maxC', 'Hottest, °C'),
    field('fluids', 'For, such as oil fuel'),
    field('family', 'Family'),
    ...bought,
  ],
  'hose-end': [
    ...named,
    wanted('end', 'Screws on with'),
    wanted('families', 'Goes on hose of family'),
    {
      column: 'angleDeg',
      label: 'Bend, degrees',
      isWanted: true,
      words: ['0', '30', '45', '60', '90', '120', '150', '180'],
    },
    field('dash', 'Hose size, -'),
    wanted('nutMm', 'Nut, mm'),
    wanted('socketMm', 'Socket, mm'),
    wanted('socketOdMm', 'Socket outside, mm'),
    wanted('neckOdMm', 'Neck outside, mm'),
    field('insertMm', 'Insert, mm'),
    field('cutFactorMm', 'Cut factor, mm'),
    wanted('boreMm', 'Bore, mm'),
    { column: 'fixing', label: 'Held by', words: ['crimped', 'crushed-collar', 'reusable', 'push-on'] },
    field('bendRadiusMm', 'Bend radius, mm'),
    field('afterBendMm', 'Straight behind the bend, mm'),
    ...bought,
  ],
  adapter: [
    ...named,
    wanted('a', 'One end'),
    wanted('b', 'Other end'),
    wanted('lengthMm', 'Length, mm'),
    wanted('bodyOdMm', 'Body outside, mm'),
    wanted('boreMm', 'Bore, mm'),
    { column: 'angleDeg', label: 'Bend, degrees', words: ['0', '45', '90'] },
    field('aLegMm', 'Leg at one end, mm'),
    field('bLegMm', 'Leg at the other, mm'),
    ...bought,
  ],
  tube: [
    ...named,
    wanted('odMm', 'Outside diameter, mm'),
    wanted('wallMm', 'Wall, mm'),
    wanted('bendRadiusMm', 'Bend radius to the centreline, mm'),
    field('material', 'Material'),
    field('pressureBar', 'Stands, bar'),
    field('maxC', 'Hottest, °C'),
    ...bought,
  ],
} as const satisfies Readonly<Record<string, readonly OwnField[]>>;

export type OwnKind = keyof typeof ownFields;
export const kindWords: Readonly<Record<OwnKind, string>> = {
  hose: 'Hose',
  'hose-end': 'Hose end',
  adapter: 'Adapter',
  tube: 'Hard tube',
};

/** Columns of a list, each once. */
export const listColumns: readonly string[] = [
  ...new Set(['table', ...Object.values(ownFields).flatMap((fields) => fields.map(({ column }) => column))]),
];

const labels: ReadonlyMap<string, string> = new Map(
  Object.values(ownFields).flatMap((fields) => fields.map(({ column, label }) => [column, label] as const)),
);

/** A row in a line: its name, and what its form asks, in the form's words. */
export function rowWords(row: OwnRow): string {
  const words = Object.entries(row).flatMap(([key, value]) => {
    if (key === 'id') return [];
    if (key === 'name') return [String(value)];
    const shown =
      typeof value === 'object' && value !== null
        ? (Array.isArray(value) ? value : Object.values(value)).join(' ')
        : String(value);
    const [label, unit] = labels.get(key)?.split(', ') ?? [key];
    return [`${label?.toLowerCase()} ${shown}${unit === 'mm' || unit === 'bar' || unit === '°C' ? ` ${unit}` : ''}`];
  });
  return words.join(', ');
}
