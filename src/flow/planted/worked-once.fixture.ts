import type { Car } from '#car';
import type { CircuitFlow } from '../circuit/flow-answer.ts';

/**
 * The same question put to the same car in one test file is worked out once: an answer hangs on the car alone, so that what
 * several checks read of one car costs one working-out.
 */
export function workedOnce(work: (car: Car, part?: 'cases') => CircuitFlow): (car: Car, part?: 'cases') => CircuitFlow {
  const known = new Map<string, CircuitFlow>();
  return (car, part) => {
    const key = `${part ?? 'all'} ${JSON.stringify(car)}`;
    const answer = known.get(key) ?? work(car, part);
    known.set(key, answer);
    return answer;
  };
}
