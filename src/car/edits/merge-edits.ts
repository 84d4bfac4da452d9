import { checkCar } from '../read-car.ts';
import type { Car } from '../schema/car.ts';
import type { Fault } from '../fault.ts';
import { applyEdit } from './apply-edit.ts';
import { CarEditError } from './car-edit-error.ts';
import type { Edit } from './edit.ts';

/** Two people changed the same thing: mine stays, theirs is laid before them. */
export interface Clash {
  /** What both touched, such as `parts/#tank/name`. */
  readonly at: string;
  readonly theirs: Edit;
}

export interface Merged {
  /** The base with all of mine, and those of theirs that touch other things. */
  readonly car: Car;
  readonly clashes: readonly Clash[];
  /** What is wrong with the merged car: both may be right alone and not together. */
  readonly faults: readonly Fault[];
}

/**
 * Two lists of edits of one car put together. Different things merge; where both touch the same thing, or one something inside
 * what the other touched, mine stays and theirs is reported, unless both do the very same.
 */
export function mergeEdits(base: Car, mine: readonly Edit[], theirs: readonly Edit[]): Merged {
  const own = applyEdit(base, { do: 'several', edits: mine });
  const ownEdits = new Set(mine.map((edit) => JSON.stringify(edit)));
  const clashes: Clash[] = [];
  let alone = base;
  let car = own.car;
  for (const edit of theirs) {
    const step = applyEdit(alone, edit);
    alone = step.car;
    if (ownEdits.has(JSON.stringify(edit))) continue;
    const at = step.touched.find((path) => own.touched.some((other) => isSame(path, other)));
    const next = at === undefined ? appliedOrNot(car, edit) : undefined;
    if (next === undefined) clashes.push({ at: at ?? step.touched[0] ?? '', theirs: edit });
    else car = next;
  }
  return { car, clashes, faults: checkCar(car) };
}

/** The car with the edit, or nothing where it rests on one that was left out. */
function appliedOrNot(car: Car, edit: Edit): Car | undefined {
  try {
    return applyEdit(car, edit).car;
  } catch (error) {
    if (error instanceof CarEditError) return undefined;
    throw error;
  }
}

function isSame(a: string, b: string): boolean {
  return a === b || a.startsWith(`${b}/`) || b.startsWith(`${a}/`);
}
