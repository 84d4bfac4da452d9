import { IntakeFault } from '../intake-fault.ts';
import { fileBytes } from '../file-bytes.ts';
import { counted } from '../limits.ts';
import { readJpeg, type StoredPicture } from './jpeg-photo.ts';
import type { PhotoImage } from './light.kernel.ts';
import { PHOTO_LIMITS } from './photo-limits.ts';
import { readPng } from './png-photo.ts';

/** A photo the right way up, or the one line that says why not. */
export type PhotoReading =
  | { readonly ok: true; readonly image: PhotoImage }
  | { readonly ok: false; readonly fault: string };

/** Reads a JPEG or PNG file, or its bytes. Which of the two it is stands in its first bytes, not in its name. */
export async function readPhoto(source: string | Uint8Array): Promise<PhotoReading> {
  try {
    const bytes = typeof source === 'string' ? await fileBytes(source, PHOTO_LIMITS.fileBytes) : source;
    return { ok: true, image: photoOf(bytes) };
  } catch (fault) {
    if (fault instanceof IntakeFault) return { ok: false, fault: fault.message };
    throw fault;
  }
}

function photoOf(bytes: Uint8Array): PhotoImage {
  if (bytes.length === 0) throw new IntakeFault('file', 'empty', 'a JPEG or PNG photo');
  if (bytes.length > PHOTO_LIMITS.fileBytes)
    throw new IntakeFault('file', `${counted(bytes.length)} bytes`, `at most ${counted(PHOTO_LIMITS.fileBytes)}`);
  if (bytes[0] === 0xff && bytes[1] === 0xd8) return upright(readJpeg(bytes));
  if (bytes[0] === 137 && bytes[1] === 80) return upright(readPng(bytes));
  throw new IntakeFault(
    'file',
    'neither JPEG nor PNG',
    'a JPEG or PNG photo (telephones: "most compatible", not HEIC)',
  );
}

/**
 * For each way a picture can be stored: whether its sides are exchanged, then which of the upright picture's two ways run
 * backwards in the file. Source: cipa-dc-008, orientation.
 */
const STORED: Readonly<Record<number, readonly [swap: boolean, backX: boolean, backY: boolean]>> = {
  1: [false, false, false],
  2: [false, true, false],
  3: [false, true, true],
  4: [false, false, true],
  5: [true, false, false],
  6: [true, false, true],
  7: [true, true, true],
  8: [true, true, false],
};

/** Turns a stored picture as its camera says it was held. */
export function upright({ width, height, rgba, exif }: StoredPicture): PhotoImage {
  const [swap, backX, backY] = STORED[exif.orientation]!;
  const focal = exif.focal35Mm === undefined ? {} : { focal35Mm: exif.focal35Mm };
  if (!swap && !backX && !backY) return { widthPx: width, heightPx: height, rgba, ...focal };
  const [w, h] = swap ? [height, width] : [width, height];
  const from = new Uint32Array(rgba.buffer, rgba.byteOffset, width * height);
  const to = new Uint32Array(width * height);
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) {
      // the stored column and row: exchanged first, then counted from the other end
      const column = swap ? y : x;
      const row = swap ? x : y;
      const sx = backX ? width - 1 - column : column;
      const sy = backY ? height - 1 - row : row;
      to[y * w + x] = from[sy * width + sx]!;
    }
  return { widthPx: w, heightPx: h, rgba: new Uint8Array(to.buffer), ...focal };
}
