import { fluidAt } from '#flow';
import { standardAtmospherePa, standardGravity } from '#units';
import type { FilmTable } from '../balance/thermal-net.ts';
import { crossFlowCylinder, forcedPlate, mixedConvection } from './forced-convection.ts';
import { freeCylinder, freePlateWarmDown, freePlateWarmUp, freeUprightPlate } from './free-convection.ts';

/** What air passes along: a round bar across it, an upright plate, a level face that looks up or down. */
export type FilmShape = 'bar' | 'upright' | 'up' | 'down';

export interface FilmAsk {
  readonly shape: FilmShape;
  /** Diameter of a bar, height of an upright plate, area over edge of a level one [m]. */
  readonly lengthM: number;
  readonly airC: number;
  readonly airMPerS: number;
}

const ICE_K = 273.15;
/** Air's own table ends here [degC]. */
const LEAST_C = -80;
const MOST_C = 800;

/** Ranges within which the laws of free convection are good for their 20 %, as printed. */
const RAYLEIGH: Readonly<Record<FilmShape, readonly [least: number, most: number]>> = {
  bar: [1e-5, 1e12],
  upright: [0.1, 1e12],
  up: [1e4, 1e11],
  down: [1e5, 1e10],
};

/** The law of a plate along a stream ends here [-]. */
const PLATE_TO = 1e8;

export interface Film {
  /** [W/(m2 K)]. */
  readonly h: number;
  /** What range is left; absent: none. */
  readonly leaves?: RangeLeft;
}

/** A number that lies beyond what a law or table is good for. */
export interface RangeLeft {
  /** "Rayleigh number". */
  readonly of: string;
  readonly value: number;
  /** "the law of free convection (1e-5 to 1e12)". */
  readonly beyond: string;
}

const stillAir = (c: number) => fluidAt({ kind: 'air' }, c, standardAtmospherePa);

/** Properties of air by temperature, each worked out once: tables of all films ask at the same few hundred. */
const known = new Map<number, ReturnType<typeof stillAir>>();
const MOST_KNOWN = 5000;
function tableAir(c: number): ReturnType<typeof stillAir> {
  const had = known.get(c);
  if (had !== undefined) return had;
  if (known.size >= MOST_KNOWN) known.clear();
  const air = stillAir(c);
  known.set(c, air);
  return air;
}

/** How well a surface gives its heat to the air about it, properties taken half way between the two. */
export function filmAt({ shape, lengthM, airC, airMPerS }: FilmAsk, surfaceC: number, airAtC = stillAir): Film {
  const filmC = (surfaceC + airC) / 2;
  const air = airAtC(Math.max(LEAST_C, Math.min(MOST_C, filmC)));
  if (!air.ok) return { h: 0, leaves: { of: 'air of', value: filmC, beyond: air.faults.join('; ') } };
  const { densityKgM3, viscosityPaS, specificHeatJKgK, conductivityWMK } = air.state;
  const nu = viscosityPaS / densityKgM3;
  const prandtl = (viscosityPaS * specificHeatJKgK) / conductivityWMK;
  const warmer = surfaceC - airC;
  const rayleigh = Math.max(
    1e-12,
    (standardGravity * Math.abs(warmer) * lengthM ** 3 * prandtl) / ((filmC + ICE_K) * nu * nu),
  );
  const free = freeNusselt(shape, warmer, rayleigh, prandtl);
  const reynolds = (airMPerS * lengthM) / nu;
  const forced = shape === 'bar' ? barNusselt(reynolds, prandtl) : forcedPlate(reynolds, prandtl);
  const h = (mixedConvection(forced, free) * conductivityWMK) / lengthM;
  const [least, most] = RAYLEIGH[shape];
  // A nearly still law matters where buoyancy is what moves the air, and the surface is not as warm as it.
  const isFreeOut = Math.abs(warmer) > 20 && free > forced && (rayleigh < least || rayleigh > most);
  if (filmC < LEAST_C || filmC > MOST_C)
    return {
      h,
      leaves: { of: 'air half way to the surface, degC', value: filmC, beyond: `its table (${LEAST_C} to ${MOST_C})` },
    };
  if (isFreeOut)
    return {
      h,
      leaves: {
        of: 'Rayleigh number',
        value: rayleigh,
        beyond: `the law of free convection (${least} to ${most.toExponential().replace('+', '')})`,
      },
    };
  return shape !== 'bar' && reynolds > PLATE_TO
    ? {
        h,
        leaves: {
          of: 'Reynolds number',
          value: reynolds,
          beyond: `the law of a plate along a stream (to ${PLATE_TO.toExponential().replace('+', '')})`,
        },
      }
    : { h };
}

/** Below this the law of a bar across a stream is left: the stream then does nothing beside buoyancy. */
const LEAST_PECLET = 0.2;
const barNusselt = (reynolds: number, prandtl: number): number =>
  reynolds * prandtl < LEAST_PECLET ? 0 : crossFlowCylinder(reynolds, prandtl);

function freeNusselt(shape: FilmShape, warmer: number, rayleigh: number, prandtl: number): number {
  if (shape === 'bar') return freeCylinder(rayleigh, prandtl);
  if (shape === 'upright') return freeUprightPlate(rayleigh, prandtl);
  return (shape === 'up') === warmer > 0 ? freePlateWarmUp(rayleigh) : freePlateWarmDown(rayleigh);
}

const STEP_K = 10;
const BELOW = 24;
const ABOVE = 150;

/** Heat given to the air by temperature of the surface, as a table: between its points it is straight, to 0.2 % at 10 K apart. */
export function filmTable(ask: FilmAsk): FilmTable {
  const heat = Float64Array.from({ length: BELOW + ABOVE + 1 }, (_, i) => {
    const warmer = (i - BELOW) * STEP_K;
    return warmer === 0 ? 0 : filmAt(ask, ask.airC + warmer, tableAir).h * warmer;
  });
  return { airC: ask.airC, stepK: STEP_K, below: BELOW, heat };
}
