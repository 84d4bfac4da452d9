import type { Car, Lever } from '#car';
import { nearestName } from '#sources';
import { CommandFault } from './command-fault.ts';
import { quoted } from './quoted.ts';

/** The lever that was asked for by id or name; a wrong one is a fault that names the nearest. */
export function leverNamed(car: Car, word: string, file: string): Lever {
  const levers = car.levers ?? [];
  const isNamed = ({ id, name }: Lever): boolean =>
    [id, name].some((text) => text?.toLowerCase() === word.toLowerCase());
  const lever = levers.find(({ id }) => id === word) ?? levers.find(isNamed);
  if (lever !== undefined) return lever;
  const ids = levers.map(({ id }) => id);
  const near = nearestName(word, ids);
  throw new CommandFault([
    `${file}: no lever ${quoted(word)}; ${near === undefined ? '' : `nearest: ${near}; `}allowed: ${ids.length === 0 ? 'none, the car has no levers' : levers.map(({ id, name }) => (name === undefined ? id : `${id} (${name})`)).join(', ')}`,
  ]);
}
