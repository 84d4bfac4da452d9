/** An element of a circuit that cannot be: says what stands there and what is allowed. Thrown at the border only. */
export class LossError extends Error {
  constructor(where: string, found: unknown, allowed: string) {
    super(`flow: ${where}: ${String(found)}; allowed: ${allowed}`);
    this.name = 'LossError';
  }
}

/** Throws unless the number is finite and above zero. */
export function needPositive(where: string, value: number, unit: string): void {
  if (!(Number.isFinite(value) && value > 0)) throw new LossError(where, value, `a number above 0 ${unit}`.trim());
}

/** Throws unless the number is finite and not below zero. */
export function needNotNegative(where: string, value: number, unit: string): void {
  if (!(Number.isFinite(value) && value >= 0))
    throw new LossError(where, value, `0 or a number above 0 ${unit}`.trim());
}

/** Throws unless the number lies in the band. */
export function needWithin(where: string, value: number, least: number, most: number, unit: string): void {
  if (!(value >= least && value <= most)) throw new LossError(where, value, `${least} to ${most} ${unit}`.trim());
}

/** Throws unless the fluid can flow. */
export function needFluid(where: string, fluid: { readonly densityKgM3: number; readonly viscosityPaS: number }): void {
  needPositive(`${where}, density of the fluid`, fluid.densityKgM3, 'kg/m3');
  needPositive(`${where}, viscosity of the fluid`, fluid.viscosityPaS, 'Pa s');
}
