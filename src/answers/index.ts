// What does the builder ask, and which rooms together answer it?
export { carWithTaken } from './car-with-taken.ts';
export { compareCars } from './compare-cars.ts';
export type { CarsCompared } from './compare-cars.ts';
export { formulaPage } from './formula-page.ts';
export { formulaRegister } from './formula-register.ts';
export type { RegisteredFormula } from './formula-register.ts';
export { orderOf } from './order-of.ts';
export { planCar, plannedInTurn, wayAlone, wayAmong } from './plan-car.ts';
export type { Watch } from './plan-car.ts';
export { readInput } from './read-input.ts';
export { snagsOf } from './snags-of.ts';
export { standing } from './standing.ts';
export type { Standing, StandingLine } from './standing.ts';
export { solidBodies } from './solid-bodies.ts';
export { waysOf } from './ways-of.ts';
export { formulaNamed, workedFormula } from './worked-formula.ts';
export type { WorkedByName } from './worked-formula.ts';
