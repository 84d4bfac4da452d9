// What does the crew read at the bench: pictures as plain values, the same ones on screen and on paper.
export { flatLabel } from './flat-label.ts';
export { bendTable } from './bend-table.ts';
export type { BendTableWish } from './bend-table.ts';
export { clockFace } from './clock-face.ts';
export type { ClockedEnd, ClockWish } from './clock-face.ts';
export { circuitPicture } from './circuit-picture.ts';
export type { CircuitWish } from './circuit-picture.ts';
export type {
  Anchor,
  Drawing,
  Hatch,
  Look,
  PathShape,
  Pen,
  Role,
  Shape,
  Spot,
  TextShape,
  Weight,
} from './drawing.ts';
export {
  type FlowUnits,
  flowWords,
  heatWords,
  lossWords,
  pressureWords,
  speedWords,
  volumeWords,
} from './flow-words.ts';
export { flowSentence, quantityWords, usFlowSentence } from './flow-sentence.ts';
export { gPicture } from './g-picture.ts';
export type { GPictureWish } from './g-picture.ts';
export { gapRuler, gaugeWords, standing } from './gap-ruler.ts';
export type { Gauge, Sheet, Standing } from './gap-ruler.ts';
export { gapsByMargin } from './gaps-by-margin.ts';
export type { GapLine } from './gaps-by-margin.ts';
export { airFlowWords, bayAirPicture } from './bay-air-picture.ts';
export { degreeWords, differenceWords, lineTemperature, partTemperature, soakChart } from './heat-curves.ts';
export { heatShareBars } from './heat-shares.ts';
export { heightLadder } from './height-ladder.ts';
export { labelBoxes } from './label-boxes.ts';
export type { LabelBox } from './label-boxes.ts';
export { lapPictures } from './lap-pictures.ts';
export { leverPicture, leverRatioChart } from './lever-picture.ts';
export { lineCard } from './line-card.ts';
export type { CardWish } from './line-card.ts';
export { lossBars } from './loss-bars.ts';
export { makeUpStrip } from './make-up-strip.ts';
export { allowanceWords, type StripWish } from './strip-wish.ts';
export { lengthGauge } from './length-gauge.ts';
export { nestPages, nestSheets } from './nest-pages.ts';
export type { NestPagesWish } from './nest-pages.ts';
export type { PanelWish } from './panel-head.ts';
export { panelPages } from './panel-pages.ts';
export type { PagesWish } from './panel-pages.ts';
export { panelCautions } from './panel-cautions.ts';
export { cornerShapes, flatShapes } from './panel-flat.ts';
export type { FlatBounds, FlatFrame } from './panel-frame.ts';
export { flatBounds, frameAt } from './panel-frame.ts';
export { panelSheet } from './panel-sheet.ts';
export { PAGE_PAPERS } from './paper-sizes.ts';
export type { PagePaper } from './paper-sizes.ts';
export { palettes } from './palettes.ts';
export type { Palette } from './palettes.ts';
export { pressureStrip } from './pressure-strip.ts';
export { sweepPictures } from './sweep-pictures.ts';
export type { SweepLimits } from './sweep-pictures.ts';
export { tankPicture } from './tank-picture.ts';
export { textWidth } from './text-width.ts';
export { wallMap } from './wall-map.ts';
export type { WallWish } from './wall-map.ts';
export type { DrawnLine } from './wall-view.ts';
export { bookPages, bookSheets } from './sheets/book.ts';
export type { PrintWish } from './sheets/book.ts';
export type { BookInput, BookLine, BookWish } from './sheets/book-input.ts';
export type { BookSheet, SheetGroup } from './sheets/book-sheet.ts';
export { changedSheets, goneSheets } from './sheets/changed-sheets.ts';
export type { DueRow, OffNut, OffPlan, OffStep, RuleClause, RulePackSheet, SpareRow } from './sheets/handed-over.ts';
