const SPACE = 32;
const LINE_END = 10;
/** Longest word taken for a number; printed doubles need 25 characters, odd exporters pad with zeros. */
const LONGEST_NUMBER = 400;
/** Most digits whose integer is exact in a double, whatever the digits (2^53 has 16). */
const EXACT_DIGITS = 15;
/** Powers of ten up to 10^22 are exact doubles, so one multiplication or division by them rounds correctly. */
const EXACT_POWER = 22;
const POWERS = Array.from({ length: EXACT_POWER + 1 }, (_, e) => Number(`1e${e}`));

/**
 * Walks through the bytes of a text file word by word without making strings of it: a string a word of a million-triangle
 * file costs more memory than the mesh.
 */
export class TextScan {
  readonly bytes: Uint8Array;
  readonly #buffer: Buffer;
  /** Where the walk stands: the first byte not yet read. */
  at: number;
  /** The bounds of the latest word. */
  wordStart = 0;
  wordEnd = 0;

  constructor(bytes: Uint8Array, at = 0) {
    this.bytes = bytes;
    this.#buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.at = at;
  }

  /** Steps over blanks and line ends to the next word; false at the end of the file. */
  nextWord(): boolean {
    const b = this.bytes;
    let i = this.at;
    while (i < b.length && b[i]! <= SPACE) i++;
    return this.#take(i);
  }

  /** The next word on this line; false at the line's end, which is not stepped over. */
  nextWordOnLine(): boolean {
    const b = this.bytes;
    let i = this.at;
    while (i < b.length && b[i]! <= SPACE && b[i] !== LINE_END) i++;
    if (i < b.length && b[i] === LINE_END) {
      this.at = i;
      this.wordStart = this.wordEnd = i;
      return false;
    }
    return this.#take(i);
  }

  /** Steps past the end of this line; false when the file ends with it. */
  nextLine(): boolean {
    const end = this.bytes.indexOf(LINE_END, this.at);
    this.at = end < 0 ? this.bytes.length : end + 1;
    return this.at < this.bytes.length;
  }

  /** Whether the latest word is `lower` (given in lower case), whatever its case in the file. */
  isWord(lower: string): boolean {
    const length = this.wordEnd - this.wordStart;
    if (length !== lower.length) return false;
    for (let i = 0; i < length; i++) {
      const c = this.bytes[this.wordStart + i]!;
      const low = c >= 65 && c <= 90 ? c + 32 : c;
      if (low !== lower.charCodeAt(i)) return false;
    }
    return true;
  }

  /** The latest word as a number, correctly rounded; NaN when it is not one (or says nan, inf). */
  number(): number {
    const b = this.bytes;
    const end = this.wordEnd;
    let i = this.wordStart;
    if (end - i > LONGEST_NUMBER) return Number.NaN;
    const sign = b[i] === 45 ? -1 : 1;
    if (b[i] === 45 || b[i] === 43) i++;
    let mantissa = 0;
    let digits = 0;
    let seen = 0;
    let afterPoint = 0;
    let point = false;
    for (; i < end; i++) {
      const c = b[i]!;
      if (c === 46 && !point) point = true;
      else if (c >= 48 && c <= 57) {
        seen++;
        if (point) afterPoint++;
        if (digits > 0 || c !== 48) digits++;
        mantissa = mantissa * 10 + (c - 48);
      } else break;
    }
    if (seen === 0) return Number.NaN;
    let exponent = 0;
    if (i < end) {
      const read = this.#exponent(i);
      if (Number.isNaN(read)) return Number.NaN;
      exponent = read;
    }
    const power = exponent - afterPoint;
    if (mantissa === 0) return sign * 0;
    if (digits > EXACT_DIGITS || power > EXACT_POWER || power < -EXACT_POWER)
      return Number(this.#latin(this.wordStart, end));
    return sign * (power < 0 ? mantissa / POWERS[-power]! : mantissa * POWERS[power]!);
  }

  /** The latest word for a fault's line: in quotes, cut to 24 characters, odd bytes as "?". */
  quoted(): string {
    const cut = Math.min(this.wordEnd, this.wordStart + 24);
    const text = this.#latin(this.wordStart, cut).replace(/[^\x20-\x7e]/g, '?');
    return `"${text}${cut < this.wordEnd ? '...' : ''}"`;
  }

  /** The latest word as plain text, cut to 200 characters. */
  text(): string {
    return this.#latin(this.wordStart, Math.min(this.wordEnd, this.wordStart + 200));
  }

  /** The number of the line that `offset` stands on, counted only when a fault needs it. */
  lineNumber(offset = this.wordStart): number {
    let line = 1;
    for (let i = this.bytes.indexOf(LINE_END); i >= 0 && i < offset; i = this.bytes.indexOf(LINE_END, i + 1)) line++;
    return line;
  }

  #take(start: number): boolean {
    const b = this.bytes;
    let i = start;
    while (i < b.length && b[i]! > SPACE) i++;
    this.wordStart = start;
    this.wordEnd = i;
    this.at = i;
    return i > start;
  }

  /** "e-12" from byte i to the end of the word; NaN when it is anything else. */
  #exponent(from: number): number {
    const b = this.bytes;
    let i = from;
    if (b[i] !== 101 && b[i] !== 69) return Number.NaN;
    i++;
    const negative = b[i] === 45;
    if (b[i] === 45 || b[i] === 43) i++;
    if (i >= this.wordEnd) return Number.NaN;
    let value = 0;
    for (; i < this.wordEnd; i++) {
      const c = b[i]!;
      if (c < 48 || c > 57) return Number.NaN;
      if (value < 100_000) value = value * 10 + (c - 48);
    }
    return negative ? -value : value;
  }

  #latin(from: number, to: number): string {
    return this.#buffer.toString('latin1', from, to);
  }
}
