import jpeg from 'jpeg-js';
import { IntakeFault } from '../intake-fault.ts';
import { counted } from '../limits.ts';
import { type Exif, readExif } from './exif.ts';
import { checkSize } from './photo-size.ts';
import { PHOTO_LIMITS } from './photo-limits.ts';

/** Four bytes to a pixel, as stored in the file. */
export interface StoredPicture {
  readonly width: number;
  readonly height: number;
  readonly rgba: Uint8Array;
  readonly exif: Exif;
}

const START = 0xd8;
const END = 0xd9;
const SCAN = 0xda;
const APP1 = 0xe1;
/** Frames that can be read: plain, extended, built up. */
const FRAMES = new Set([0xc0, 0xc1, 0xc2]);
/** Tables that stand among the frame marks. */
const TABLES = new Set([0xc4, 0xc8, 0xcc]);
const EXIF_MARK = [0x45, 0x78, 0x69, 0x66, 0, 0];

/** Decodes a JPEG file once its marks have been walked and its sizes held against the limits. */
export function readJpeg(bytes: Uint8Array): StoredPicture {
  const walk = walked(bytes);
  try {
    const { width, height, data } = jpeg.decode(bytes, {
      useTArray: true,
      formatAsRGBA: true,
      tolerantDecoding: false,
      maxResolutionInMP: PHOTO_LIMITS.pixels / 1e6,
      maxMemoryUsageInMB: PHOTO_LIMITS.decodeMb,
    });
    if (width !== walk.width || height !== walk.height || data.length !== 4 * width * height)
      throw new RangeError('size');
    return { width, height, rgba: data, exif: walk.exif };
  } catch {
    // the decoder throws texts and errors of many kinds, none of them for a builder
    throw new IntakeFault('JPEG', "its picture can't be decoded", 'a whole JPEG file (is it cut short or damaged?)');
  }
}

interface Walk {
  readonly width: number;
  readonly height: number;
  readonly exif: Exif;
}

/** From mark to mark: one frame, known kinds, passes that end. */
function walked(bytes: Uint8Array): Walk {
  if (bytes[0] !== 0xff || bytes[1] !== START) throw new IntakeFault('JPEG bytes 0-1', 'no start mark', 'a JPEG file');
  let frame: { width: number; height: number } | undefined;
  let exif: Exif = { orientation: 1 };
  let passes = 0;
  let at = 2;
  while (at + 4 <= bytes.length) {
    if (bytes[at] !== 0xff) {
      if (frame !== undefined && passes > 0) at++;
      else throw new IntakeFault(`JPEG byte ${counted(at)}`, 'no mark', 'a mark after each part (is it damaged?)');
      continue;
    }
    const mark = bytes[at + 1]!;
    // filling, a stuffed byte of the picture's data, or a restart
    if (mark === 0xff || mark === 0 || (mark >= 0xd0 && mark <= 0xd7)) {
      at += mark === 0xff ? 1 : 2;
      continue;
    }
    if (mark === END) break;
    const length = (bytes[at + 2]! << 8) | bytes[at + 3]!;
    if (length < 2 || at + 2 + length > bytes.length)
      throw new IntakeFault(
        `JPEG byte ${counted(at)}`,
        `a part of ${counted(length)} bytes; ${counted(bytes.length - at - 2)} are left`,
        'a part that fits the file (is it cut short?)',
      );
    const part = bytes.subarray(at + 4, at + 2 + length);
    if (mark >= 0xc0 && mark <= 0xcf && !TABLES.has(mark)) {
      if (frame !== undefined) throw new IntakeFault(`JPEG byte ${counted(at)}`, 'a second frame', 'one picture');
      frame = frameOf(part, mark);
    }
    if (mark === APP1 && EXIF_MARK.every((value, i) => part[i] === value))
      exif = readExif(part.subarray(EXIF_MARK.length));
    if (mark === SCAN) checkPasses(frame, ++passes);
    at += 2 + length;
  }
  if (frame === undefined || passes === 0)
    throw new IntakeFault('JPEG', 'no picture in it', 'a JPEG file with one picture');
  return { ...frame, exif };
}

function checkPasses(frame: { width: number; height: number } | undefined, passes: number): void {
  if (frame !== undefined && (passes * frame.width * frame.height) / 1e6 > PHOTO_LIMITS.passMegapixels)
    throw new IntakeFault('JPEG', `${passes} passes over the picture`, 'a picture saved in the plain way (baseline)');
}

function frameOf(part: Uint8Array, mark: number): { width: number; height: number } {
  if (!FRAMES.has(mark))
    throw new IntakeFault('JPEG frame', `kind ${mark.toString(16)}`, 'plain (c0, c1) or built up (c2)');
  const bits = part[0] ?? 0;
  const height = ((part[1] ?? 0) << 8) | (part[2] ?? 0);
  const width = ((part[3] ?? 0) << 8) | (part[4] ?? 0);
  const channels = part[5] ?? 0;
  if (bits !== 8) throw new IntakeFault('JPEG frame', `${bits} bits to a value`, '8');
  if (channels !== 1 && channels !== 3)
    throw new IntakeFault('JPEG frame', `${channels} colours`, '1 or 3 (save it as RGB)');
  checkSize('JPEG frame', width, height);
  for (let i = 0; i < channels; i++) {
    const [across, down] = [(part[7 + 3 * i] ?? 0) >> 4, (part[7 + 3 * i] ?? 0) & 15];
    if (across < 1 || down < 1 || across > 4 || down > 4)
      throw new IntakeFault('JPEG frame', `sampling ${across} x ${down}`, '1 to 4 either way');
  }
  return { width, height };
}
