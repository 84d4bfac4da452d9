import type { End } from '#standards';

/** What a make-up must know of a port, or of a joint inside a line. */
export interface PortEnd {
  readonly end: End;
  /** Bore of a restrictor that stands in the port or is asked there [mm]. */
  readonly restrictorMm?: number;
}
