/** What a fluid is at one temperature and pressure. */
export interface FluidState {
  readonly densityKgM3: number;
  /** Dynamic. */
  readonly viscosityPaS: number;
  readonly specificHeatJKgK: number;
  readonly conductivityWMK: number;
  /** It boils, or gives off its vapour, below this absolute pressure; 0 where it does not matter (oil). */
  readonly vapourAbsPa: number;
}
