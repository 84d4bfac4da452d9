import type { Car } from '#car';
import { sheetRule } from '#standards';

/** A folder as the sheet sees it, square to the bend: what stands over the clamped sheet and what it lies on [mm]. */
export interface BrakeTool {
  /** Nose or finger: how deep behind the bend, and how high up to the beam that carries it. */
  readonly noseMm: number;
  readonly highMm: number;
  /** The beam over it: how deep behind the bend. */
  readonly beamMm: number;
  /** Bed under the sheet: how deep behind the bend. */
  readonly bedMm: number;
  /** Narrowest finger; 0: one straight bar. */
  readonly fingerMm: number;
  /** Measured by the builder, or the usual one. */
  readonly isOwn: boolean;
}

/** The brake at hand; what the car leaves open is that of a small box-and-pan brake. */
export function brakeTool({ workshop }: Pick<Car, 'workshop'>): BrakeTool {
  const { brake } = workshop ?? {};
  return {
    noseMm: brake?.noseMm ?? sheetRule('brake-nose').value,
    highMm: brake?.highMm ?? sheetRule('brake-high').value,
    beamMm: brake?.beamMm ?? Math.max(sheetRule('brake-beam').value, brake?.noseMm ?? 0),
    bedMm: brake?.bedMm ?? sheetRule('brake-bed').value,
    fingerMm: brake?.fingerMm ?? sheetRule('brake-finger').value,
    isOwn: brake !== undefined,
  };
}
