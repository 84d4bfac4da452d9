import { splitPortRef } from '../lookups.ts';
import type { Car } from '../schema/car.ts';

/** What goes along with something: whole parts, and ports on parts that stay. */
export interface Followers {
  readonly parts: ReadonlySet<string>;
  readonly ports: ReadonlySet<string>;
}

/**
 * Parts and ports that follow a part (`tank`) or one of its ports (`tank.out`), and what follows those. What follows in a ring goes once;
 * the thing itself is not among them.
 */
export function followersOf(car: Car, leader: string): Followers {
  const parts = new Set<string>();
  const ports = new Set<string>();
  const leaders = [leader];
  const isNew = (id: string): boolean => id !== leader && !parts.has(id) && !ports.has(id);
  for (const ahead of leaders)
    for (const part of car.parts) {
      if (isBehind(part.follows, ahead) && isNew(part.id) && !leader.startsWith(`${part.id}.`)) {
        parts.add(part.id);
        leaders.push(part.id);
      }
      for (const port of part.ports) {
        const ref = `${part.id}.${port.id}`;
        if (!isBehind(port.follows, ahead) || !isNew(ref)) continue;
        ports.add(ref);
        leaders.push(ref);
      }
    }
  // A port of a part that goes along goes with its part.
  const isCarried = (ref: string): boolean => {
    const { part } = splitPortRef(ref);
    return part === leader || parts.has(part);
  };
  return { parts, ports: new Set([...ports].filter((ref) => !isCarried(ref))) };
}

/** A part takes along what was measured from any of its ports too. */
const isBehind = (follows: string | undefined, ahead: string): boolean =>
  follows !== undefined && (follows === ahead || follows.startsWith(`${ahead}.`));
