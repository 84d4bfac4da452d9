import type { Vec } from '#geometry';
import { plainWays, ways } from './facing.ts';

/** "up" for a plain way, three numbers for any other. */
export const wayWords = (way: unknown): string =>
  plainWays.find((plain) => JSON.stringify(ways[plain]) === JSON.stringify(way)) ??
  (Array.isArray(way) ? way.join(', ') : '');

/** The way that such words say. */
export const wayOfWords = (words: string): Vec =>
  (ways as Readonly<Record<string, Vec>>)[words] ?? (words.split(/[\s,]+/u).map(Number) as unknown as Vec);
