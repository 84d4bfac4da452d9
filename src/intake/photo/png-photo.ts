import { convertIndexedToRgb, decode } from 'fast-png';
import { Unzlib } from 'fflate';
import { IntakeFault } from '../intake-fault.ts';
import { counted } from '../limits.ts';
import type { StoredPicture } from './jpeg-photo.ts';
import { checkSize } from './photo-size.ts';

const SIGNATURE = [137, 80, 78, 71, 13, 10, 26, 10];
/** Parts that make the picture; everything else (texts, colour profiles, further pictures) is left out unread. */
const KEPT = new Set(['IHDR', 'PLTE', 'tRNS', 'IDAT', 'IEND']);
const CHANNELS: Readonly<Record<number, number>> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 };
const FEED = 16 * 1024;

/** Decodes a PNG file once its parts have been walked and what it unpacks to has been counted. */
export function readPng(bytes: Uint8Array): StoredPicture {
  const { kept, packed, most } = walked(bytes);
  checkUnpacked(packed, most);
  try {
    const png = decode(kept);
    const { width, height } = png;
    const shift = png.depth === 16 ? 8 : 0;
    const palette = png.palette;
    const data = palette === undefined ? png.data : convertIndexedToRgb(png);
    const channels = palette === undefined ? png.channels : data.length / (width * height);
    const top = palette === undefined && png.depth < 8 ? 2 ** png.depth - 1 : 255;
    const rgba = new Uint8Array(4 * width * height);
    for (let i = 0; i < width * height; i++)
      for (let c = 0; c < 4; c++) {
        const from = channels < 3 ? 0 : Math.min(c, 2);
        rgba[4 * i + c] = c === 3 ? 255 : ((data[i * channels + from]! >> shift) * 255) / top;
      }
    return { width, height, rgba, exif: { orientation: 1 } };
  } catch {
    throw new IntakeFault('PNG', "its picture can't be decoded", 'a whole PNG file (is it cut short or damaged?)');
  }
}

interface Walk {
  /** The file with only what makes the picture. */
  readonly kept: Uint8Array;
  readonly packed: readonly Uint8Array[];
  /** Bytes that the picture unpacks to. */
  readonly most: number;
}

function walked(bytes: Uint8Array): Walk {
  if (!SIGNATURE.every((value, i) => bytes[i] === value))
    throw new IntakeFault('PNG bytes 0-7', 'no PNG mark', 'a PNG file');
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const parts: Uint8Array[] = [bytes.subarray(0, 8)];
  const packed: Uint8Array[] = [];
  let most = 0;
  let at = 8;
  let isEnded = false;
  while (!isEnded) {
    if (at + 12 > bytes.length)
      throw new IntakeFault('PNG', 'the file ends', 'a part "IEND" at the end (is it cut short?)');
    const length = view.getUint32(at);
    const name = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    if (length > bytes.length - at - 12)
      throw new IntakeFault(
        `PNG byte ${counted(at)}`,
        `a part of ${counted(length)} bytes; ${counted(bytes.length - at - 12)} are left`,
        'a part that fits the file (is it cut short?)',
      );
    if ((most === 0) !== (name === 'IHDR'))
      throw new IntakeFault(`PNG byte ${counted(at)}`, 'the head not first or not once', 'one part "IHDR", first');
    if (name === 'IHDR') most = headOf(view, at + 8, length);
    if (name === 'IDAT') packed.push(bytes.subarray(at + 8, at + 8 + length));
    if (KEPT.has(name)) parts.push(bytes.subarray(at, at + 12 + length));
    isEnded = name === 'IEND';
    at += 12 + length;
  }
  const kept = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let to = 0;
  for (const part of parts) {
    kept.set(part, to);
    to += part.length;
  }
  return { kept, packed, most };
}

function headOf(view: DataView, at: number, length: number): number {
  if (length !== 13) throw new IntakeFault('PNG head', `${counted(length)} bytes`, '13');
  const [width, height, depth, kind] = [
    view.getUint32(at),
    view.getUint32(at + 4),
    view.getUint8(at + 8),
    view.getUint8(at + 9),
  ];
  checkSize('PNG head', width, height);
  const channels = CHANNELS[kind];
  if (channels === undefined || ![1, 2, 4, 8, 16].includes(depth))
    throw new IntakeFault('PNG head', `colour kind ${kind}, ${depth} bits`, 'a kind and depth of the standard');
  // a row more for each pass of a picture stored in passes
  return Math.ceil((width * channels * depth) / 8 + 1) * height + 16 * (width + height) * channels;
}

/** Counts what comes out, and lets go of it, before the decoder keeps it: a small file may unpack to any size. */
function checkUnpacked(packed: readonly Uint8Array[], most: number): void {
  let sum = 0;
  const unpack = new Unzlib((piece) => {
    sum += piece.length;
  });
  try {
    for (const part of packed)
      for (let at = 0; at < part.length && sum <= most; at += FEED) unpack.push(part.slice(at, at + FEED));
  } catch {
    throw new IntakeFault('PNG', "its picture can't be unpacked", 'a whole PNG file (is it cut short or damaged?)');
  }
  if (sum > most)
    throw new IntakeFault('PNG', 'more picture than its head says', `at most ${counted(most)} bytes unpacked`);
}
