// Does it flow? Losses, pumps, circuits, tank under g, coolant heights, fuel.
export { flowOfCar, casesOf, type FlowAsk } from './flow-of-car.ts';
export type {
  CircuitFlow,
  CircuitState,
  FlowAnswer,
  LineFlow,
  PieceLoss,
  PumpFlow,
  Regime,
  StageFlow,
  ThroughFlow,
  VesselFlow,
} from './circuit/flow-answer.ts';
export type { DeAeration, PickUpInCase, TankInCase, TankUnderG } from './dry-sump/tank-answer.ts';
export type {
  BoilingSpot,
  CoolantAnswer,
  CoolantHeights,
  FillStep,
  HeightRung,
  HeightsAt,
  LineWater,
  Thermosiphon,
  TrapWords,
  WaterInlet,
} from './circuit/coolant-answer.ts';
export type { FuelAnswer, FuelPump, FuelVent } from './circuit/fuel-answer.ts';
export { boilsAtC } from './coolant/boiling.ts';
export { type FlowViews, flowViews, type TankView } from './flow-views.ts';
export type { FlowSweep, SweepPoint } from './circuit/flow-sweep.ts';
export { mainWay, type WayStep } from './circuit/main-way.ts';
export type { FlowFinding } from './finding.ts';
export { airTraps, type AirTrap } from './coolant/air-traps.ts';
export {
  carriesFoam,
  type Drain,
  drainDepth,
  drainFlow,
  type DrainFlow,
  type Foam,
  type FoamAnswer,
} from './drains/drain-capacity.ts';
export { type Guide, guides } from './limits.ts';
export { formulas } from './formulas.ts';
export {
  type Bend,
  bendsOfSamples,
  bendsOfWay,
  type CurvatureSample,
  type WayOfFlow,
} from './losses/bends-of-way.ts';
export { checkValveLoss, type CheckValve } from './losses/check-valve.ts';
export { type FittingId, threeConstantFittings, twoConstantFittings } from './losses/fitting-coefficients.ts';
export { coefficientLoss, type Entrance, entranceLoss, exitLoss, fittingLoss } from './losses/fitting-loss.ts';
export { type FrictionRegime, frictionRegime } from './losses/friction-factor.ts';
export type { FrictionRule } from './losses/friction-force.kernel.ts';
export { type HoseEnd, hoseEndLoss } from './losses/hose-end-loss.ts';
export { boreReynolds, lineVelocity, lineVolume, usualVelocities } from './losses/line-figures.ts';
export { type BoreOfLine, lineLoss } from './losses/line-loss.ts';
export { linearQuadraticLaw } from './losses/linear-quadratic.ts';
export { type Flowing, type Loss, scaledLaw, seriesLaw } from './losses/loss.ts';
export { FlowError } from './flow-error.ts';
export { type MeasuredFit, measuredFit, measuredLoss, type MeasuredPoint } from './losses/measured-loss.ts';
export { monotoneLaw, type Rising } from './losses/monotone-law.ts';
export { type ReliefValve, reliefValveLoss } from './losses/relief-valve.ts';
export { type Restrictor, restrictorLoss } from './losses/restrictor-loss.ts';
export { boreRoughnessM, type BoreWallId, boreWalls } from './losses/roughness.ts';
export { type Screen, screenLoss } from './losses/screen-loss.ts';
export { dividingTee, joiningTee, type TeeCoefficients, teeLegLoss } from './losses/tee.ts';
export { type Thermostat, thermostatLoss, thermostatOpenShare } from './losses/thermostat-loss.ts';
export { aeratedLiquid, oilBulkPa } from './fluids/aerated-oil.ts';
export type { AeratedLiquid } from './fluids/aerated-oil.ts';
export { voidAtPressure } from './fluids/aeration.ts';
export { airDensity, airSpecificHeat, airViscosity } from './fluids/air.ts';
export { dissolvedAir, oilBunsen, releasedAir, voidOfReleased } from './fluids/air-release.ts';
export {
  bubbleReynolds,
  dwellTime,
  mobileSkinFactor,
  riseOfCleanBubble,
  riseOfRigidBubble,
  smallestRisenBubble,
} from './fluids/bubble-rise.ts';
export { fluidAt } from './fluids/fluid-at.ts';
export type { FluidAnswer, FluidSpec, FuelSpec, GlycolSpec, OilSpec } from './fluids/fluid-spec.ts';
export type { FluidState } from './fluids/fluid-state.ts';
export { glycolFreezingPoint, glycolMassFraction, glycolVapourPressure } from './fluids/glycol.ts';
export { boilingPointOfWater, waterVapourPressure } from './fluids/saturation.ts';
export { standardPressure, standardTemperature } from './fluids/standard-atmosphere.ts';
export type { ViscosityPoint } from './fluids/walther.ts';
export type { DriveLog } from './lap/drive-log.ts';
export { lapOf, type LapOptions } from './lap/lap.ts';
export { lapsOfCar } from './lap/lap-of-car.ts';
export type { LapAnswer, LapMoment, LapRefused, LapStretch } from './lap/lap-answer.ts';
export type { Drop, LossLaw } from './network/loss-law.ts';
export { type CentrifugalPump, centrifugalPumpLaw, type CurvePoint } from './pumps/centrifugal-pump.ts';
export {
  type DisplacementPump,
  displacementPumpLaw,
  gearDisplacement,
  lobeDisplacement,
  slipOf,
} from './pumps/displacement-pump.ts';
export { pumpInletAbsPa, suctionHeadAvailable } from './pumps/suction.ts';
export { firstWave, type TankWave, type WavePlan } from './tank/first-wave.ts';
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
export type { Network, NetworkBranch, NetworkNode, RefusalKind, RefusedNetwork } from './network/network.ts';
export { type NetworkAnswer, type NetworkOptions, type SettledNetwork, solveNetwork } from './network/solve-network.ts';
