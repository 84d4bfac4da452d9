/** What goes through one opening. Positive is out of the bay. */
export interface OpeningFlow {
  /** "panel.window" or "bay.opening". */
  readonly opening: string;
  readonly name: string;
  readonly atMm: readonly [number, number, number];
  readonly faces: readonly [number, number, number];
  readonly flowM3S: number;
  readonly airC: number;
}

/** The air of one bay in one case. */
export interface BayAir {
  readonly bay: string;
  readonly name: string;
  readonly airC: number;
  /** Typical speed past what stands in it [m/s]. */
  readonly speedMPerS: number;
  readonly how: 'worked out' | 'measured' | 'stated';
  /** Put into its air by what stands in it [W]. */
  readonly heatW: number;
  readonly openings: readonly OpeningFlow[];
}
