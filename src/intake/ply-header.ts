import { IntakeFault } from './intake-fault.ts';
import { TextScan } from './text-scan.kernel.ts';

/** Bytes each scalar takes in a binary PLY, by both sets of names the format's description uses. */
// biome-ignore format: pairs of names side by side
const BYTES = {
  char: 1, int8: 1, uchar: 1, uint8: 1, short: 2, int16: 2, ushort: 2, uint16: 2,
  int: 4, int32: 4, uint: 4, uint32: 4, float: 4, float32: 4, double: 8, float64: 8,
} as const;

export type PlyType = keyof typeof BYTES;
export const plyBytes = (type: PlyType): number => BYTES[type];

export interface PlyProperty {
  readonly name: string;
  readonly type: PlyType;
  /** The type of a list's length; absent for a single value. */
  readonly lengthType?: PlyType;
}
export interface PlyElement {
  readonly name: string;
  readonly count: number;
  readonly properties: readonly PlyProperty[];
}
export interface PlyHeader {
  readonly format: 'ascii' | 'binary_little_endian' | 'binary_big_endian';
  readonly elements: readonly PlyElement[];
  /** Where the first element's values begin [bytes]. */
  readonly bodyAt: number;
}

/** A header is a few hundred bytes; anything much longer is not one. */
const HEADER_LIMIT_BYTES = 65_536;

/** The declarations at the head of a PLY file; counts are as declared, not yet held against the file's length. */
export function plyHeader(bytes: Uint8Array): PlyHeader {
  const scan = new TextScan(bytes.subarray(0, HEADER_LIMIT_BYTES));
  if (!scan.nextWordOnLine() || scan.wordStart !== 0 || !scan.isWord('ply')) {
    throw new IntakeFault('PLY line 1', bytes.length > 0 ? scan.quoted() : 'nothing', '"ply"');
  }
  let format: PlyHeader['format'] | undefined;
  const elements: (PlyElement & { properties: PlyProperty[] })[] = [];
  for (;;) {
    if (!scan.nextLine())
      throw new IntakeFault('PLY header', 'no "end_header" within 64 KB', 'a header that ends (is it cut short?)');
    if (!scan.nextWordOnLine() || scan.isWord('comment') || scan.isWord('obj_info')) continue;
    if (scan.isWord('end_header')) break;
    if (scan.isWord('format')) format = headerFormat(scan);
    else if (scan.isWord('element')) elements.push(headerElement(scan));
    else if (scan.isWord('property')) {
      const element = elements.at(-1);
      if (element === undefined) throw odd(scan, 'an element before its first property');
      element.properties.push(headerProperty(scan));
    } else throw odd(scan, 'format, element, property, comment or end_header');
  }
  if (format === undefined)
    throw new IntakeFault('PLY header', 'no format', 'format ascii, binary_little_endian or binary_big_endian');
  scan.nextLine();
  return { format, elements, bodyAt: scan.at };
}

function headerFormat(scan: TextScan): PlyHeader['format'] {
  scan.nextWordOnLine();
  const formats = ['ascii', 'binary_little_endian', 'binary_big_endian'] as const;
  const format = formats.find((name) => scan.isWord(name));
  if (format === undefined) throw odd(scan, formats.join(', '));
  return format;
}

function headerElement(scan: TextScan): PlyElement & { properties: PlyProperty[] } {
  scan.nextWordOnLine();
  const name = scan.text();
  scan.nextWordOnLine();
  const count = scan.number();
  if (!Number.isInteger(count) || count < 0 || count > 0xffffffff) throw odd(scan, 'a count of 0 or more');
  return { name, count, properties: [] };
}

function headerProperty(scan: TextScan): PlyProperty {
  scan.nextWordOnLine();
  if (!scan.isWord('list')) return { type: headerType(scan), name: headerName(scan) };
  scan.nextWordOnLine();
  const lengthType = headerType(scan);
  if (/float|double/.test(lengthType)) throw odd(scan, 'a whole-number type for the length of a list');
  scan.nextWordOnLine();
  return { lengthType, type: headerType(scan), name: headerName(scan) };
}

function headerType(scan: TextScan): PlyType {
  const word = scan.text();
  if (!Object.hasOwn(BYTES, word)) throw odd(scan, Object.keys(BYTES).join(', '));
  return word as PlyType;
}

function headerName(scan: TextScan): string {
  if (!scan.nextWordOnLine()) throw odd(scan, 'a name');
  return scan.text();
}

const odd = (scan: TextScan, allowed: string): IntakeFault =>
  new IntakeFault(
    `PLY line ${scan.lineNumber()}`,
    scan.wordEnd > scan.wordStart ? scan.quoted() : 'the line ends',
    allowed,
  );
