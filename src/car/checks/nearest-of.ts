import { findNearest } from '../nearest.ts';

/** "a part" and which is nearest, or that there is none. */
export function nearestOf(what: string, word: string, known: () => readonly (string | undefined)[]): () => string {
  return () => nearestWords(what, word, known());
}

function nearestWords(what: string, word: string, known: readonly (string | undefined)[]): string {
  const nearest = findNearest(
    word,
    known.filter((id) => id !== undefined),
  );
  return nearest === undefined ? `${what} of this car; it has none` : `${what} of this car (nearest: ${nearest})`;
}
