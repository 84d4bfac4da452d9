import type { Line } from '#car';
import type { Way } from '#lines';
import { builtInPlugs, type Catalogue, describeEnd, type End, endKey } from '#standards';
import { formatMm, lengthsIn } from '#units';
import { nutOf } from '../../tightening-words.ts';

/** What closes the two ends of a made line on the bench, in words; two of a kind as one. */
export function closersOf(line: Line, way: Way, shelf: Catalogue, inches: boolean): string[] {
  return way.ends.map((end) => {
    const nut = end.makeUp.map((id) => nutOf(id, line, way, shelf)).find((found) => found !== null);
    if (nut !== undefined && nut !== null) return closerFor(nut.end);
    const piece = end === way.ends[0] ? way.pieces[0] : way.pieces.at(-1);
    return piece === undefined
      ? 'a closer'
      : `bung and clamp for a hose or tube of ${inches ? lengthsIn(true).fine(piece.odMm) : formatMm(piece.odMm)} outside`;
  });
}

/** The plug of the tables that closes an end, by its name. */
export const closerFor = (end: End): string =>
  builtInPlugs.find((plug) => endKey(plug.closes) === endKey(end))?.name ?? `closer for ${describeEnd(end)}`;

/** "2 × -12 37-degree plug, a closer". */
export function countedWords(words: readonly string[]): string {
  const counted = new Map<string, number>();
  for (const one of words) counted.set(one, (counted.get(one) ?? 0) + 1);
  return [...counted].map(([one, count]) => (count === 1 ? one : `${count} × ${one}`)).join(', ');
}
