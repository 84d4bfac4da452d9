// Which parts and sizes does the trade have, what fits what, and which limits hold before the builder says otherwise?
export { builtInAdapters } from './adapters.ts';
export { builtInBulkheadFittings } from './line-adapters.ts';
export { cutFactorIn, cutFactors } from './cut-factors.ts';
export { dutyNeeds, dutyRows, duties } from './duty-needs.ts';
export type { Duty, DutyNeed } from './duty-needs.ts';
export { endTypes, sizedBy } from './end.ts';
export type { End, EndType } from './end.ts';
export { acrossCornersMm, bossHexMm, hexes, nutHexMm } from './hexes.ts';
export { genericHoseEnds, hoseEndAngles } from './hose-ends.ts';
export { builtInHoses } from './hoses.ts';
export { keepOff, keepOffRows } from './keep-offs.ts';
export type { KeepOffKind, KeepOffRow } from './keep-offs.ts';
export { describeEnd, endKey, mates } from './mates.ts';
export type { Mating, SealNeed } from './mates.ts';
export { allFluids } from './rows.ts';
export type {
  AdapterRow,
  AssumedOfHose,
  BulkheadFittingRow,
  BungRow,
  ClampRow,
  ClockSetting,
  Fixing,
  Fluid,
  GrommetRow,
  HoseEndAngleDeg,
  HoseEndRow,
  HoseRow,
  PlugRow,
  Row,
  SealCount,
  SealRow,
  TubeRow,
} from './rows.ts';
export {
  dashSizes,
  faceSealThreads,
  findDash,
  flare45Threads,
  invertedFlareThreads,
  metricORingPorts,
  metricWasherPorts,
  parallelPipes,
  taperPipes,
  threadName,
  threadOf,
} from './threads.ts';
export { catalogue } from './catalogue.ts';
export type { Catalogue } from './catalogue.ts';
export { builtInClamps, builtInGrommets } from './clamps.ts';
export type {
  OwnAdapter,
  OwnCatalogue,
  OwnClamp,
  OwnGrommet,
  OwnHose,
  OwnHoseEnd,
  OwnSeal,
  OwnTube,
} from './own-catalogue.ts';
export { fittingRule, fittingRules } from './fitting-rules.ts';
export type { FittingRuleId, FittingRuleRow } from './fitting-rules.ts';
export { fixingRow, fixings } from './fixings.ts';
export type { FixingRow } from './fixings.ts';
export { builtInBungs, builtInPlugs } from './plugs.ts';
export { tightening } from './tightening.ts';
export { BY_HAND_KG, FIT_SHARE, type WorkKind, workMinutes, type WorkMinutesRow } from './work-minutes.ts';
export type { Held, Tightening } from './tightening.ts';
export { bossORingNumber, bossORings, builtInSeals, collarId } from './seals.ts';
export { builtInTubes } from './tubes.ts';
export { cutToleranceMm, cutTolerances } from './cut-tolerance.ts';
export { formulas } from './formulas.ts';
export {
  bendArc,
  bendTestFreeLength,
  boreArea,
  centrelineRadius,
  clampCount,
  dashTubeOd,
  hoseEndFactor,
  lengthUnderPressure,
  slackBendRadius,
  slackLength,
  straightBehindFitting,
  thinTubeWall,
} from './hose-formulas.ts';
export {
  hexAcrossCorners,
  metricTensileArea,
  taperPitchDiameterAtEnd,
  taperPitchDiameterHandTight,
  threadInternalMinor,
  threadPitchDiameter,
  unifiedTensileArea,
} from './thread-formulas.ts';
export { boreDisagreement, disagreements } from './agreement.ts';
export type { PrintedEnd } from './agreement.ts';
export { parseCatalogueCsv } from './import-catalogue.ts';
export type { ImportedCatalogue } from './import-catalogue.ts';
export { importColumns, importTables } from './import-columns.ts';
export { checkCatalogueRow } from './import-row.ts';
export type { Imported, ImportRow } from './import-row.ts';
export { parseEnd } from './parse-end.ts';
export type { ReadEnd } from './parse-end.ts';
export { threadSize } from './thread-size.ts';
export type { ThreadSize } from './thread-size.ts';
export { findSheet, type SheetRow, sheets, USUAL_SHEET } from './sheets.ts';
export { type LeastBendRadius, leastBendRadius, sheetBendRadii } from './sheet-bend-radii.ts';
export { sheetRule, type SheetRuleId, sheetRules } from './sheet-rules.ts';
export { panelFixing, type PanelFixingRow, panelFixings } from './panel-fixings.ts';
export { findFinish, finishOf, finishes, type FinishId, type FinishRow } from './finishes.ts';
export { heatSolid, heatSolids, type HeatSolidId, type HeatSolidRow } from './heat-solids.ts';
export { findSleeve, sleeves, type SleeveRow } from './sleeves.ts';
export { heatCover, heatCovers, type HeatCoverRow } from './heat-covers.ts';
export { controlCableLimit, fluidHeatLimits, sealMaterials } from './heat-limits.ts';
export {
  type DriveRow,
  drives,
  type HexKeyRow,
  hexKeys,
  type SpannerRow,
  spanners,
  type SwingRow,
  swings,
  type ToolKind,
  usualDriver,
  usualHand,
} from './hand-tools.ts';
export {
  driveFor,
  hexKeyFor,
  openHeadMm,
  ringHeadMm,
  screwHeadMm,
  socketOdMm,
  type SpannerEnvelope,
  spannerEnvelope,
} from './tool-envelope.ts';
export { hexHeightMm, flareEndMm } from './adapter-parts.ts';
