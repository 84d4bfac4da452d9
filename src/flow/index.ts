// Does it flow? Losses, pumps, circuits, tank under g, coolant heights, fuel.
export type { FluidState } from './fluids/fluid-state.ts';
export type { Drop, LossLaw } from './network/loss-law.ts';
export { firstWave, type TankWave, type WavePlan } from './tank/first-wave.ts';
export { tankFormulas } from './tank/formulas.ts';
export { type CarG, type FreeSurface, Levels, type NoSurface, oilSurface, volumeUnderPlane } from './tank/level.ts';
export { type Cover, coverOf, type Covering, type Outlet, outletIn, topMm } from './tank/outlet.ts';
export {
  type FirstWave,
  type GSample,
  movingSurface,
  type MovingSurface,
  stepTilt,
  type StepTilt,
} from './tank/surface-motion.ts';
export { type Tank, tankOfBox, tankOfCylinder, tankOfMesh, tankOfTube, type TankWish } from './tank/tank.ts';
export { TankError } from './tank/tank-error.ts';
export { type SectionOutlet, type SectionSpot, tankSection, type TankSection } from './tank/tank-section.ts';
export {
  covers,
  type Draw,
  type GGPicture,
  ggPictures,
  type GGWish,
  greatestG,
  type GreatestG,
  gToward,
  leastFill,
  type LeastFill,
  secondsCovered,
  worstCovering,
} from './tank/under-g.ts';
