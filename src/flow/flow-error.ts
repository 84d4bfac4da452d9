/** What cannot be in this room: what it is about, what stands there, what is allowed. Thrown at the border only. */
export class FlowError extends Error {
  override readonly name = 'FlowError';

  constructor(where: string, found: unknown, allowed: string) {
    super(`flow: ${where}: ${String(found)}; allowed: ${allowed}`);
  }
}

/** Throws unless the number is finite and above zero. */
export function needPositive(where: string, value: number, unit: string): void {
  if (!(Number.isFinite(value) && value > 0)) throw new FlowError(where, value, `a number above 0 ${unit}`.trim());
}

/** Throws unless the number is finite and not below zero. */
export function needNotNegative(where: string, value: number, unit: string): void {
  if (!(Number.isFinite(value) && value >= 0))
    throw new FlowError(where, value, `0 or a number above 0 ${unit}`.trim());
}

/** Throws unless the number lies in the band. */
export function needWithin(where: string, value: number, least: number, most: number, unit: string): void {
  if (!(value >= least && value <= most)) throw new FlowError(where, value, `${least} to ${most} ${unit}`.trim());
}

/** Throws unless the value is a finite number. */
export function needNumber(where: string, value: number, unit: string): void {
  if (!Number.isFinite(value)) throw new FlowError(where, value, `a finite number [${unit}]`);
}

/** Throws unless the fluid can flow. */
export function needFluid(where: string, fluid: { readonly densityKgM3: number; readonly viscosityPaS: number }): void {
  const { densityKgM3, viscosityPaS } = fluid;
  if (densityKgM3 > 0 && densityKgM3 < Infinity && viscosityPaS > 0 && viscosityPaS < Infinity) return;
  needPositive(`${where}, density of the fluid`, densityKgM3, 'kg/m3');
  needPositive(`${where}, viscosity of the fluid`, viscosityPaS, 'Pa s');
}
