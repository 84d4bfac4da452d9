// What does the builder ask, and which rooms together answer it?
export { bookBesides, type BookKnown, bookOf, type ComesOff, comesOff } from './book-of.ts';
export { carWithTaken } from './car-with-taken.ts';
export { compareDecided } from './compare-decided.ts';
export { compareCars, takenAsMade } from './compare-cars.ts';
export type { CarsCompared } from './compare-cars.ts';
export { dragged } from './dragged.ts';
export type { Dragged, DragGap, DragGhost } from './dragged.ts';
export { flowOf, lapsOf } from './flow-of.ts';
export type { FlowWish } from './flow-of.ts';
export { flowKey } from './flow-key.ts';
export { type FlowTried, flowTried } from './flow-try.ts';
export { type FlowBeside, flowBeside, flowInCase } from './flow-page.ts';
export { hasHeat, heatOf, type HeatWish } from './heat-of.ts';
export { curesOf } from './heat-of.ts';
export { heatKey } from './heat-key.ts';
export { formulaPage } from './formula-page.ts';
export { formulaRegister } from './formula-register.ts';
export type { RegisteredFormula } from './formula-register.ts';
export { type LeverInCar, leverOf, leversOf } from './lever-of.ts';
export { openedSnag } from './opened-snag.ts';
export { lastDayKnown, lifingOf, type LifingAnswer } from './lifing-of.ts';
export { otherSizes } from './line-in-size.ts';
export { orderOf } from './order-of.ts';
export { type PanelAnswer, panelAnswers } from './panel-answers.ts';
export { panelsOf } from './panels-of.ts';
export { type KeyInputs, planKey, wayAloneKey } from './plan-key.ts';
export { planCar, plannedInTurn, wayAlone, wayAmong } from './plan-car.ts';
export type { Watch } from './plan-car.ts';
export { readInput } from './read-input.ts';
export { planSnagsOf, snagsOf } from './snags-of.ts';
export { rulesWithHeat } from './rules-of.ts';
export { standing, standingWithFound } from './standing.ts';
export { type ReachFound, reachFound } from './reach-found.ts';
export type { Standing, StandingLine } from './standing.ts';
export { toolRoomOf } from './tool-room-of.ts';
export { firstWayOf, followingWayOf, waysOf } from './ways-of.ts';
export {
  type StripBreak,
  type StripCap,
  type StripOf,
  stripOf,
  type StripOfStep,
  type StripOpen,
  strippable,
  type StripUndo,
  type StripWish,
} from './strip-of.ts';
export { formulaNamed, workedFormula } from './worked-formula.ts';
export type { WorkedByName } from './worked-formula.ts';
