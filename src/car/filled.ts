import type { Json } from './json-text.ts';

type Fields = { [key: string]: Json };

const isFields = (value: Json | undefined): value is Fields => typeof value === 'object' && value !== null && !Array.isArray(value);

/** The file with the fields filled in that it may leave out. What is malformed passes untouched, for the schema to name. */
export function filled(file: Fields): Fields {
  const out = withAbsent(file, { parts: [], movers: [], lines: [] });
  if (Array.isArray(out['parts'])) out['parts'] = out['parts'].map((part) => (isFields(part) ? filledPart(part) : part));
  if (Array.isArray(out['lines'])) {
    out['lines'] = out['lines'].map((line) => (isFields(line) ? withAbsent(line, { pieces: [], through: [], state: 'planned' }) : line));
  }
  return out;
}

function filledPart(part: Fields): Fields {
  const out = withAbsent(part, { shapes: [], ports: [] });
  if (Array.isArray(out['ports'])) out['ports'] = out['ports'].map((port) => (isFields(port) ? filledPort(port) : port));
  return out;
}

/** A measured port stands at the car origin until its readings are worked out. */
function filledPort(port: Fields): Fields {
  return 'measured' in port ? withAbsent(port, { atMm: [0, 0, 0] }) : port;
}

function withAbsent(value: Fields, absent: Fields): Fields {
  const out = { ...value };
  for (const [key, standard] of Object.entries(absent)) if (!Object.hasOwn(out, key)) out[key] = standard;
  return out;
}
