import type { Vec } from '#geometry';

/** One reference point of an origin after the fit. */
export interface ReadingMiss {
  readonly name: string;
  /** How far it lies from the fit [mm]. */
  readonly residualMm: number;
  readonly knownToMm: number;
  /** True where it lies more than three tolerances from where all the others put it; it then takes no part in the fit. */
  readonly disagrees: boolean;
}

/** How an origin came out. */
export interface OriginReport {
  readonly origin: string;
  readonly kind: 'points' | 'straightedge' | 'level' | 'marks';
  readonly readings: readonly ReadingMiss[];
  /** Root mean square of the residuals that took part [mm]. */
  readonly rmsMm: number;
  readonly remarks: readonly string[];
}

/** An origin in car axes. Each kind gives the directions it can be read along, as plain car vectors. */
export interface SolvedOrigin {
  readonly id: string;
  readonly kind: OriginReport['kind'];
  /** Kind points: car = rows * read + shift. */
  readonly frame?: { readonly rows: readonly [Vec, Vec, Vec]; readonly shift: Vec };
  /** Kind straightedge: its first point and the three directions that readings count along. */
  readonly edge?: { readonly start: Vec; readonly along: Vec; readonly out: Vec; readonly down: Vec };
  /** Kind level: up . p = offsetMm on the level line. */
  readonly level?: { readonly up: Vec; readonly offsetMm: number };
  /** How well a place is carried over, along a unit direction: tolerance squared [mm^2]. */
  readonly variance: (atMm: Vec, along: Vec) => number;
  readonly report: OriginReport;
}

/** Nothing is known better than this; a tolerance of 0 would weigh without end [mm]. */
export const EXACT_MM = 0.01;
