import type { Case } from '#car';
import { airDensity, standardPressure } from '#flow';
import { standardGravity } from '#units';
import { USUAL_AIR_C } from './bay-air-ask.ts';
import type { BayOpening } from './bay-space.ts';
import { ramPressure } from './vent-formulas.ts';

/** A millimetre of water [Pa]: the column's own weight at 4 degC. */
const PA_PER_MM_WATER = standardGravity;
const KMH_PER_MPS = 3.6;

/** Pressure outside each opening, over the still air about the car. */
export interface OutsidePressures {
  readonly pa: readonly number[];
  /** Openings of which nobody has said while the car drives: then all count as standing. */
  readonly wanted: readonly string[];
}

/** As stated or measured, at the speed of the case: a reading goes with the square of the speed. Nothing is guessed. */
export function outsidePressures(row: Case, open: readonly BayOpening[]): OutsidePressures {
  const told = open.map((opening) => pressureAt(row, opening));
  const drives = (row.speedKmh ?? 0) > 0;
  const wanted = drives ? open.filter((_, i) => told[i] === undefined).map(({ opening }) => opening) : [];
  return { pa: told.map((pa) => (wanted.length > 0 ? 0 : (pa ?? 0))), wanted };
}

function pressureAt(row: Case, { opening, panel }: BayOpening): number | undefined {
  const told =
    row.pressures?.find(({ at }) => at === opening) ??
    row.pressures?.find(({ at }) => panel !== undefined && at === panel);
  if (told === undefined) return undefined;
  const speedKmh = row.speedKmh ?? 0;
  if (told.cp !== undefined) {
    const kgM3 = airDensity(row.airC ?? USUAL_AIR_C, standardPressure(row.altitudeM ?? 0));
    return told.cp * ramPressure(kgM3, speedKmh / KMH_PER_MPS);
  }
  const pa = told.pa ?? (told.mmWater ?? 0) * PA_PER_MM_WATER;
  return told.measuredKmh === undefined ? pa : pa * (speedKmh / told.measuredKmh) ** 2;
}
