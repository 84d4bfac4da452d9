import type { Fault, Path } from './fault.ts';
import { placeOf, shortened, shown } from './fault.ts';

export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

export type JsonReading =
  | { readonly ok: true; readonly value: Json }
  | { readonly ok: false; readonly faults: Fault[] };

export const JSON_TEXT_LIMIT = 64 * 1024 * 1024;
export const JSON_DEPTH_LIMIT = 64;
export const JSON_LIST_LIMIT = 200_000;
const FAULT_LIMIT = 60;

/**
 * JSON text to a value, stricter than the language's own reader: a key that stands twice, a number beyond what a computer
 * holds and nesting past 64 are faults, and every fault says where it is. A byte-order mark is accepted.
 */
export function readJson(text: string): JsonReading {
  if (text.length > JSON_TEXT_LIMIT) {
    return {
      ok: false,
      faults: [
        { place: 'car file', stands: `${text.length} characters`, allowed: `at most ${JSON_TEXT_LIMIT} (64 MB)` },
      ],
    };
  }
  const reader = new JsonReader(text);
  try {
    const value = reader.whole();
    return reader.faults.length === 0 ? { ok: true, value } : { ok: false, faults: reader.faults };
  } catch (error) {
    if (error instanceof BrokenJson) return { ok: false, faults: [...reader.faults, error.fault] };
    throw error;
  }
}

class BrokenJson extends Error {
  readonly fault: Fault;
  constructor(fault: Fault) {
    super(`car: ${fault.place}`);
    this.fault = fault;
  }
}

