// What is to be bought, what is it cut from, what goes back, and what does a change cost?
export { cutPlan } from './cut-plan.ts';
export type { CutLength, CutPlan, CutStock, WantedCut } from './cut-plan.ts';
export { order } from './order.ts';
export type { CutSheet, Order, OrderCut, OrderOptions } from './order.ts';
export type { OrderRow } from './order-row.ts';
export { csvText, cutsCsv, orderCsv } from './order-csv.ts';
export type { PartKind } from './part-index.ts';
export type { LineWithWay, PlannedLines } from './planned-lines.ts';
export { compare } from './compare.ts';
export type { Comparison, LineVerdict, Verdict } from './compare.ts';
export type { FitsElsewhere } from './fits-elsewhere.ts';
export { fewerRefused, keptLines, makingWay, withKept } from './kept-lines.ts';
export type { KeptLine, KeptLines, NotKept, WayMade } from './kept-lines.ts';
export type { BuyRow, SurplusRow } from './parts-moved.ts';
