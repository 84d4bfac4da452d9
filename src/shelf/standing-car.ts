import { createHash } from 'node:crypto';
import { applyEdit, type Car, CarEditError, carText, type Edit, faultLine, readCar } from '#car';
import { differences } from './differences.ts';
import { ShelfError } from './shelf-error.ts';

/** A car exactly as its text gives it when it is read again, so that what is worked on is what will be opened. */
export interface StandingCar {
  readonly car: Car;
  readonly text: string;
  /** SHA-256 of the text, in hex. */
  readonly hash: string;
}

export type Stepped =
  | { readonly ok: true; readonly now: StandingCar /** Gives exactly the text before. */; readonly inverse: Edit }
  | { readonly ok: false; readonly faults: readonly string[] };

export function textHash(text: string): string {
  return createHash('sha256').update(text).digest('hex');
}

/** A car handed in, as it will be read again; or what is wrong with it, a line each. */
export function standingCar(car: Car): StandingCar | readonly string[] {
  const text = carText(car);
  const reading = readCar(text);
  return reading.ok ? { car: reading.car, text, hash: textHash(text) } : reading.faults.map(faultLine);
}

/** @throws ShelfError `broken` where a text that was kept is no car any more, or is not the one that was kept */
export function carFromText(text: string, hash: string, what: string): StandingCar {
  if (textHash(text) !== hash)
    throw new ShelfError('broken', `${what} is damaged on the disk: put a copy of the shelf back`);
  const reading = readCar(text);
  if (reading.ok) return { car: reading.car, text, hash };
  throw new ShelfError('broken', `${what} cannot be read: ${faultLine(reading.faults[0]!)}`);
}

/** The car after some edits, with the inverse; or why the car would not hold together, a line each. */
export function stepped(from: StandingCar, edits: readonly Edit[]): Stepped {
  const after = editedCar(from.car, edits);
  if (!('car' in after)) return { ok: false, faults: after };
  const now = standingCar(after.car);
  if (!('car' in now)) return { ok: false, faults: now };
  return { ok: true, now, inverse: exactInverse(from, now, after.inverse) };
}

/** Edits made on a car, not checked; or the one line that says what they name and is not there. */
export function editedCar(
  car: Car,
  edits: readonly Edit[],
): { readonly car: Car; readonly inverse: Edit } | readonly string[] {
  try {
    return applyEdit(car, { do: 'several', edits });
  } catch (error) {
    if (error instanceof CarEditError) return [error.message];
    // Edits come from outside as plain JSON: one that lacks what its kind needs is refused like any other.
    if (error instanceof TypeError || error instanceof RangeError)
      return [`car: an edit that cannot be read (${error.message}); allowed: an edit with the fields of its kind`];
    throw error;
  }
}

/**
 * An edit's own inverse holds on the car as it was in memory. Written and read again, an emptied list may stand at another
 * place among its neighbours; where that shows in the text, what differs is put back piece by piece.
 */
function exactInverse(before: StandingCar, after: StandingCar, inverse: Edit): Edit {
  const back = editedCar(after.car, [inverse]);
  if ('car' in back && carText(back.car) === before.text) return inverse;
  return differences(after.car, before.car);
}
