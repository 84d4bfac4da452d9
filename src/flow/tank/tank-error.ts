/** A tank, an outlet or a fill that cannot be: what it is about, what stands there, what is allowed. */
export class TankError extends Error {
  override readonly name = 'TankError';

  constructor(what: string, found: unknown, allowed: string) {
    super(`flow: ${what}: ${String(found)}; allowed: ${allowed}`);
  }
}

/** Throws unless the value is a finite number above zero. */
export function checkAboveZero(what: string, value: number, unit: string): void {
  if (!(Number.isFinite(value) && value > 0)) throw new TankError(what, value, `a finite number above 0 ${unit}`);
}

/** Throws unless the value is a finite number. */
export function checkNumber(what: string, value: number, unit: string): void {
  if (!Number.isFinite(value)) throw new TankError(what, value, `a finite number [${unit}]`);
}
