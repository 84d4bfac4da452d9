// The car: what stands in the car file, checked, and what may be changed about it.
export { carJsonSchema } from './car-json-schema.ts';
export type { CarNote } from './car-notes.ts';
export { carNotes } from './car-notes.ts';
export { carWithRows, carWithShop } from './car-with-shop.ts';
export type { ShopStock } from './car-with-shop.ts';
export { carText } from './car-text.ts';
export { applyEdit } from './edits/apply-edit.ts';
export { partMotion } from './edits/moved-part.ts';
export { CarEditError } from './edits/car-edit-error.ts';
export type { Change } from './edits/change.ts';
export type { Edit, Edited } from './edits/edit.ts';
export { readEdits } from './edits/read-edits.ts';
export type { Clash, Merged } from './edits/merge-edits.ts';
export { mergeEdits } from './edits/merge-edits.ts';
export type { Fault } from './fault.ts';
export { faultLine } from './fault.ts';
export type { KeepOffs } from './keep-off.ts';
export { formulas } from './formulas.ts';
export { BARE_TURBINE_MM, FUEL_BRAKE_FROM_HOT_MM, keepOffDefaults, keepOffs, partKeepOffMm } from './keep-off.ts';
export { panelCornerIds } from './panel-corners.ts';
export { findLine, findLineAt, findPort, linesById, moversById, partsById, portRefs, splitPortRef } from './lookups.ts';
export type { PointReport } from './placing/place-port.ts';
export type { PlacingReport } from './placing/resolve-origins.ts';
export { resolveOrigins } from './placing/resolve-origins.ts';
export type { OriginReport, ReadingMiss } from './placing/solved-origin.ts';
export { turnAnglesDeg } from './placing/turn-angles.ts';
export { upInCar } from './placing/up-in-car.ts';
export type { CarReading } from './read-car.ts';
export { carFrom, checkCar, readCar } from './read-car.ts';
export type {
  AcceptedSnag,
  BoxRow,
  Car,
  Case,
  Catalogue,
  Circuit,
  CrossingKind,
  Duty,
  EndType,
  Fluid,
  HoseRow,
  KeepOff,
  Lever,
  LeverBracket,
  BaySpace,
  Fastener,
  HeatReading,
  PartCover,
  RulePack,
  RunDay,
  Workshop,
  LeverCable,
  LeverCylinder,
  LeverRod,
  Line,
  LineState,
  Mover,
  Origin,
  Panel,
  PanelEdge,
  PanelHole,
  PanelWindow,
  Part,
  PartClass,
  Passage,
  Piece,
  Port,
  PortEnd,
  Pump,
  Reading,
  Shape,
  SheetStock,
  TakenWay,
  Through,
  Vessel,
} from './schema/car.ts';
export { LINE_STATES } from './schema/line.ts';
export type { Tolerance } from './tolerance.ts';
export { partTolerance, portTolerance, shapeKnownToMm } from './tolerance.ts';
export { FACING_KNOWN_DEG, TAPE_KNOWN_TO_MM } from './usual-tolerance.ts';
