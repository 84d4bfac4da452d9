// What does the builder ask, and which rooms together answer it?
export { planCar } from './plan-car.ts';
export type { Watch } from './plan-car.ts';
export { solidBodies } from './solid-bodies.ts';
export { waysOf } from './ways-of.ts';
