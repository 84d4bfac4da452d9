import type { PublishedValue } from './published.ts';

/** The numbers that a row states by name; a lone number as "value", lists as "0", "1", ... */
export function numbersOf(item: PublishedValue): ReadonlyMap<string, number> {
  const stated: unknown = item.expected;
  const entries = typeof stated === 'number' ? [['value', stated]] : Object.entries(stated as object);
  return new Map(entries.filter((entry): entry is [string, number] => typeof entry[1] === 'number'));
}

/** How far the number of this name may lie off: rows state one tolerance, or one for each name. */
export function mayBeOff(item: PublishedValue, name: string, expected: number): number {
  if (typeof item.tol === 'string') throw new Error(`${item.id} states no tolerance`);
  const { rel, abs } = item.tol as { rel?: number | Readonly<Record<string, number>>; abs?: number };
  const share = typeof rel === 'object' ? rel[name] : rel;
  if (share === undefined && abs === undefined) throw new Error(`${item.id} states no tolerance for ${name}`);
  return Math.max((share ?? 0) * Math.abs(expected), abs ?? 0);
}

/** An input of the row. */
export function inputOf(item: PublishedValue, name: string): number {
  const value: unknown = item.inputs[name];
  if (typeof value !== 'number') throw new Error(`${item.id} has no input "${name}"`);
  return value;
}

/** A list of inputs of the row. */
export function inputsOf(item: PublishedValue, name: string): readonly number[] {
  const value: unknown = item.inputs[name];
  if (!Array.isArray(value)) throw new Error(`${item.id} has no inputs "${name}"`);
  return value as readonly number[];
}
