// Does it flow? Losses, pumps, circuits, tank under g, coolant heights, fuel.
export type { FluidState } from './fluids/fluid-state.ts';
export type { Drop, LossLaw } from './network/loss-law.ts';
