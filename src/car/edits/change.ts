import type { Json } from '../json-text.ts';
import { CarEditError } from './car-edit-error.ts';

/** Where in a car: keys, and for an entry of a list with ids `#` and its id: `['parts', '#tank', 'ports', '#out', 'atMm']`. */
export type ChangePath = readonly string[];

/** The smallest step of a change: one field set or taken away, one entry put into a list or taken out. Plain JSON. */
export type Change =
  | {
      readonly kind: 'set';
      readonly at: ChangePath;
      readonly value?: Json /** Order of the keys afterwards. */;
      readonly keys?: readonly string[];
    }
  | { readonly kind: 'insert'; readonly at: ChangePath; readonly index: number; readonly value: Json }
  | { readonly kind: 'remove'; readonly at: ChangePath };

type Fields = { [key: string]: Json };

/** The document after one change, and the change that takes it back. Nothing of the old document is written to. */
export function changed(document: Json, change: Change): { readonly document: Json; readonly inverse: Change } {
  let inverse: Change | undefined;
  const owner = change.kind === 'insert' ? change.at : change.at.slice(0, -1);
  const out = rebuilt(document, owner, change.at, (value) => {
    const step =
      change.kind === 'set'
        ? setField(value, change)
        : change.kind === 'insert'
          ? inserted(value, change)
          : removed(value, change);
    inverse = step.inverse;
    return step.value;
  });
  if (inverse === undefined) throw new CarEditError(change.at, 'nothing to change');
  return { document: out, inverse };
}

interface Step {
  readonly value: Json;
  readonly inverse: Change;
}

function setField(owner: Json, change: Change & { kind: 'set' }): Step {
  const key = change.at.at(-1) ?? '';
  if (typeof owner !== 'object' || owner === null || Array.isArray(owner) || key === '__proto__')
    throw new CarEditError(change.at, 'no object to set a field of');
  const was = Object.hasOwn(owner, key) ? owner[key] : undefined;
  const keys = Object.keys(owner);
  const next: Fields = { ...owner };
  if (change.value === undefined) delete next[key];
  else next[key] = change.value;
  const isNewKey = (was === undefined) !== (change.value === undefined);
  const inverse: Change = {
    kind: 'set',
    at: change.at,
    ...(was === undefined ? {} : { value: was }),
    ...(isNewKey ? { keys } : {}),
  };
  return { value: change.keys === undefined ? next : ordered(next, change.keys), inverse };
}

function ordered(value: Fields, keys: readonly string[]): Fields {
  const out: Fields = {};
  for (const key of keys) if (Object.hasOwn(value, key)) out[key] = value[key] as Json;
  for (const key of Object.keys(value)) if (!Object.hasOwn(out, key)) out[key] = value[key] as Json;
  return out;
}

function inserted(list: Json, change: Change & { kind: 'insert' }): Step {
  if (!Array.isArray(list)) throw new CarEditError(change.at, 'no list to put an entry into');
  const id = idOf(change.value);
  if (list.some((entry) => idOf(entry) === id))
    throw new CarEditError([...change.at, `#${id}`], 'an entry with this id is there already');
  const index = Math.min(Math.max(0, change.index), list.length);
  return { value: list.toSpliced(index, 0, change.value), inverse: { kind: 'remove', at: [...change.at, `#${id}`] } };
}

function removed(list: Json, change: Change & { kind: 'remove' }): Step {
  const index = entryIndex(list, change.at.at(-1) ?? '', change.at);
  const entries = list as Json[];
  return {
    value: entries.toSpliced(index, 1),
    inverse: { kind: 'insert', at: change.at.slice(0, -1), index, value: entries[index] as Json },
  };
}

/** A copy of the document in which what stands at `path` is replaced; everything beside the path is shared. */
function rebuilt(value: Json, path: ChangePath, whole: ChangePath, replace: (value: Json) => Json): Json {
  const [step, ...rest] = path;
  if (step === undefined) return replace(value);
  if (step.startsWith('#')) {
    const index = entryIndex(value, step, whole);
    const list = value as Json[];
    return list.with(index, rebuilt(list[index] as Json, rest, whole, replace));
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value) || !Object.hasOwn(value, step))
    throw new CarEditError(whole, `there is no ${step}`);
  return { ...value, [step]: rebuilt(value[step] as Json, rest, whole, replace) };
}

function entryIndex(list: Json, step: string, whole: ChangePath): number {
  const index = Array.isArray(list) ? list.findIndex((entry) => `#${idOf(entry)}` === step) : -1;
  if (index === -1) throw new CarEditError(whole, `there is no ${step.slice(1)}`);
  return index;
}

function idOf(entry: Json): string {
  const id = typeof entry === 'object' && entry !== null && !Array.isArray(entry) ? entry['id'] : undefined;
  return typeof id === 'string' ? id : '';
}