const NO_COMMENTS = 'no comments: JSON has none; put remarks in note, or in a key that begins with x-';
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const WORD = /[^\s,:"{}[\]]{1,40}/y;
const LITERALS: ReadonlyMap<string, boolean | null> = new Map([
  ['true', true],
  ['false', false],
  ['null', null],
]);

class JsonReader {
  readonly faults: Fault[] = [];
  private readonly text: string;
  private at = 0;
  private readonly path: (string | number)[] = [];

  constructor(text: string) {
    this.text = text;
    if (text.charCodeAt(0) === 0xfeff) this.at = 1;
  }

  whole(): Json {
    this.skipSpace();
    if (this.at >= this.text.length) this.broken('an empty file', 'a car file, which begins with {');
    const value = this.value();
    this.skipSpace();
    if (this.at < this.text.length) this.broken(this.here(), 'nothing after the closing bracket of the car');
    return value;
  }

  private value(): Json {
    if (this.path.length > JSON_DEPTH_LIMIT)
      this.broken('brackets nested deeper than that', `at most ${JSON_DEPTH_LIMIT} brackets inside each other`);
    const code = this.text.charCodeAt(this.at);
    if (code === 0x7b) return this.object();
    if (code === 0x5b) return this.array();
    if (code === 0x22) return this.string();
    if (code === 0x2d || (code >= 0x30 && code <= 0x39)) return this.number();
    return this.literal();
  }

  private object(): Json {
    const start = this.at++;
    const out: { [key: string]: Json } = {};
    this.skipSpace();
    if (this.take('}')) return out;
    for (;;) {
      this.skipSpace();
      if (this.text[this.at] !== '"') this.missing(start, 'a key in double quotes', 'object');
      const keyAt = this.at;
      const key = this.string();
      this.skipSpace();
      if (!this.take(':')) this.missing(start, 'a colon after the key', 'object');
      this.path.push(key);
      if (key === '__proto__') this.note(keyAt, '"__proto__" as a key', 'any other key');
      else if (Object.hasOwn(out, key))
        this.note(keyAt, `the key ${shown(key)} a second time`, 'each key once in an object');
      this.skipSpace();
      const value = this.value();
      this.path.pop();
      if (key !== '__proto__') out[key] = value;
      this.skipSpace();
      if (this.take('}')) return out;
      if (!this.take(',')) this.missing(start, 'a comma or } after a value', 'object');
      this.refuseTrailingComma('}');
    }
  }

  private array(): Json {
    const start = this.at++;
    const out: Json[] = [];
    this.skipSpace();
    if (this.take(']')) return out;
    for (;;) {
      this.skipSpace();
      if (out.length >= JSON_LIST_LIMIT)
        this.broken(`a list of more than ${JSON_LIST_LIMIT} entries`, `at most ${JSON_LIST_LIMIT} entries in a list`);
      this.path.push(out.length);
      out.push(this.value());
      this.path.pop();
      this.skipSpace();
      if (this.take(']')) return out;
      if (!this.take(',')) this.missing(start, 'a comma or ] after a value', 'list');
      this.refuseTrailingComma(']');
    }
  }

  private string(): string {
    const start = this.at++;
    let plain = true;
    for (; this.at < this.text.length; this.at++) {
      const code = this.text.charCodeAt(this.at);
      if (code === 0x22) {
        const raw = this.text.slice(start, ++this.at);
        return plain ? raw.slice(1, -1) : this.unescaped(raw, start);
      }
      if (code < 0x20)
        this.broken(
          code === 0x0a || code === 0x0d ? 'a line break inside a text' : 'a control character inside a text',
          'the closing double quote first, or an escape such as \\n',
        );
      if (code === 0x5c) {
        plain = false;
        this.at++;
      }
    }
    this.at = start;
    return this.broken(
      `a text that is never closed: ${shortened(this.text.slice(start, start + 40))}`,
      'a closing double quote (is the file cut short?)',
    );
  }

  private unescaped(raw: string, start: number): string {
    if (/^"(?:[^\\]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"$/.test(raw)) return JSON.parse(raw) as string;
    this.at = start;
    return this.broken(
      `a text with an unknown escape: ${shortened(raw)}`,
      'the escapes \\" \\\\ \\/ \\b \\f \\n \\r \\t and \\u with four hex digits',
    );
  }

  private number(): number {
    NUMBER.lastIndex = this.at;
    const found = NUMBER.exec(this.text)?.[0];
    WORD.lastIndex = this.at;
    const word = WORD.exec(this.text)?.[0] ?? '';
    if (found === undefined || found.length < word.length)
      this.broken(shortened(word), 'a number such as -12.5 or 1e3, without leading zero, plus sign or unit');
    const value = Number(found);
    if (!Number.isFinite(value)) this.note(this.at, shortened(found), 'a finite number');
    this.at += found.length;
    return value;
  }

  private literal(): Json {
    WORD.lastIndex = this.at;
    const word = WORD.exec(this.text)?.[0] ?? '';
    const value = LITERALS.get(word);
    if (value === undefined)
      this.broken(this.at >= this.text.length ? 'the end of the file' : this.here(), this.insteadOf(word));
    this.at += word.length;
    return value;
  }

  private insteadOf(word: string): string {
    if (this.at >= this.text.length) return 'a value (is the file cut short?)';
    if (word.startsWith('//') || word.startsWith('/*') || word.startsWith('#')) return NO_COMMENTS;
    if (word.startsWith("'")) return 'texts in double quotes';
    if (/^[+-]?(nan|inf|infinity)$/i.test(word)) return 'a finite number';
    return 'a value: {...}, [...], "text", a number, true, false or null';
  }

  private refuseTrailingComma(closing: string): void {
    this.skipSpace();
    if (this.text[this.at] === closing) this.broken(`a comma before ${closing}`, 'a comma only between two entries');
  }

  /** Where something is missing: at the end of the file it says which bracket was never closed. */
  private missing(start: number, wanted: string, kind: 'object' | 'list'): never {
    const rest = this.text.slice(this.at, this.at + 2);
    if (rest === '//' || rest === '/*' || rest.startsWith('#')) this.broken(shown(rest), NO_COMMENTS);
    if (rest.startsWith("'")) this.broken(this.here(), 'texts and keys in double quotes');
    if (this.at < this.text.length) return this.broken(this.here(), wanted);
    return this.broken(
      'the end of the file',
      `the rest of the ${kind} opened at ${this.position(start)} (is the file cut short?)`,
    );
  }

  private here(): string {
    WORD.lastIndex = this.at;
    const word = WORD.exec(this.text)?.[0];
    return shown(word ?? this.text.slice(this.at, this.at + 1));
  }

  private take(character: string): boolean {
    if (this.text[this.at] !== character) return false;
    this.at++;
    return true;
  }

  private skipSpace(): void {
    for (;;) {
      const code = this.text.charCodeAt(this.at);
      if (code !== 0x20 && code !== 0x0a && code !== 0x0d && code !== 0x09) return;
      this.at++;
    }
  }

  private note(at: number, stands: string, allowed: string): void {
    if (this.faults.length < FAULT_LIMIT)
      this.faults.push({ place: `${placeOf(this.path as Path)} (${this.position(at)})`, stands, allowed });
  }

  private broken(stands: string, allowed: string): never {
    throw new BrokenJson({ place: this.position(this.at), stands, allowed });
  }

  private position(at: number): string {
    let line = 1;
    let start = 0;
    for (let next = this.text.indexOf('\n'); next !== -1 && next < at; next = this.text.indexOf('\n', next + 1)) {
      line++;
      start = next + 1;
    }
    return `line ${line}, column ${at - start + 1}`;
  }
}
