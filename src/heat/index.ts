// Does it cook? Hot surfaces to lines and panels, running and in the minutes after switching off; the air of the bay; what cures it.
export type {
  HeatAnswer,
  HeatCase,
  HeatCure,
  HeatLimit,
  HeatShare,
  LineBoils,
  LineCures,
  LineHeat,
  LinePoint,
  PanelHeat,
  PartHeat,
  PartPlace,
  Peak,
  RaysShot,
  ReadingCompared,
  Soak,
  SoakSeries,
  WorstPlace,
} from './heat-answer.ts';
export { bayAir } from './air/bay-air.ts';
export type { BayAirAsk, HeatIntoAir } from './air/bay-air-ask.ts';
export type { BayAdvice, BayAir, DrainOpening, IntakeDraw, OpeningFlow } from './air/bay-air-answer.ts';
export { type BayOpening, baySpaces, type SpaceOfBay } from './air/bay-space.ts';
export type { HeatFinding } from './finding.ts';
export { formulas } from './formulas.ts';
export { type Exchange, type ExchangeAsk, exchangeFactors } from './exchange/exchange-factors.ts';
export { exchangeAgain, type TracedExchange, tracedExchange } from './exchange/traced-exchange.ts';
export { type LinePatch, linePatches, type LinePatches } from './exchange/line-patches.ts';
export { type PanelPatch, panelPatches, type PanelPatches } from './exchange/panel-patches.ts';
export { partPatch } from './exchange/part-patch.ts';
export type { HeatSurface, Patch } from './exchange/patch.ts';
export { type ViewFactor, viewFactor } from './exchange/view-factor.ts';
export { isOfItself } from './car/heat-shares.ts';
export { readsHow } from './car/readings.ts';
export { heatCases, heatOfCar } from './heat-of-car.ts';
export type { HeatAsk } from './heat-ask.ts';
export { type HeatMemory, newHeatMemory } from './heat-memory.ts';
export { curesOfLine } from './cures/cures-of-line.ts';
export { type ShieldPlace, type ShieldPlaceAsk, shieldPlaces } from './cures/shield-place.ts';
