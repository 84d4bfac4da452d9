import type { Case } from '#car';
import { bayAir } from '../air/bay-air.ts';
import type { BayAir } from '../air/bay-air-answer.ts';
import type { SpaceOfBay } from '../air/bay-space.ts';
import { filmHeat, filmSlope, NetState } from '../balance/net-state.kernel.ts';
import { settled, type Settled } from '../balance/settled.ts';
import type { ThermalNet } from '../balance/thermal-net.ts';
import { type AirZone, airZones, Films } from './air-zones.ts';
import type { HeatModel } from './heat-model.ts';
import { type CaseState, netInCase } from './net-in-case.ts';
import { fluidNode, type NetLayout } from './net-layout.ts';

/** A case that runs, settled. */
export interface RunCase {
  readonly state: CaseState;
  readonly net: NetState;
  readonly answer: Settled;
  readonly bays: readonly BayAir[];
  readonly films: Films;
}

export interface BayAsk {
  readonly at: Case;
  readonly spaces: readonly SpaceOfBay[];
  readonly mostPowerKw: number;
  readonly partNames: ReadonlyMap<string, string>;
  readonly coversOff: readonly string[];
  readonly fanStands: boolean;
  readonly advises: boolean;
  /** By bay: what share of what its air is worked out to carry off it does. */
  readonly airShares: ReadonlyMap<string, number>;
}

/** Where to begin: the temperatures of nodes as they were for a car like this one (NaN: not known), and the air of its bays. */
export interface WarmStart {
  readonly c: Float64Array;
  readonly zones: readonly AirZone[];
}

const warmedAir = (zones: readonly AirZone[], warm: WarmStart | undefined): readonly AirZone[] =>
  zones.map((zone) => {
    const was = zone.bay === null ? undefined : warm?.zones.find(({ bay }) => bay?.id === zone.bay?.id);
    return was === undefined ? zone : { ...zone, airC: was.airC, airMPerS: was.airMPerS };
  });

/** Bay air is worked out until it and the surfaces in it agree to this [K], or so many times. */
const AIR_SETTLED_K = 0.05;
const MOST_AIR_ROUNDS = 12;

/** Steady temperatures of one case, and the air of its bays with them. */
export function runCase(
  model: HeatModel,
  layout: NetLayout,
  at: Omit<CaseState, 'zones'>,
  bay: BayAsk,
  warm?: WarmStart,
): RunCase {
  const films = new Films();
  let zones = warmedAir(airZones(model.car, at.at), warm);
  let state: CaseState = { ...at, zones };
  const net = netInCase(model, layout, state, films);
  const work = new NetState(net);
  let c = startC(model, layout, state, warm?.c);
  let answer = settled(net, c, work);
  let bays: readonly BayAir[] = [];
  for (let round = 0; round < MOST_AIR_ROUNDS; round++) {
    bays = baysAt(zones, films, net, answer.c, { ...bay, advises: false });
    const next = zonesWith(zones, bays);
    const off = Math.max(0, ...next.map((zone, i) => Math.abs(zone.airC - zones[i]!.airC)));
    if (off < AIR_SETTLED_K && round > 0) break;
    zones = next;
    state = { ...at, zones };
    net.films = films.tables(zones);
    c = answer.c;
    answer = settled(net, c, work);
  }
  if (bay.advises) bays = baysAt(zones, films, net, answer.c, bay);
  return { state, net: work, answer, bays, films };
}

/** The air of each bay with what the surfaces put into it now. */
export function baysAt(
  zones: readonly AirZone[],
  films: Films,
  net: ThermalNet,
  c: Float64Array,
  ask: BayAsk,
): readonly BayAir[] {
  const heat = new Float64Array(zones.length);
  const slope = new Float64Array(zones.length);
  for (let l = 0; l < net.filmNode.length; l++) {
    const film = net.film[l]!;
    const zone = films.zoneOf(film);
    if (zone === null) continue;
    const node = net.filmNode[l]!;
    heat[zone] = heat[zone]! + net.filmArea[l]! * filmHeat(net.films[film]!, c[node]!);
    slope[zone] = slope[zone]! + net.filmArea[l]! * filmSlope(net.films[film]!, c[node]!);
  }
  return zones.flatMap(({ bay, airC }, z) => {
    const space = ask.spaces.find((row) => row.bay.id === bay?.id);
    if (bay === null || space === undefined) return [];
    return [
      bayAir({
        space,
        case: ask.at,
        heat: { heatW: heat[z]!, atC: airC, slopeWPerK: slope[z]! },
        mostPowerKw: ask.mostPowerKw,
        partNames: ask.partNames,
        coversOff: ask.coversOff,
        fanStands: ask.fanStands,
        advises: ask.advises,
        carriedShare: ask.airShares.get(bay.id) ?? 1,
      }),
    ];
  });
}

/** The zones with the bays' air in them. */
export const zonesWith = (zones: readonly AirZone[], bays: readonly BayAir[]): AirZone[] =>
  zones.map((zone) => {
    const found = bays.find(({ bay }) => bay === zone.bay?.id);
    return found === undefined ? zone : { ...zone, airC: found.airC, airMPerS: found.speedMPerS };
  });

/** Where to begin: given temperatures, fluids as they come in, all else as the air. */
function startC(model: HeatModel, layout: NetLayout, state: CaseState, guess?: Float64Array): Float64Array {
  const coldC = state.zones[0]!.airC + WARM_K;
  const c = new Float64Array(layout.nodes).fill(coldC);
  guess?.forEach((warmC, i) => {
    if (!Number.isNaN(warmC)) c[i] = warmC;
  });
  model.parts.forEach((_, i) => {
    const given = state.warmth[i]!.c;
    if (given === null) return;
    const under = layout.underNode[i]!;
    c[under < 0 ? layout.partNode[i]! : under] = given;
  });
  model.lines.forEach((_, i) => {
    const nodes = layout.lines[i]!;
    const { inC } = state.fluids[i]!;
    c[nodes.head] = inC;
    c[nodes.tail] = inC;
    if (guess === undefined || Number.isNaN(guess[nodes.first]!))
      for (let s = 0; s < nodes.segments; s++) c.fill(inC, fluidNode(nodes, s), fluidNode(nodes, s) + 9);
  });
  return c;
}

/** First guess of what is not given: warmer than the air by so much. */
const WARM_K = 30;
