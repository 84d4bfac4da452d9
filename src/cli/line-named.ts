import type { Car, Line } from '#car';
import { nearestName } from '#sources';
import { CommandFault } from './command-fault.ts';
import { quoted } from './quoted.ts';

/** Names listed in a fault; a car may have thousands. */
const MOST_LISTED = 40;

/** The line that was asked for by id; a wrong id is a fault that names the nearest. */
export function lineNamed(car: Car, id: string, file: string): Line {
  const line = car.lines.find((row) => row.id === id);
  if (line !== undefined) return line;
  const ids = car.lines.map((row) => row.id);
  const ends = linesEndingAt(car, id);
  const near = nearestName(id, ids);
  const meant =
    ends.length > 0
      ? `${ends.join(', ')} ${ends.length === 1 ? 'is' : 'are'} meant, by part, port or name; `
      : near === undefined
        ? ''
        : `nearest: ${near}; `;
  const listed =
    ids.length > MOST_LISTED
      ? `${ids.slice(0, MOST_LISTED).join(', ')} and ${ids.length - MOST_LISTED} more`
      : ids.join(', ');
  throw new CommandFault([
    `${file}: no line ${quoted(id)}; ${meant}allowed: ${ids.length === 0 ? 'none, the car has no lines' : listed}`,
  ]);
}

/** A part, a port or a line's name stands where its id goes: the lines that are meant. */
function linesEndingAt(car: Car, word: string): string[] {
  const isThere = (ref: string): boolean => ref === word || ref.startsWith(`${word}.`);
  return car.lines
    .filter((line) => isThere(line.from) || isThere(line.to) || line.name?.toLowerCase() === word.toLowerCase())
    .map((line) => line.id);
}
