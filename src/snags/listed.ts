import type { Car } from '#car';
import type { Snag } from './snag.ts';
import { withAccepted } from './with-accepted.ts';
import { worstFirst } from './worst-first.ts';

/** Open points as they are shown: worst first, each under an id of its own, what the builder accepted marked as that and behind. */
export function listed(car: Car, found: readonly Snag[]): Snag[] {
  const inTurn = worstFirst(
    found,
    car.lines.map((line) => line.id),
  );
  return withAccepted(withOwnIds(inTurn), car.accepted ?? []);
}

/** Two points of one id (a line that passes a part twice) get a number behind. */
function withOwnIds(snags: readonly Snag[]): Snag[] {
  const taken = new Set<string>();
  return snags.map((snag) => {
    let id = snag.id;
    for (let n = 2; taken.has(id); n++) id = `${snag.id}-${n}`;
    taken.add(id);
    return id === snag.id ? snag : { ...snag, id };
  });
}
