/** Widest line before a list or object is broken over several. */
const WIDEST = 200;

/** JSON as a builder would lay it out: whatever fits on one line stands on one line. */
export function carText(value: unknown): string {
  return `${laidOut(value, '')}\n`;
}

function laidOut(value: unknown, indent: string): string {
  const flat = onOneLine(value);
  if (indent.length + flat.length <= WIDEST && indent !== '') return flat;
  if (typeof value !== 'object' || value === null) return flat;
  const inner = `${indent}  `;
  if (Array.isArray(value)) {
    if (value.length === 0) return '[]';
    return `[\n${value.map((item) => inner + laidOut(item, inner)).join(',\n')}\n${indent}]`;
  }
  const rows = Object.entries(value).filter(([, item]) => item !== undefined);
  return `{\n${rows.map(([key, item]) => `${inner}${JSON.stringify(key)}: ${laidOut(item, inner)}`).join(',\n')}\n${indent}}`;
}

function onOneLine(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(onOneLine).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const rows = Object.entries(value).filter(([, item]) => item !== undefined);
  return rows.length === 0
    ? '{}'
    : `{ ${rows.map(([key, item]) => `${JSON.stringify(key)}: ${onOneLine(item)}`).join(', ')} }`;
}
