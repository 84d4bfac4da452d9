import type { LossLaw } from '../loss-law.ts';

// Laws of every steepness that the solver may meet, in closed form; real elements are in the folder of losses.

/** a q + b q |q|. */
export const quadratic = (a: number, b: number): LossLaw => {
  return (q) => ({ dropPa: a * q + b * q * Math.abs(q), slope: a + 2 * b * Math.abs(q) });
};

/** k q |q|^(n - 1): no slope at all where nothing flows. */
export const power = (k: number, n: number): LossLaw => {
  return (q) => ({ dropPa: k * q * Math.abs(q) ** (n - 1), slope: n * k * Math.abs(q) ** (n - 1) });
};

/** Centrifugal: lifts by `shutPa` at no flow and by nothing at `mostM3S`. */
export const spinningPump = (shutPa: number, mostM3S: number): LossLaw => {
  const resistance = quadratic((0.05 * shutPa) / mostM3S, (0.95 * shutPa) / mostM3S ** 2);
  return (q) => {
    const { dropPa, slope } = resistance(q);
    return { dropPa: dropPa - shutPa, slope };
  };
};

/** Positive displacement: `freeM3S` at no pressure, less `slipM3SPa` for each pascal. */
export const displacementPump = (freeM3S: number, slipM3SPa: number): LossLaw => {
  return (q) => ({ dropPa: (q - freeM3S) / slipM3SPa, slope: 1 / slipM3SPa });
};

/** Forward a q + b q^2; backward it leaks `leakM3SPa` for each pascal. */
export const checkValve = (a: number, b: number, leakM3SPa: number): LossLaw => {
  const open = quadratic(a, b);
  return (q) => (q >= 0 ? open(q) : { dropPa: q / leakM3SPa, slope: 1 / leakM3SPa });
};

/** Leaks up to `opensPa`, then lets through with little more. */
export const reliefValve = (opensPa: number, leakM3SPa: number, a: number): LossLaw => {
  const atOpening = opensPa * leakM3SPa;
  return (q) =>
    q <= atOpening
      ? { dropPa: q / leakM3SPa, slope: 1 / leakM3SPa }
      : { dropPa: opensPa + a * (q - atOpening), slope: a };
};

const PIPE_DENSITY_KG_M3 = 870;
/** Round pipe by diameter, length and viscosity: laminar, and a constant friction factor's square added. */
export const pipe = (boreM: number, lengthM: number, viscosityPaS: number): LossLaw =>
  quadratic(
    (128 * viscosityPaS * lengthM) / (Math.PI * boreM ** 4),
    (8 * 0.03 * PIPE_DENSITY_KG_M3 * lengthM) / (Math.PI ** 2 * boreM ** 5),
  );
