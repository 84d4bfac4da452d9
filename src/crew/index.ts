// Who does the heavy work while the program stays awake: worker threads, one table of tasks, progress and cancel.
export { type CarInput, carInput } from './car-input.ts';
export { crewCompared, crewPlan, crewWays, type Told } from './crew.ts';
export { CrewError } from './hand.ts';
export { type CrewJob, CrewStopped, StandingCrew } from './standing-crew.ts';
export type { SharedCar } from './standing-tasks.ts';
export type { PlanAnswer } from './tasks.ts';
