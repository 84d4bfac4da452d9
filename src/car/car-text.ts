import { bared } from './filled.ts';
import type { Json } from './json-text.ts';
import type { Car } from './schema/car.ts';

const WIDTH = 140;

/** The car as the text of a car file: the same car gives the same text; keys keep their order, what fits a line stays on it. */
export function carText(car: Car): string {
  return `${printed(bared(car as unknown as { [key: string]: Json }), 0)}\n`;
}

function printed(value: unknown, indent: number): string {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null';
  const line = oneLine(value, WIDTH - indent);
  if (line !== undefined && indent > 0) return line;
  const pad = ' '.repeat(indent + 2);
  const entries = Array.isArray(value)
    ? value.map((item) => pad + printed(item, indent + 2))
    : Object.entries(value)
        .filter(([, item]) => item !== undefined)
        .map(([key, item]) => `${pad}${JSON.stringify(key)}: ${printed(item, indent + 2)}`);
  const [open, close] = Array.isArray(value) ? '[]' : '{}';
  return entries.length === 0 ? `${open}${close}` : `${open}\n${entries.join(',\n')}\n${' '.repeat(indent)}${close}`;
}

/** The value on one line, if it fits; gives up as soon as it does not. */
function oneLine(value: unknown, room: number): string | undefined {
  if (room < 0) return undefined;
  if (typeof value !== 'object' || value === null) {
    const text = JSON.stringify(value) ?? 'null';
    return text.length <= room ? text : undefined;
  }
  const isList = Array.isArray(value);
  let out = isList ? '[' : '{ ';
  let first = true;
  for (const [key, item] of Object.entries(value)) {
    if (item === undefined && !isList) continue;
    const head = `${first ? '' : ', '}${isList ? '' : `${JSON.stringify(key)}: `}`;
    const text = oneLine(item, room - out.length - head.length - 2);
    if (text === undefined) return undefined;
    out += head + text;
    first = false;
  }
  if (first) return isList ? '[]' : '{}';
  return out + (isList ? ']' : ' }');
}
