import type { SourceId } from '#sources';

/** One size of a hose family as its table prints it: inches and psi. */
export interface HoseSizeRow {
  readonly dash: number;
  readonly boreIn: number;
  readonly odIn: number;
  readonly psi: number;
  /** As stated; the family says whether inside or to the centreline. */
  readonly bendIn: number;
  readonly source: SourceId;
}

/** Rubber with textile and one wire braid; dash = OD of the tube it replaces. A conservative fallback. */
export const rubberBraidSizes = [
  { dash: 4, boreIn: 0.188, odIn: 0.52, psi: 3000, bendIn: 3, source: 'mil-dtl-8794' },
  { dash: 5, boreIn: 0.25, odIn: 0.58, psi: 3000, bendIn: 3.38, source: 'mil-dtl-8794' },
  { dash: 6, boreIn: 0.313, odIn: 0.67, psi: 2000, bendIn: 4, source: 'mil-dtl-8794' },
  { dash: 8, boreIn: 0.406, odIn: 0.77, psi: 2000, bendIn: 4.63, source: 'mil-dtl-8794' },
  { dash: 10, boreIn: 0.5, odIn: 0.92, psi: 1750, bendIn: 5.5, source: 'mil-dtl-8794' },
  { dash: 12, boreIn: 0.625, odIn: 1.08, psi: 1500, bendIn: 6.5, source: 'mil-dtl-8794' },
  { dash: 16, boreIn: 0.875, odIn: 1.23, psi: 800, bendIn: 7.38, source: 'mil-dtl-8794' },
  { dash: 20, boreIn: 1.125, odIn: 1.5, psi: 600, bendIn: 9, source: 'mil-dtl-8794' },
  { dash: 24, boreIn: 1.375, odIn: 1.75, psi: 500, bendIn: 11, source: 'mil-dtl-8794' },
  { dash: 32, boreIn: 1.813, odIn: 2.22, psi: 350, bendIn: 13.25, source: 'mil-dtl-8794' },
] as const satisfies readonly HoseSizeRow[];

/** Smooth-bore PTFE with a wire braid; operating pressure = half the proof pressure. Outsides recalled. */
export const ptfeSizes = [
  { dash: 3, boreIn: 0.125, odIn: 0.25, psi: 1500, bendIn: 2, source: 'mil-dtl-27267' },
  { dash: 4, boreIn: 0.1875, odIn: 0.33, psi: 1500, bendIn: 2, source: 'mil-dtl-27267' },
  { dash: 5, boreIn: 0.25, odIn: 0.39, psi: 1500, bendIn: 2, source: 'mil-dtl-27267' },
  { dash: 6, boreIn: 0.3125, odIn: 0.47, psi: 1500, bendIn: 4, source: 'mil-dtl-27267' },
  { dash: 8, boreIn: 0.40625, odIn: 0.565, psi: 1500, bendIn: 4.63, source: 'mil-dtl-27267' },
  { dash: 10, boreIn: 0.5, odIn: 0.672, psi: 1500, bendIn: 5.5, source: 'mil-dtl-27267' },
  { dash: 12, boreIn: 0.625, odIn: 0.8, psi: 1000, bendIn: 6.5, source: 'mil-dtl-27267' },
  { dash: 16, boreIn: 0.875, odIn: 1.12, psi: 1000, bendIn: 7.38, source: 'mil-dtl-27267' },
  { dash: 20, boreIn: 1.125, odIn: 1.4, psi: 1000, bendIn: 11, source: 'mil-dtl-27267' },
] as const satisfies readonly HoseSizeRow[];

