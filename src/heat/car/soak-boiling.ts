import type { NetMoment } from '../balance/in-time.ts';
import { filmHeat } from '../balance/net-state.kernel.ts';
import type { ThermalNet } from '../balance/thermal-net.ts';
import { isBoiling } from '../laws/boiling-film.ts';
import type { LineBoils } from '../heat-answer.ts';
import { waterLatentHeat } from '../laws/latent-heat.ts';
import type { HeatModel } from './heat-model.ts';
import { fluidStands } from './line-limits.ts';
import type { CaseState } from './net-in-case.ts';
import type { NetLayout } from './net-layout.ts';

/**
 * Water lines that boil after switching off: from which minute, and how much goes off as steam: the heat that left through the film of steam
 * over the time, over what boils a litre away.
 *
 * @param nets - the network of each moment
 */
export function boilsOver(
  model: HeatModel,
  layout: NetLayout,
  state: Omit<CaseState, 'zones'>,
  moments: readonly NetMoment[],
  nets: readonly ThermalNet[],
): readonly LineBoils[] {
  return model.lines.flatMap((line, i): LineBoils[] => {
    const fluid = state.fluids[i]!;
    const stands = fluid.carries === 'water' ? fluidStands(model, line, fluid) : null;
    if (stands === null) return [];
    const { first, tail } = layout.lines[i]!;
    const steamW = moments.map(({ c }, m) => steamOf(nets[m]!, stands.limitC, first, tail, c));
    const from = steamW.findIndex((watts) => watts > 0);
    if (from < 0) return [];
    const seconds = moments.map((moment) => moment.seconds);
    const litres = steamLitres(seconds, steamW, stands.limitC, fluid.densityKgM3);
    return [{ line: line.line.id, atC: stands.limitC, fromMin: moments[from]!.seconds / 60, litres }];
  });
}

/** Water that heat boils away: what it gives over the time, over what boils a litre away [L]. */
export function steamLitres(
  seconds: readonly number[],
  watts: readonly number[],
  boilsAtC: number,
  densityKgM3: number,
): number {
  let joules = 0;
  for (let m = 1; m < seconds.length; m++)
    joules += ((watts[m - 1]! + watts[m]!) / 2) * (seconds[m]! - seconds[m - 1]!);
  return (1000 * joules) / (waterLatentHeat(boilsAtC) * densityKgM3);
}

/** What nodes from one to before another give off as steam [W]. */
function steamOf(net: ThermalNet, boilsAtC: number, from: number, to: number, c: Float64Array): number {
  let watts = 0;
  for (let l = 0; l < net.filmNode.length; l++) {
    const node = net.filmNode[l]!;
    if (node < from || node >= to) continue;
    const film = net.films[net.film[l]!]!;
    if (isBoiling(film) && film.airC === boilsAtC) watts += net.filmArea[l]! * filmHeat(film, c[node]!);
  }
  return watts;
}
