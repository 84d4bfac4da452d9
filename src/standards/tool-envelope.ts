import type { SourceId } from '#sources';
import { drives, hexKeys, spanners } from './hand-tools.ts';

/**
 * Greatest outside width of an open-ended head.
 *
 *     b = 2.1 s + 7
 *
 * @param acrossFlatsMm - hexagon across flats, s [mm]
 * @returns width of the head [mm]
 * @valid 5 <= acrossFlatsMm <= 60
 * @source iso-3318
 * @example openHeadMm(19) // 46.9
 */
export const openHeadMm = (acrossFlatsMm: number): number => 2.1 * acrossFlatsMm + 7;

/**
 * Greatest outside width of a ring head.
 *
 *     b = 1.5 s + 4
 *
 * @param acrossFlatsMm - hexagon across flats, s [mm]
 * @returns width of the head [mm]
 * @valid 5 <= acrossFlatsMm <= 60
 * @source iso-3318
 * @example ringHeadMm(13) // 23.5
 */
export const ringHeadMm = (acrossFlatsMm: number): number => 1.5 * acrossFlatsMm + 4;

/**
 * Usual outside diameter of a socket.
 *
 *     D = 1.33 s + 1.5
 *
 * @param acrossFlatsMm - hexagon across flats, s [mm]
 * @returns outside diameter [mm]
 * @valid 5 <= acrossFlatsMm <= 60
 * @source iso-2725-1
 * @example socketOdMm(13) // 18.8
 */
export const socketOdMm = (acrossFlatsMm: number): number => 1.33 * acrossFlatsMm + 1.5;

/** A spanner's shank is as wide as this by the hexagon it takes [mm]; assumed, from-memory. */
const shankMm = (acrossFlatsMm: number): number => 0.6 * acrossFlatsMm + 6;

/** A flat spanner, or what a crow-foot and a key come down to: a head and a handle in one plane [mm]. */
export interface SpannerEnvelope {
  readonly headMm: number;
  readonly thickMm: number;
  readonly widthMm: number;
  readonly lengthMm: number;
  readonly source: SourceId;
}

/** The spanner for a hexagon: rows of the table, straight between them. */
export function spannerEnvelope(kind: 'open-end' | 'ring', acrossFlatsMm: number): SpannerEnvelope {
  const column = kind === 'open-end' ? 'openThickMm' : 'ringThickMm';
  return {
    headMm: kind === 'open-end' ? openHeadMm(acrossFlatsMm) : ringHeadMm(acrossFlatsMm),
    thickMm: between(spanners, acrossFlatsMm, (row) => row[column]),
    widthMm: shankMm(acrossFlatsMm),
    lengthMm: between(spanners, acrossFlatsMm, (row) => row.lengthMm),
    source: 'from-memory',
  };
}

/** The drive that a hexagon is usually turned with. */
export const driveFor = (acrossFlatsMm: number): (typeof drives)[number] =>
  drives.find((row) => acrossFlatsMm <= row.toAcrossFlatsMm) ?? drives.at(-1)!;

/** The key for a socket [mm]. */
export const hexKeyFor = (acrossFlatsMm: number): { readonly shortMm: number; readonly longMm: number } => ({
  shortMm: between(hexKeys, acrossFlatsMm, (row) => row.shortMm),
  longMm: between(hexKeys, acrossFlatsMm, (row) => row.longMm),
});

/** Straight between the two rows round a size; beyond the table in proportion to the size. */
function between<Row extends { readonly acrossFlatsMm: number }>(
  rows: readonly Row[],
  size: number,
  of: (row: Row) => number,
): number {
  const first = rows[0]!;
  const last = rows.at(-1)!;
  if (size <= first.acrossFlatsMm) return (of(first) * size) / first.acrossFlatsMm;
  if (size >= last.acrossFlatsMm) return (of(last) * size) / last.acrossFlatsMm;
  const n = rows.findIndex((row) => row.acrossFlatsMm > size);
  const [a, b] = [rows[n - 1]!, rows[n]!];
  const share = (size - a.acrossFlatsMm) / (b.acrossFlatsMm - a.acrossFlatsMm);
  return of(a) + share * (of(b) - of(a));
}

/** Hexagon and socket of a usual metric screw [mm]: ISO 4014 and ISO 4762. Source: from-memory. */
const screwHeads: Readonly<Record<string, readonly [hexagon: number, socket: number]>> = {
  M3: [5.5, 2.5],
  M4: [7, 3],
  M5: [8, 4],
  M6: [10, 5],
  M8: [13, 6],
  M10: [16, 8],
  M12: [18, 10],
  M14: [21, 12],
  M16: [24, 14],
  M20: [30, 17],
};

/** Across the flats of a screw's head by its thread, such as M8 [mm]; undefined where the table has no such thread. */
export function screwHeadMm(size: string | undefined, head: 'hexagon' | 'socket'): number | undefined {
  const thread = /M\d+/iu.exec(size ?? '')?.[0].toUpperCase();
  const row = thread === undefined ? undefined : screwHeads[thread];
  return row === undefined ? undefined : row[head === 'hexagon' ? 0 : 1];
}
