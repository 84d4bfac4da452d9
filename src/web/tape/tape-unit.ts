import { signal } from '../bench/signal.ts';
import type { TapeUnit } from './tape-text.ts';

const key = 'fairlead-tape-unit';

function remembered(): TapeUnit {
  try {
    const unit = localStorage.getItem(key);
    return unit === 'mm' || unit === 'cm' || unit === 'in' ? unit : null;
  } catch {
    return null;
  }
}

/** The unit of the tape in the hand: the one written last; a number without a unit is read in it. */
export const tapeUnit = signal<TapeUnit>(remembered());

export function rememberUnit(unit: TapeUnit): void {
  tapeUnit.set(unit);
  try {
    if (unit === null) localStorage.removeItem(key);
    else localStorage.setItem(key, unit);
  } catch {
    // A browser that keeps nothing asks again next time.
  }
}
