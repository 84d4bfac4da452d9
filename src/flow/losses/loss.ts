import type { Known, SourceId } from '#sources';
import type { FluidState } from '../fluids/fluid-state.ts';
import { type Drop, knownToRise, type LossLaw } from '../network/loss-law.ts';

/** What a loss needs to know of a fluid. */
export type Flowing = Pick<FluidState, 'densityKgM3' | 'viscosityPaS'>;

/** An element of a circuit: its law for any fluid, how far off that may be, and how it is known. */
export interface Loss {
  /** What it is, as messages name it. */
  readonly where: string;
  /** Builds the law once for a fluid; the law itself is then cheap. */
  readonly under: (fluid: Flowing) => LossLaw;
  /** The true loss lies between these multiples of the law's; [1, 1] where it is measured or exact. */
  readonly times: readonly [least: number, most: number];
  readonly source: SourceId;
  readonly known: Known;
}

/** The same loss at the edge of what is known of it, or times any other factor. */
export function scaledLaw(law: LossLaw, factor: number): LossLaw {
  return (flowM3S) => {
    const { dropPa, slope } = law(flowM3S);
    return { dropPa: factor * dropPa, slope: factor * slope };
  };
}

/** Elements one after another, all carrying the same flow. */
export function seriesLaw(laws: readonly LossLaw[]): LossLaw {
  const [first] = laws;
  if (first !== undefined && laws.length === 1) return first;
  const sum = (flowM3S: number): Drop => {
    let dropPa = 0;
    let slope = 0;
    for (const law of laws) {
      const drop = law(flowM3S);
      dropPa += drop.dropPa;
      slope += drop.slope;
    }
    return { dropPa, slope };
  };
  // What rises, added to what rises, rises.
  return knownToRise(sum, (flowM3S) => laws.length > 0 && laws.every((law) => law.isKnownToRise?.(flowM3S) === true));
}
