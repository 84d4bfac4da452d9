import type { SourceId } from '#sources';
import { mmFromInches } from '#units';

/** A drill or hole saw that a workshop has. The list is a default: a builder's own sizes may stand in its place. */
export interface DrillRow {
  readonly mm: number;
  /** As its shank or rim says it. */
  readonly words: string;
  readonly kind: 'drill' | 'hole saw';
  readonly source: SourceId;
}

const row = (mm: number, words: string, kind: DrillRow['kind']): DrillRow => ({
  mm,
  words,
  kind,
  source: 'common-practice',
});

const drillsMm = [3, 3.2, 4, 5, 6, 7, 8, 10, 12, 13];
const sawsMm = [
  14, 16, 18, 19, 20, 22, 24, 25, 27, 29, 30, 32, 35, 38, 40, 44, 48, 51, 54, 57, 60, 64, 68, 70, 76, 83, 89, 92, 102,
  114, 127,
];
const drillsIn: readonly (readonly [number, string])[] = [
  [1 / 8, '1/8'],
  [3 / 16, '3/16'],
  [1 / 4, '1/4'],
  [5 / 16, '5/16'],
  [3 / 8, '3/8'],
  [1 / 2, '1/2'],
];
const sawsIn: readonly (readonly [number, string])[] = [
  [9 / 16, '9/16'],
  [5 / 8, '5/8'],
  [3 / 4, '3/4'],
  [7 / 8, '7/8'],
  [1, '1'],
  [1.125, '1 1/8'],
  [1.25, '1 1/4'],
  [1.375, '1 3/8'],
  [1.5, '1 1/2'],
  [1.75, '1 3/4'],
  [2, '2'],
  [2.25, '2 1/4'],
  [2.5, '2 1/2'],
  [3, '3'],
  [3.5, '3 1/2'],
  [4, '4'],
];

/** Drills and hole saws by size, metric and inch. */
export const drills: readonly DrillRow[] = [
  ...drillsMm.map((mm) => row(mm, `${mm} mm`, 'drill')),
  ...sawsMm.map((mm) => row(mm, `${mm} mm`, 'hole saw')),
  ...drillsIn.map(([inch, words]) => row(mmFromInches(inch), `${words} in`, 'drill')),
  ...sawsIn.map(([inch, words]) => row(mmFromInches(inch), `${words} in`, 'hole saw')),
].sort((a, b) => a.mm - b.mm);

/** Sizes nearer than this are the same drill to the hand [mm]. */
const SAME_MM = 0.05;

/** The smallest that is no smaller than asked; undefined beyond the largest. */
export const drillOfAtLeast = (mm: number, stock: readonly DrillRow[] = drills): DrillRow | undefined =>
  stock.find((drill) => drill.mm >= mm - SAME_MM);

/** The largest that is no larger than asked; undefined below the smallest. */
export const drillOfAtMost = (mm: number, stock: readonly DrillRow[] = drills): DrillRow | undefined =>
  stock.findLast((drill) => drill.mm <= mm + 1e-9);

/** The one of this size; undefined where there is none. */
export const drillOfSize = (mm: number, stock: readonly DrillRow[] = drills): DrillRow | undefined =>
  stock.find((drill) => Math.abs(drill.mm - mm) <= SAME_MM);
