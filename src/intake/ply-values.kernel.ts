import { IntakeFault } from './intake-fault.ts';
import { type PlyHeader, type PlyType, plyBytes } from './ply-header.ts';
import { TextScan } from './text-scan.kernel.ts';

/** The values of a PLY's body one after another, whichever of the three ways they are written. */
export interface PlyValues {
  /** The next value; a fault names `place()` when there is none or it is no number. */
  next(type: PlyType, place: () => string): number;
  /** Called after each row. */
  endRow(place: () => string): void;
  /** Fewest bytes a value of this type takes. */
  leastBytes(type: PlyType): number;
  /** Bytes not yet read. */
  left(): number;
}

/** Opens the body of a file whose header has been read. */
export const plyValues = (bytes: Uint8Array, header: PlyHeader): PlyValues =>
  header.format === 'ascii'
    ? new AsciiValues(bytes, header.bodyAt)
    : new BinaryValues(bytes, header.bodyAt, header.format === 'binary_little_endian');

class BinaryValues implements PlyValues {
  readonly #view: DataView;
  readonly #little: boolean;
  #at: number;

  constructor(bytes: Uint8Array, at: number, little: boolean) {
    this.#view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.#at = at;
    this.#little = little;
  }

  next(type: PlyType, place: () => string): number {
    const at = this.#at;
    this.#at += plyBytes(type);
    if (this.#at > this.#view.byteLength)
      throw new IntakeFault(place(), 'the file ends', 'as many values as the header declares (is it cut short?)');
    // biome-ignore format: one line a type
    switch (type) {
      case 'float': case 'float32': return this.#view.getFloat32(at, this.#little);
      case 'double': case 'float64': return this.#view.getFloat64(at, this.#little);
      case 'uchar': case 'uint8': return this.#view.getUint8(at);
      case 'char': case 'int8': return this.#view.getInt8(at);
      case 'ushort': case 'uint16': return this.#view.getUint16(at, this.#little);
      case 'short': case 'int16': return this.#view.getInt16(at, this.#little);
      case 'uint': case 'uint32': return this.#view.getUint32(at, this.#little);
      default: return this.#view.getInt32(at, this.#little);
    }
  }

  endRow(): void {}

  leastBytes(type: PlyType): number {
    return plyBytes(type);
  }

  left(): number {
    return this.#view.byteLength - this.#at;
  }
}

class AsciiValues implements PlyValues {
  readonly #scan: TextScan;
  #fresh = true;

  constructor(bytes: Uint8Array, at: number) {
    this.#scan = new TextScan(bytes, at);
  }

  next(_type: PlyType, place: () => string): number {
    const scan = this.#scan;
    const more = this.#fresh ? scan.nextWord() : scan.nextWordOnLine();
    this.#fresh = false;
    if (!more) {
      const ends = scan.at >= scan.bytes.length;
      throw new IntakeFault(
        this.#line(place),
        ends ? 'the file ends' : 'the line ends',
        `as many values as the header declares${ends ? ' (is it cut short?)' : ''}`,
      );
    }
    const value = scan.number();
    if (Number.isNaN(value)) throw new IntakeFault(this.#line(place), scan.quoted(), 'a finite number');
    return value;
  }

  endRow(place: () => string): void {
    if (this.#scan.nextWordOnLine())
      throw new IntakeFault(
        this.#line(place),
        `${this.#scan.quoted()} after the last value`,
        'the values the header declares',
      );
    this.#fresh = true;
  }

  /** A digit and the blank or line end after it. */
  leastBytes(): number {
    return 2;
  }

  /** One more than is there, for the last value needs no blank after it. */
  left(): number {
    return this.#scan.bytes.length - this.#scan.at + 1;
  }

  #line(place: () => string): string {
    return `${place()} (line ${this.#scan.lineNumber()})`;
  }
}
