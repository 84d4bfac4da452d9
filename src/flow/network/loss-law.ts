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
export type LossLaw = (flowM3S: number) => Drop;
