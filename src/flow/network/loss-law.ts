/** Pressure lost along an element, and how fast that rises. */
export interface Drop {
  /** First end less second end; negative where the element raises the pressure (a pump). */
  readonly dropPa: number;
  /** Slope of the drop with flow [Pa per m3/s]: above zero. */
  readonly slope: number;
}

/**
 * The loss of one element as a function of the flow through it [m3/s], positive from its first end to its second and
 * asked for either sign. It must rise with the flow over the whole range: the network is solved as a convex problem.
 */
export interface LossLaw {
  (flowM3S: number): Drop;
  /**
   * Whether it is known beforehand to rise all the way from no flow to this one, either way: such a law is not looked at again
   * with every answer. Absent: nothing is known of it.
   */
  readonly isKnownToRise?: (flowM3S: number) => boolean;
}

/** A law, and up to which flow it is known to rise. */
export const knownToRise = (law: (flowM3S: number) => Drop, isKnownToRise: (flowM3S: number) => boolean): LossLaw =>
  Object.assign(law, { isKnownToRise });
