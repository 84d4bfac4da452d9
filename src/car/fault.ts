/** One thing wrong with a car file: where it is, what stands there, what may stand there. Each is one line of plain text. */
export interface Fault {
  /** JSON path such as `parts[3].ports[0].faces`, or `line 12, column 5` where the JSON itself is broken. */
  readonly place: string;
  readonly stands: string;
  readonly allowed: string;
}

export type Path = readonly (string | number)[];

/** The fault as the one line a builder reads. */
export function faultLine(fault: Fault): string {
  return `${fault.place}: stands ${fault.stands}; allowed: ${fault.allowed}`;
}

/** A JSON path in words: `parts[3].ports[0].faces`; the root is `car file`. */
export function placeOf(path: Path): string {
  let out = '';
  for (const step of path) {
    if (typeof step === 'number') out += `[${step}]`;
    else if (!/^[\p{L}\p{N}_-]{1,60}$/u.test(step)) out += `[${shown(step)}]`;
    else out += out === '' ? step : `.${step}`;
  }
  return out === '' ? 'car file' : out;
}

const SHOWN_LENGTH = 60;

/** A value as it stands in the file, shortened, on one line, with everything unprintable escaped. */
export function shown(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (typeof value === 'number' && !Number.isFinite(value)) return String(value);
  return shortened(JSON.stringify(sketch(value, 3)) ?? typeof value);
}

/** Text cut to a length that fits a line, with line breaks and control characters escaped. */
export function shortened(text: string): string {
  const line = text.slice(0, SHOWN_LENGTH + 1).replace(/[^\P{C} ]|[\u2028\u2029]/gu, escaped);
  return line.length > SHOWN_LENGTH ? `${line.slice(0, SHOWN_LENGTH - 3)}...` : line;
}

function escaped(character: string): string {
  return `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`;
}

/** Only as much of a value as can be shown, so that a fault in a huge list costs nothing to print. */
function sketch(value: unknown, depth: number): unknown {
  if (typeof value === 'string') return value.slice(0, SHOWN_LENGTH);
  if (Array.isArray(value)) return depth === 0 ? [] : value.slice(0, 12).map((item) => sketch(item, depth - 1));
  if (typeof value !== 'object' || value === null) return value;
  const out: Record<string, unknown> = {};
  if (depth === 0) return out;
  for (const key of Object.keys(value).slice(0, 8))
    out[key.slice(0, 30)] = sketch((value as Record<string, unknown>)[key], depth - 1);
  return out;
}
