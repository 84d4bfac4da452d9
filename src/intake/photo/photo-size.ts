import { IntakeFault } from '../intake-fault.ts';
import { counted } from '../limits.ts';
import { PHOTO_LIMITS } from './photo-limits.ts';

/** Throws unless a picture's declared size is one that can be worked with. */
export function checkSize(where: string, width: number, height: number): void {
  if (Math.min(width, height) < PHOTO_LIMITS.sidePx || width * height > PHOTO_LIMITS.pixels)
    throw new IntakeFault(
      where,
      `${counted(width)} x ${counted(height)} pixels`,
      `${PHOTO_LIMITS.sidePx} or more either way, at most ${counted(PHOTO_LIMITS.pixels)} in all`,
    );
}
