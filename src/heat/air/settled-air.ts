import { airDensity, airSpecificHeat, airViscosity } from '#flow';
import { iceKelvin } from '#units';
import { balancedFlows, type Balanced, closedIn, type NetOpening, type TwoAirs } from './air-net.kernel.ts';
import type { BayOpening } from './bay-space.ts';
import { meshLoss } from './mesh-loss.ts';
import type { ReadyBay } from './ready-bay.ts';
import { levelTwoWayFlow, twoWayFlow } from './vent-formulas.ts';

/** Openings that lie flatter than this exchange air as a hole in a level sheet does: sine of 30 degrees. */
const LEVEL_BELOW = 0.5;
/** Hottest the air of a bay is looked for over that outside [K]. */
const MOST_OVER_K = 1200;
/** The first step away from the air outside, and how the steps grow [K]. */
const FIRST_STEP_K = 0.25;
const STEP_TIMES = 1.35;
/** All that one temperature of the bay gives. */
export interface AtTemperature {
  readonly airC: number;
  readonly flows: Balanced;
  /** By openings and fan [kg/s]. */
  readonly massInKgS: number;
  /** Each way through openings that breathe both ways, where that carries more than the flow through; else empty [m3/s]. */
  readonly bothWaysM3S: readonly number[];
  readonly airs: TwoAirs;
}

/** The bay at one temperature: its pressure settles, and with it every flow. */
export function airAt(ready: ReadyBay, airC: number): AtTemperature {
  const { outsideC, altitudePa, open, pressures, forced } = ready;
  const airs = {
    inKgM3: airDensity(airC, altitudePa),
    outKgM3: airDensity(outsideC, altitudePa),
    inPaS: airViscosity(airC),
    outPaS: airViscosity(outsideC),
  };
  const fanKgS =
    forced.fan === undefined ? 0 : forced.fan.m3S * (forced.fan.blows === 'in' ? airs.outKgM3 : airs.inKgM3);
  const drawn = forced.intakes.reduce((sum, row) => sum + row.massKgS, 0);
  const blowsIn = forced.fan?.blows === 'in';
  const net = open.map((row, i) => netOpening(row, ready.areaOf(row), pressures.pa[i]!));
  const flows = balancedFlows(net, airs, drawn + (blowsIn ? -fanKgS : fanKgS));
  const through = flows.massKgS.reduce((sum, mass) => sum + Math.max(0, -mass), blowsIn ? fanKgS : 0);
  const bothWays = open.map((row) => bothWaysOf(row, ready.areaOf(row), airC, outsideC));
  const exchanged = bothWays.reduce((sum, m3S) => sum + m3S, 0) * airs.outKgM3;
  return exchanged > through
    ? { airC, flows, airs, massInKgS: exchanged, bothWaysM3S: bothWays }
    : { airC, flows, airs, massInKgS: through, bothWaysM3S: [] };
}

function netOpening(row: BayOpening, areaM2: number, outsidePa: number): NetOpening {
  const { mesh } = row;
  const own = 1 / row.dischargeCoefficient ** 2;
  const wire = mesh?.wireGapM;
  return {
    areaM2,
    loss: own + (mesh === undefined || wire !== undefined ? 0 : meshLoss(mesh, () => 0)),
    ...(wire === undefined ? {} : { wireShare: mesh!.openShare, wireGapM: wire }),
    heightM: row.atMm[2] / 1000,
    outsidePa,
  };
}

/** What an opening alone exchanges by the weight of the air: the mesh over it takes its share [m3/s]. */
function bothWaysOf(row: BayOpening, areaM2: number, airC: number, outsideC: number): number {
  const [cold, warm] = [Math.min(airC, outsideC) + iceKelvin, Math.max(airC, outsideC) + iceKelvin];
  if (warm - cold < 1e-9 || areaM2 <= 0) return 0;
  const upright = Math.hypot(row.faces[0], row.faces[1]) / Math.hypot(...row.faces);
  const free = areaM2 * (row.mesh?.openShare ?? 1);
  // Warm air lies under a hole in the roof, and does not leave by one in the floor.
  if (upright < LEVEL_BELOW) return row.faces[2] > 0 === airC > outsideC ? levelTwoWayFlow(free, warm, cold) : 0;
  return twoWayFlow(free, row.heightM * upright, warm, cold);
}

export interface SettledAir {
  readonly at: AtTemperature;
  readonly heatW: number;
  readonly unsettled?: string;
}

/** The temperature at which the air carries off what it is given: the first one on the way from the air outside. */
export function settledAir(ready: ReadyBay): SettledAir {
  const { ask, outsideC } = ready;
  const heatAt = (airC: number) => ask.heat.heatW - ask.heat.slopeWPerK * (airC - ask.heat.atC);
  if (ask.case.bayAirC !== undefined) return { at: airAt(ready, ask.case.bayAirC), heatW: heatAt(ask.case.bayAirC) };
  const { carriedShare = 1 } = ask;
  const leftAt = (airC: number) => heatAt(airC) - carriedShare * carriedW(airAt(ready, airC), outsideC);
  const start = leftAt(outsideC);
  const way = Math.sign(start);
  let [before, left] = [outsideC, start];
  for (let step = FIRST_STEP_K; way !== 0 && Math.abs(before - outsideC) < MOST_OVER_K; step *= STEP_TIMES) {
    const next = before + way * step;
    if (next < COLDEST_C) break;
    const then = leftAt(next);
    if (Math.sign(then) !== way) {
      const airC = closedIn(leftAt, before, left, next, then);
      return { at: airAt(ready, airC), heatW: heatAt(airC) };
    }
    [before, left] = [next, then];
  }
  if (way === 0) return { at: airAt(ready, outsideC), heatW: heatAt(outsideC) };
  const why = `${Math.round(Math.abs(start))} W into its air find no way out below ${Math.round(before)} degC`;
  return { at: airAt(ready, outsideC), heatW: heatAt(outsideC), unsettled: why };
}

/** Nothing cools a bay below this [degC]. */
const COLDEST_C = -60;

/** Heat that the air takes along from the temperature outside to that of the bay [W]. */
export const carriedW = ({ airC, massInKgS }: AtTemperature, outsideC: number): number =>
  massInKgS * airSpecificHeat((airC + outsideC) / 2) * (airC - outsideC);
