/** A colour as red, green, blue from 0 to 1, as a screen takes them. */
export type Rgb = readonly [red: number, green: number, blue: number];

/**
 * A scale from dark blue to yellow that eyes with and without weak red or green see alike, each step as much lighter as the one before:
 * "Optimizing colormaps with consideration for color vision deficiency", 2018. Eleven of its steps, 0 to 255, from a polynomial of it in an
 * open library.
 */
const STEPS: readonly Rgb[] = [
  [0, 32, 81],
  [10, 50, 106],
  [43, 68, 110],
  [77, 86, 109],
  [105, 105, 112],
  [127, 124, 117],
  [148, 143, 120],
  [173, 164, 118],
  [202, 186, 106],
  [234, 209, 86],
  [253, 234, 69],
];

/** The colour at a share of the scale; its ends beyond them. */
export function scaleColour(share: number): Rgb {
  const at = Math.min(1, Math.max(0, share)) * (STEPS.length - 1);
  const low = Math.min(STEPS.length - 2, Math.floor(at));
  const [a, b] = [STEPS[low]!, STEPS[low + 1]!];
  const mixed = (k: 0 | 1 | 2): number => (a[k] + (at - low) * (b[k] - a[k])) / 255;
  return [mixed(0), mixed(1), mixed(2)];
}

/** As a style sheet takes it. */
export const cssColour = (share: number): string =>
  `rgb(${scaleColour(share)
    .map((value) => Math.round(value * 255))
    .join(' ')})`;

/** Temperatures that the scale spans [degC]. */
export interface HeatScale {
  readonly fromC: number;
  readonly toC: number;
  /** What is hotter than `toC` shares the last quarter of the scale, up to this [degC]; absent: nothing is. */
  readonly glowC?: number;
}

/** What matters to hoses lies below: it has most of the scale [degC]. */
const MOST_C = 250;
const STEP_C = 25;
const GLOW_STEP_C = 50;
/** Share of the scale for what lies below, where something is hotter. */
const BELOW_SHARE = 0.75;

/** Round ends that hold what is shown; what glows lies close together in the last quarter. */
export function scaleFor(temperaturesC: readonly number[]): HeatScale {
  const held = temperaturesC.filter((c) => Number.isFinite(c)).map((c) => Math.min(MOST_C, c));
  if (held.length === 0) return { fromC: 0, toC: 100 };
  const fromC = Math.floor(Math.min(...held) / STEP_C) * STEP_C;
  const toC = Math.max(fromC + 2 * STEP_C, Math.ceil(Math.max(...held) / STEP_C) * STEP_C);
  const hottest = Math.max(...temperaturesC.filter((c) => Number.isFinite(c)));
  return hottest <= MOST_C ? { fromC, toC } : { fromC, toC, glowC: Math.ceil(hottest / GLOW_STEP_C) * GLOW_STEP_C };
}

export function shareOf({ fromC, toC, glowC }: HeatScale, c: number): number {
  const below = (c - fromC) / (toC - fromC);
  if (glowC === undefined) return below;
  return c <= toC ? BELOW_SHARE * below : BELOW_SHARE + ((1 - BELOW_SHARE) * (c - toC)) / (glowC - toC);
}

/** Places on the scale that are told with their number, none so near the end that the two would touch. */
export function ticksOf({ fromC, toC, glowC }: HeatScale): readonly number[] {
  const step = (toC - fromC) / STEP_C > 6 ? 2 * STEP_C : STEP_C;
  const count = Math.floor((toC - fromC) / step + 1e-9);
  const ticks = Array.from({ length: count + 1 }, (_, i) => fromC + i * step);
  const apart = ticks.filter((tick) => toC - tick > 0.7 * step);
  const below = [...apart, toC];
  return glowC === undefined ? below : [...below, glowC];
}
