import values from './values.json' with { type: 'json' };

/** A published or independently computed value, with the source that a test names beside its check. */
export interface PublishedValue {
  readonly id: string;
  readonly area: string;
  readonly quantity: string;
  /** Rows of many shapes: numbers for the most part; the one test that reads an area knows its rows. */
  readonly inputs: Readonly<Record<string, number>>;
  readonly expected: number | Readonly<Record<string, number>>;
  readonly units: string;
  /** How far off a number may lie; `formula` and `range`: the row states a form or a band, not a number. */
  readonly tol: { readonly rel?: number; readonly abs?: number } | 'formula' | 'range';
  readonly provenance: string;
  readonly source: readonly string[];
  readonly where?: string;
}

/** Every area that has values; `coverage.test.ts` holds that each is claimed by a test. */
export const areas: readonly string[] = [...new Set(values.items.map((item) => item.area))];

/** The values of one area. A test walks through all of them and knows what to do with each id, or fails. */
export function published(area: string): readonly PublishedValue[] {
  const rows = (values.items as unknown as PublishedValue[]).filter((item) => item.area === area);
  if (rows.length === 0) throw new Error(`no published value has the area "${area}"`);
  return rows;
}

/** `id: quantity (source, place)`: the name of a check against this value. */
export function named(item: PublishedValue): string {
  const titles = item.source.map((s) => (values.sources as Record<string, string>)[s] ?? s);
  return `${item.id}: ${item.quantity} (${titles.join('; ')}${item.where === undefined ? '' : `; ${item.where}`})`;
}

/** The single number that a row states. */
export function expectedNumber(item: PublishedValue): number {
  if (typeof item.expected !== 'number') throw new Error(`${item.id} states more than one number`);
  return item.expected;
}

/** One of the numbers that a row states by name. */
export function expectedOf(item: PublishedValue, name: string): number {
  const value = typeof item.expected === 'number' ? undefined : item.expected[name];
  if (typeof value !== 'number') throw new Error(`${item.id} states no number "${name}"`);
  return value;
}

/** How far a number may lie from the published one: the wider of the row's relative and absolute tolerance. */
export function tolerance(item: PublishedValue, expected: number): number {
  if (typeof item.tol === 'string') return 0;
  return Math.max((item.tol.rel ?? 0) * Math.abs(expected), item.tol.abs ?? 0);
}