/** Rubber with textile braid only; dash = bore in sixteenths. */
export const textileSizes = [
  { dash: 4, boreIn: 0.25, odIn: 0.5, psi: 400, bendIn: 2.5, source: 'sae-j517' },
  { dash: 6, boreIn: 0.375, odIn: 0.62, psi: 400, bendIn: 3, source: 'sae-j517' },
  { dash: 8, boreIn: 0.5, odIn: 0.78, psi: 400, bendIn: 4, source: 'sae-j517' },
  { dash: 10, boreIn: 0.625, odIn: 0.91, psi: 350, bendIn: 5, source: 'sae-j517' },
  { dash: 12, boreIn: 0.75, odIn: 1.03, psi: 300, bendIn: 6, source: 'sae-j517' },
] as const satisfies readonly HoseSizeRow[];

/** One size of hose that is sold by its bore in millimetres; radius to the centreline. */
export interface MetricHoseRow {
  readonly boreMm: number;
  readonly odMm: number;
  readonly bendMm: number;
  readonly bar: number;
  readonly source: SourceId;
}

/** Fuel hose with textile braid for injection pressure; 0.69 MPa. Outsides and radii recalled. */
export const fuelHoseSizes = [
  { boreMm: 6.35, odMm: 13, bendMm: 75, bar: 6.9, source: 'sae-j30-1998' },
  { boreMm: 8, odMm: 15, bendMm: 75, bar: 6.9, source: 'sae-j30-1998' },
  { boreMm: 9.53, odMm: 16.5, bendMm: 100, bar: 6.9, source: 'sae-j30-1998' },
  { boreMm: 12.7, odMm: 20.5, bendMm: 130, bar: 6.9, source: 'sae-j30-1998' },
] as const satisfies readonly MetricHoseRow[];

/** Straight rubber coolant hose. */
export const coolantHoseSizes = [
  { boreMm: 16, odMm: 24, bendMm: 100, bar: 2.5, source: 'common-practice' },
  { boreMm: 19, odMm: 27, bendMm: 115, bar: 2.5, source: 'common-practice' },
  { boreMm: 25, odMm: 34, bendMm: 150, bar: 2.5, source: 'common-practice' },
  { boreMm: 32, odMm: 42, bendMm: 190, bar: 2.5, source: 'common-practice' },
  { boreMm: 38, odMm: 48, bendMm: 230, bar: 2.5, source: 'common-practice' },
] as const satisfies readonly MetricHoseRow[];

/** Silicone coupler hose, four plies of fabric: wall 5, bends hardly: three bores to the centreline. */
export const siliconeSizes = [
  { boreMm: 19, odMm: 28, bendMm: 57, bar: 4, source: 'common-practice' },
  { boreMm: 25, odMm: 35, bendMm: 75, bar: 4, source: 'common-practice' },
  { boreMm: 32, odMm: 42, bendMm: 96, bar: 3.5, source: 'common-practice' },
  { boreMm: 35, odMm: 45, bendMm: 105, bar: 3.5, source: 'common-practice' },
  { boreMm: 38, odMm: 48, bendMm: 114, bar: 3, source: 'common-practice' },
  { boreMm: 45, odMm: 55, bendMm: 135, bar: 2.8, source: 'common-practice' },
  { boreMm: 51, odMm: 61, bendMm: 153, bar: 2.5, source: 'common-practice' },
  { boreMm: 57, odMm: 67, bendMm: 171, bar: 2.5, source: 'common-practice' },
  { boreMm: 63, odMm: 73, bendMm: 189, bar: 2.2, source: 'common-practice' },
  { boreMm: 70, odMm: 80, bendMm: 210, bar: 2, source: 'common-practice' },
  { boreMm: 76, odMm: 86, bendMm: 228, bar: 2, source: 'common-practice' },
] as const satisfies readonly MetricHoseRow[];

/** Small silicone hose for boost and vacuum signals. */
export const signalHoseSizes = [
  { boreMm: 4, odMm: 9, bendMm: 25, bar: 3, source: 'common-practice' },
  { boreMm: 6, odMm: 12, bendMm: 36, bar: 3, source: 'common-practice' },
  { boreMm: 8, odMm: 14, bendMm: 48, bar: 3, source: 'common-practice' },
] as const satisfies readonly MetricHoseRow[];
