import type { Car, Change, Edit } from '#car';

type Json = unknown;
type Fields = Readonly<Record<string, Json>>;
type Path = readonly string[];

/** One edit that makes one car of another, key order and all: it touches what differs and nothing else. */
export function differences(from: Car, to: Car): Edit {
  const changes: Change[] = [];
  compareFields(from as unknown as Fields, to as unknown as Fields, [], changes);
  return { do: 'restore', changes };
}

function compareFields(from: Fields, to: Fields, at: Path, out: Change[]): void {
  const keys = Object.keys(to);
  for (const key of Object.keys(from)) if (!Object.hasOwn(to, key)) out.push({ kind: 'set', at: [...at, key] });
  for (const key of keys) {
    if (isAlike(from[key], to[key])) continue;
    if (Object.hasOwn(from, key) && isNamedList(from[key]) && isNamedList(to[key]))
      compareLists(from[key], to[key], [...at, key], out);
    else out.push(setting([...at, key], to[key], keys));
  }
  // The same fields in another order: setting one of them anew carries the order along.
  const kept = Object.keys(from).filter((key) => Object.hasOwn(to, key));
  const first = keys[0];
  if (first !== undefined && kept.join('\n') !== keys.filter((key) => Object.hasOwn(from, key)).join('\n'))
    out.push(setting([...at, first], to[first], keys));
}

function compareLists(from: readonly Named[], to: readonly Named[], at: Path, out: Change[]): void {
  const wanted = to.map((entry) => entry.id);
  const now = from.map((entry) => entry.id).filter((id) => wanted.includes(id));
  for (const { id } of from) if (!wanted.includes(id)) out.push({ kind: 'remove', at: [...at, `#${id}`] });
  to.forEach((entry, index) => {
    const before = from.find((other) => other.id === entry.id);
    const place = [...at, `#${entry.id}`];
    if (before !== undefined && now[index] === entry.id) return compareEntries(before, entry, place, out);
    if (before !== undefined) {
      out.push({ kind: 'remove', at: place });
      now.splice(now.indexOf(entry.id), 1);
    }
    out.push({ kind: 'insert', at, index, value: entry as never });
    now.splice(index, 0, entry.id);
    return undefined;
  });
}

function compareEntries(from: Named, to: Named, at: Path, out: Change[]): void {
  if (!isAlike(from, to)) compareFields(from, to, at, out);
}

type Named = Fields & { readonly id: string };

/** A list whose entries are found by their ids. */
function isNamedList(value: Json): value is readonly Named[] {
  if (!Array.isArray(value)) return false;
  const ids = value.map((entry: Json) =>
    typeof entry === 'object' && entry !== null ? (entry as Fields)['id'] : undefined,
  );
  return ids.every((id) => typeof id === 'string') && new Set(ids).size === ids.length;
}

function setting(at: Path, value: Json, keys: readonly string[]): Change {
  return { kind: 'set', at, value: value as never, keys };
}

function isAlike(a: Json, b: Json): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
