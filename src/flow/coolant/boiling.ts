import type { Vec } from '#geometry';
import { headOf } from '../circuit/liquid-net.ts';
import type { BoilingSpot } from '../circuit/coolant-answer.ts';
import type { LineFlow } from '../circuit/flow-answer.ts';
import type { LineRun } from '../circuit/line-run.ts';
import type { FluidState } from '../fluids/fluid-state.ts';
import { boilingPointOfWater, waterVapourPressure } from '../fluids/saturation.ts';

/** Least pressure that water's own table reaches down to [Pa]. */
const LEAST_PA = 612;

/** By Raoult the vapour pressure of water with glycol is water's times one share, at all temperatures. */
const shareOf = (fluid: FluidState, fluidC: number): number => fluid.vapourAbsPa / waterVapourPressure(fluidC);

/** Where water or its mix with glycol boils [C]; `fluidC` is what the state holds at. */
export const boilsAtC = (fluid: FluidState, fluidC: number, absPa: number): number =>
  boilingPointOfWater(Math.max(LEAST_PA, absPa / shareOf(fluid, fluidC)));

/** Its vapour pressure at another temperature [Pa]. */
export const vapourAt = (fluid: FluidState, fluidC: number, temperatureC: number): number =>
  shareOf(fluid, fluidC) * waterVapourPressure(temperatureC);

/** What a line's water stands under. */
export interface LinePlace {
  readonly run: LineRun;
  readonly flow: LineFlow;
  readonly temperatureC: number;
}

/** Water as it is there, and what is outside. */
export interface WaterUnder {
  readonly fluid: FluidState;
  readonly fluidC: number;
  readonly pull: Vec;
  readonly outsideAbsPa: number;
}

/** The place of a line that is nearest to boiling: height, loss up to there and speed in its own bore counted. */
export function worstOfLine({ run, flow, temperatureC }: LinePlace, under: WaterUnder): BoilingSpot {
  const { fluid, fluidC, pull, outsideAbsPa } = under;
  const start = run.stretches[0]!.pathMm[0]!;
  const base = flow.fromPa + headOf(fluid, pull, start);
  let passed = 0;
  let worst: { absPa: number; atMm: Vec } = { absPa: Number.POSITIVE_INFINITY, atMm: start };
  for (const { pathMm, lengthMm, boreMm } of run.stretches) {
    const speed = flow.flowM3S / ((Math.PI / 4) * (boreMm / 1000) ** 2);
    pathMm.forEach((atMm, i) => {
      const along = passed + (lengthMm * i) / Math.max(1, pathMm.length - 1);
      const share = run.lengthMm > 0 ? along / run.lengthMm : 0;
      const gauge = base - headOf(fluid, pull, atMm) - flow.dropPa * share - (fluid.densityKgM3 * speed * speed) / 2;
      if (outsideAbsPa + gauge < worst.absPa) worst = { absPa: outsideAbsPa + gauge, atMm };
    });
    passed += lengthMm;
  }
  const boils = boilsAtC(fluid, fluidC, worst.absPa);
  return {
    words: placeWords(run, worst.atMm),
    line: run.line,
    atMm: worst.atMm,
    absPa: worst.absPa,
    temperatureC,
    boilsAtC: boils,
    marginK: boils - temperatureC,
  };
}

/** A place within this of an end is that end [mm]. */
const AT_END_MM = 60;

function placeWords({ line, from, to, stretches }: LineRun, atMm: Vec): string {
  const apart = (end: Vec): number => Math.hypot(end[0] - atMm[0], end[1] - atMm[1], end[2] - atMm[2]);
  const [first, last] = [stretches[0]!.pathMm[0]!, stretches.at(-1)!.pathMm.at(-1)!];
  if (apart(last) < AT_END_MM && apart(last) <= apart(first)) return `${line} at ${to}`;
  if (apart(first) < AT_END_MM) return `${line} at ${from}`;
  return `${line}, ${Math.round(atMm[2])} mm up`;
}
