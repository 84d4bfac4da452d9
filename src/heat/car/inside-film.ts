import { insideLine, LAMINAR_TO } from '../laws/inside-line.ts';
import type { LineFluid } from './line-fluid.ts';

/** What runs in a bore, as its law asks. */
function insideNumbers(fluid: LineFluid, boreMm: number): { readonly reynolds: number; readonly prandtl: number } {
  const boreM = boreMm / 1000;
  const area = (Math.PI / 4) * boreM ** 2;
  return {
    reynolds: (Math.abs(fluid.flowM3S) * boreM * fluid.densityKgM3) / (area * fluid.viscosityPaS),
    prandtl: (fluid.viscosityPaS * fluid.specificHeatJKgK) / fluid.conductivityWMK,
  };
}

/** Where the law of turbulent flow in a pipe ends; the laminar one has no end of its own. */
const TURBULENT_TO = 5e6;
const TURBULENT_PRANDTL = [0.5, 2000] as const;

/** Where the film inside a bore leaves its law, in words; undefined: nowhere. */
export function insideLeaves(fluid: LineFluid, boreMm: number): string | undefined {
  const { reynolds, prandtl } = insideNumbers(fluid, boreMm);
  if (reynolds <= LAMINAR_TO) return undefined;
  if (reynolds > TURBULENT_TO)
    return `Reynolds number ${reynolds.toPrecision(2)} inside lies beyond the law of flow in a pipe (to ${TURBULENT_TO.toExponential().replace('+', '')})`;
  const [least, most] = TURBULENT_PRANDTL;
  return prandtl >= least && prandtl <= most
    ? undefined
    : `Prandtl number ${prandtl.toPrecision(2)} inside lies beyond the law of flow in a pipe (${least} to ${most})`;
}

/** Film inside a line [W/(m2 K)]: by its flow; standing, heat only conducts through what stands there. */
export function insideFilm(fluid: LineFluid, boreMm: number, lengthM: number): number {
  const boreM = boreMm / 1000;
  const { reynolds, prandtl } = insideNumbers(fluid, boreMm);
  return (insideLine(reynolds, prandtl, boreM / Math.max(lengthM, boreM)) * fluid.conductivityWMK) / boreM;
}
