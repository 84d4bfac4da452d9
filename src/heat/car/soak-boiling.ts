import type { NetMoment } from '../balance/in-time.ts';
import { filmHeat } from '../balance/net-state.kernel.ts';
import type { ThermalNet } from '../balance/thermal-net.ts';
import { isBoiling } from '../laws/boiling-film.ts';
import type { LineBoils } from '../heat-answer.ts';
import { waterLatentHeat } from '../laws/latent-heat.ts';
import { type HeatModel, SECTORS } from './heat-model.ts';
import { fluidStands } from './line-limits.ts';
import type { CaseState } from './net-in-case.ts';
import type { NetLayout } from './net-layout.ts';

/**
 * Water lines that boil after switching off: from which minute, and how much goes off as steam: the heat that left through the film of steam
 * over the time, over what boils a litre away.
 *
 * @param nets - the network of each moment
 * @param drySince - the minute from which a line has no water left, by its id
 */
export function boilsOver(
  model: HeatModel,
  layout: NetLayout,
  state: Omit<CaseState, 'zones'>,
  moments: readonly NetMoment[],
  nets: readonly ThermalNet[],
  drySince: ReadonlyMap<string, number>,
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
    const dryMin = drySince.get(line.line.id);
    return [
      {
        line: line.line.id,
        atC: stands.limitC,
        fromMin: moments[from]!.seconds / 60,
        litres,
        ...(dryMin === undefined ? {} : { dryMin }),
      },
    ];
  });
}

/** Counts from moment to moment what boils off each water line, and tells which has nothing left: nothing runs in after it. */
export class BoilingAway {
  /** Minute from which a line is dry, by its id. */
  readonly since = new Map<string, number>();
  private readonly lines: readonly {
    readonly id: string;
    readonly boilsAtC: number;
    readonly from: number;
    readonly before: number;
    /** Heat that boils all of it away [J]. */
    readonly wholeJ: number;
    watts: number;
    joules: number;
  }[];
  private seconds = 0;

  constructor(model: HeatModel, layout: NetLayout, state: Omit<CaseState, 'zones'>) {
    this.lines = model.lines.flatMap((line, i) => {
      const fluid = state.fluids[i]!;
      const stands = state.steams && fluid.carries === 'water' ? fluidStands(model, line, fluid) : null;
      if (stands === null) return [];
      const { first, tail } = layout.lines[i]!;
      const wholeJ = boreM3(line) * fluid.densityKgM3 * waterLatentHeat(stands.limitC);
      const { id } = line.line;
      return [{ id, boilsAtC: stands.limitC, from: first, before: tail, wholeJ, watts: 0, joules: 0 }];
    });
  }

  /**
   * @param runs - water is pumped round: it comes in after what boils off
   * @returns true where another line has come dry
   */
  at({ seconds, c }: NetMoment, net: ThermalNet, runs: boolean): boolean {
    let isMore = false;
    for (const line of this.lines) {
      const watts = runs ? 0 : steamOf(net, line.boilsAtC, line.from, line.before, c);
      line.joules += ((line.watts + watts) / 2) * (seconds - this.seconds);
      line.watts = watts;
      if (line.joules < line.wholeJ || this.since.has(line.id)) continue;
      this.since.set(line.id, seconds / 60);
      isMore = true;
    }
    this.seconds = seconds;
    return isMore;
  }
}

/** What a line holds, its ends among it [m3]. */
const boreM3 = ({ patches, segments, walls }: HeatModel['lines'][number]): number => {
  let sum = 0;
  for (let s = 0; s < segments; s++) {
    const { body, lengthMm } = patches[s * SECTORS]!;
    sum += ((Math.PI / 4) * walls[body]!.boreMm ** 2 * lengthMm) / 1e9;
  }
  return sum;
};

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
