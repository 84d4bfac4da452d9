/** A shape that cannot be: says what stands there and what is allowed. Thrown at the border only. */
export class GeometryError extends Error {
  constructor(what: string, found: unknown, allowed: string) {
    super(`geometry: ${what}: ${String(found)}; allowed: ${allowed}`);
    this.name = 'GeometryError';
  }
}

/** Throws unless every number is finite. */
export function checkFinite(what: string, values: ArrayLike<number>): void {
  for (let i = 0; i < values.length; i++) {
    if (!Number.isFinite(values[i])) throw new GeometryError(`${what}[${i}]`, values[i], 'a finite number [mm]');
  }
}

/** Throws unless the length is finite and greater than zero. */
export function checkPositive(what: string, value: number): void {
  if (!(Number.isFinite(value) && value > 0)) throw new GeometryError(what, value, 'a finite length above 0 mm');
}
