import type { Json } from './json-text.ts';

/** The same value without any key that begins with x-: those are the builder's own and are never checked. */
export function withoutOwnKeys(value: Json): Json {
  if (Array.isArray(value)) {
    let changed = false;
    const out = value.map((item) => {
      const kept = withoutOwnKeys(item);
      changed ||= kept !== item;
      return kept;
    });
    return changed ? out : value;
  }
  if (typeof value !== 'object' || value === null) return value;
  let changed = false;
  const out: { [key: string]: Json } = {};
  for (const key of Object.keys(value)) {
    if (key.startsWith('x-')) {
      changed = true;
      continue;
    }
    const item = value[key] as Json;
    out[key] = withoutOwnKeys(item);
    changed ||= out[key] !== item;
  }
  return changed ? out : value;
}
