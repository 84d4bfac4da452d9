import type { Car } from '../schema/car.ts';
import type { Tell } from './car-view.ts';
import { tellTwice } from './car-view.ts';

/**
 * Ids twice among fluids, cases and circuits. What a circuit names on the car is judged where the circuit is drawn up:
 * a line taken off the car must not make the car unreadable.
 */
export function checkCircuits(car: Pick<Car, 'fluids' | 'cases' | 'circuits'>, tell: Tell): void {
  for (const key of ['fluids', 'cases', 'circuits'] as const) {
    tellTwice(
      (car[key] ?? []).map((row) => row.id),
      [key],
      'id',
      tell,
    );
  }
}
