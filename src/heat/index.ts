// Does it cook? Hot surfaces to lines and panels, running and in the minutes after switching off; the air of the bay; what cures it.
export type {
  HeatAnswer,
  HeatCase,
  HeatCure,
  HeatLimit,
  HeatShare,
  LineCures,
  LineHeat,
  LinePoint,
  PanelHeat,
  PartHeat,
  Peak,
  RaysShot,
  ReadingCompared,
  Soak,
  SoakSeries,
  WorstPlace,
} from './heat-answer.ts';
export type { BayAir, OpeningFlow } from './air/bay-air-answer.ts';
export type { HeatFinding } from './finding.ts';
export { formulas } from './formulas.ts';
