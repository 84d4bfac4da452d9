import type { Car, Lever } from '#car';
import { type LeverAnswer, leverAnswer } from '#levers';

/** What a lever of the car does, and what is open about it. */
export const leverOf = (car: Car, lever: Lever): LeverAnswer => leverAnswer(car, lever);

/** Every lever of the car. */
export const leversOf = (car: Car): readonly LeverAnswer[] => (car.levers ?? []).map((lever) => leverOf(car, lever));
