import { cutToleranceMm } from '#standards';
import type { EndMakeUp } from './end-make-up.ts';
import { endKernel } from './end-shape.ts';

/**
 * Length to cut a hose to: what shows between the two sockets when fitted, and what goes into them.
 *
 *     cut = flexible + insertA + insertB
 *
 * @param flexibleMm - hose between the sockets' mouths, along its centreline [mm]
 * @param insertAMm - hose inside the first socket, or over its spigot [mm]
 * @param insertBMm - hose inside the second [mm]
 * @returns cut length [mm]
 * @valid 0 <= flexibleMm, 0 <= insertAMm, 0 <= insertBMm
 * @source geometry
 * @example hoseCutLength(600, 24, 24) // 648
 */
export function hoseCutLength(flexibleMm: number, insertAMm: number, insertBMm: number): number {
  return flexibleMm + insertAMm + insertBMm;
}

/**
 * Length to cut a hose to from the overall length of the assembly, seat to seat, with the factor that a table gives each end.
 *
 *     cut = overall - factorA - factorB
 *
 * @param overallMm - seat to seat along the centreline [mm]
 * @param factorAMm - seat of the first end to the hose's cut end inside it [mm]
 * @param factorBMm - the same at the second end [mm]
 * @returns cut length [mm]
 * @valid 0 <= factorAMm + factorBMm <= overallMm
 * @source navy-14018 table 5-2, cut-off factors
 * @example cutFromOverall(500, 20.574, 20.574) // 458.852
 */
export function cutFromOverall(overallMm: number, factorAMm: number, factorBMm: number): number {
  return overallMm - factorAMm - factorBMm;
}

/**
 * How far a port's unsure facing moves the end of the hose along the hose, to first order.
 *
 *     shift = |riseMm sin(angle) - offsetMm cos(angle)| * facing
 *
 * The tail turns about the port; only the part of that movement along the hose lengthens or shortens it, so a straight end has none.
 *
 * @param riseMm - tail from the port along the port's axis [mm]
 * @param offsetMm - tail sideways from that axis [mm]
 * @param angleRad - bend of the end [rad]
 * @param facingRad - how well the facing is known [rad]
 * @returns shift of the tail along the hose [mm]
 * @valid 0 <= facingRad <= 0.35
 * @source geometry
 * @example facingShift(100, 30, 1.5707963267948966, 0.05) // 5.0
 */
export function facingShift(riseMm: number, offsetMm: number, angleRad: number, facingRad: number): number {
  return Math.abs(riseMm * Math.sin(angleRad) - offsetMm * Math.cos(angleRad)) * facingRad;
}

/** How well one end is known: its place [+-mm], its facing [+-deg], and the make-up that stands on it. */
export interface EndTolerance {
  readonly knownToMm: number;
  readonly facingKnownDeg: number;
  readonly makeUp: EndMakeUp;
}

export interface CutLengthWish {
  /** Hose that shows between the sockets, along its centreline. */
  readonly flexibleMm: number;
  readonly insertAMm: number;
  readonly insertBMm: number;
  readonly ends: readonly EndTolerance[];
}

export interface CutLength {
  /** Before rounding. */
  readonly exactMm: number;
  /** To the nearest 5 mm: what is printed. */
  readonly cutLengthMm: number;
  /** Cut within this of it: too long can be trimmed at the trial fit, too short cannot. */
  readonly allowanceMm: readonly [minus: number, plus: number];
}

/** A tape on a bench reads no finer than this when a hose is cut [mm]. */
const stepMm = 5;
const leastMinusMm = 5;
const leastPlusMm = 15;

/**
 * The cut length to print and its allowance. Longer: the root of the summed squares of the ports' places, their facings and the
 * cut itself, since these err independently; outwards to 5 mm, at least 15. Shorter: the cut's own tolerance only, inwards to
 * 5 mm, at least 5: a hose too long is trimmed at the trial fit, a hose too short is scrap.
 */
export function cutLength(wish: CutLengthWish): CutLength {
  const exactMm = hoseCutLength(wish.flexibleMm, wish.insertAMm, wish.insertBMm);
  const cutMm = cutToleranceMm(exactMm);
  const errors = [cutMm, ...wish.ends.flatMap((end) => [end.knownToMm, facingShiftOf(end)])];
  const unsureMm = Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0));
  return {
    exactMm,
    cutLengthMm: Math.round(exactMm / stepMm) * stepMm,
    allowanceMm: [
      -Math.max(leastMinusMm, Math.floor(cutMm / stepMm) * stepMm),
      Math.max(leastPlusMm, outwards(unsureMm)),
    ],
  };
}

const outwards = (mm: number): number => Math.ceil(mm / stepMm - 1e-9) * stepMm;

function facingShiftOf(end: EndTolerance): number {
  const { riseMm, offsetMm, angleRad, origin } = endKernel(end.makeUp, { at: [0, 0, 0], faces: [1, 0, 0] });
  return facingShift(origin[0] + riseMm, offsetMm, angleRad, (end.facingKnownDeg * Math.PI) / 180);
}
