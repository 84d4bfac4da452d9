import { mmFromInches } from '#units';
import type { End } from './end.ts';
import { acrossCornersMm, bossHexMm, nutHexMm } from './hexes.ts';
import { findDash } from './threads.ts';
import type { AdapterRow, ClockSetting } from './rows.ts';

const round = (mm: number): number => Number(mm.toFixed(2));

/** Length of a 37-degree male end from the hex's face to the nose [in], by dash; SAE J514, recalled. */
const flareEndIn: Readonly<Record<number, number>> = {
  3: 0.48,
  4: 0.55,
  5: 0.55,
  6: 0.556,
  8: 0.657,
  10: 0.758,
  12: 0.864,
  14: 0.883,
  16: 0.911,
  20: 0.958,
  24: 1.083,
  32: 1.333,
};

export const flareEndMm = (dash: number): number => mmFromInches(flareEndIn[dash] ?? 1);

/** Usual height of a hex: a third of its width across flats, not less than 7 [mm]; assumed. */
export const hexHeightMm = (hexMm: number): number => Math.max(7, hexMm / 3);

/** Usual bore of a fitting: the bore of the hose for that dash [in], recalled from the tube-OD families. */
const boreIn: Readonly<Record<number, number>> = {
  2: 0.09,
  3: 0.125,
  4: 0.1875,
  5: 0.25,
  6: 0.3125,
  8: 0.40625,
  10: 0.5,
  12: 0.625,
  14: 0.75,
  16: 0.875,
  20: 1.125,
  24: 1.375,
  32: 1.8125,
};
export const fittingBoreMm = (dash: number): number => round(mmFromInches(boreIn[dash] ?? dash / 20));
export const majorMm = (dash: number): number => findDash(dash)?.majorMm ?? mmFromInches(dash / 16);

export const flareHexMm = (dash: number): number => nutHexMm(dash);
export const bossHex = (dash: number): number => bossHexMm(dash);

type Made = Pick<AdapterRow, 'id' | 'name' | 'a' | 'b'> & Partial<AdapterRow>;

/** A straight fitting: hex between, bore of the smaller side. */
export function straight(made: Made, hexMm: number, lengthMm: number, boreMm: number): AdapterRow {
  return {
    lengthMm: round(lengthMm),
    angleDeg: 0,
    bodyOdMm: acrossCornersMm(hexMm),
    hexMm: round(hexMm),
    boreMm: round(boreMm),
    clock: 'none',
    seals: [],
    source: 'generic-dimensions',
    measure: true,
    ...made,
  };
}

/** An elbow: two legs that meet at its centre; `clock` says how its direction is set. */
export function elbow(
  made: Made,
  angleDeg: 45 | 90,
  legs: readonly [a: number, b: number],
  hexMm: number,
  boreMm: number,
  clock: ClockSetting,
): AdapterRow {
  const [aLegMm, bLegMm] = legs;
  return {
    ...straight(made, hexMm, aLegMm + bLegMm, boreMm),
    aLegMm: round(aLegMm),
    bLegMm: round(bLegMm),
    angleDeg,
    clock,
  };
}

/** Dash sizes that the usual adapters come in. */
export const adapterDashes = [3, 4, 6, 8, 10, 12, 16, 20] as const;
export const male = (dash: number): End => ({ type: 'flare37-male', dash });
export const female = (dash: number): End => ({ type: 'flare37-female', dash });
/** A size as it stands in an id: "1/8" is "1-8". */
export const sizeId = (size: string): string => size.toLowerCase().replace('/', '-');

/** Outside of a pipe thread, how much of it stays outside when tight, and the usual bore [mm]; recalled. */
export const pipeBody: Readonly<Record<string, { odMm: number; proudMm: number; boreMm: number }>> = {
  '1/8': { odMm: 10.3, proudMm: 3, boreMm: 5 },
  '1/4': { odMm: 13.7, proudMm: 4, boreMm: 8 },
  '3/8': { odMm: 17.1, proudMm: 4, boreMm: 11 },
  '1/2': { odMm: 21.3, proudMm: 5, boreMm: 14 },
  '3/4': { odMm: 26.7, proudMm: 5, boreMm: 19 },
  '1': { odMm: 33.4, proudMm: 6, boreMm: 24 },
};
