// Who does the heavy work while the program stays awake: worker threads, one table of tasks, progress, cancel, and what was worked out before.
export type { BookAsk, BookMade } from './book-task.ts';
export { type CarInput, carInput, worldOf } from './car-input.ts';
export {
  crewBookNuts,
  type CrewCompared,
  crewCompared,
  type CrewPlan,
  crewPlan,
  crewWays,
  type CrewWish,
  type Told,
  type ToldOfTwo,
} from './crew.ts';
export { CrewError } from './hand.ts';
export { type CrewJob, CrewStopped, StandingCrew } from './standing-crew.ts';
export type { DrivenLaps, SharedCar, ToCut } from './standing-tasks.ts';
export type { PhotoSeen, SentCamera } from './photo-task.ts';
export { type KeepingWish, KeptAnswers } from './kept-answers.ts';
export type { PieceStrength } from './strength-task.ts';
export { toolMark } from './tool-mark.ts';
export type { PlanAnswer } from './tasks.ts';
