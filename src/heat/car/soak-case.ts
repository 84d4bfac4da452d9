import type { Soak, SoakSeries } from '../heat-answer.ts';
import { NetState } from '../balance/net-state.kernel.ts';
import type { NetShape } from '../balance/net-shape.ts';
import { inTime, type NetMoment } from '../balance/in-time.ts';
import type { ThermalNet } from '../balance/thermal-net.ts';
import type { BayAir } from '../air/bay-air-answer.ts';
import { type AirZone, airZones, Films } from './air-zones.ts';
import { type HeatModel, SECTORS } from './heat-model.ts';
import type { ToldC } from './line-heat.ts';
import { wholeParts } from './body-heat.ts';
import { type CaseState, netInCase } from './net-in-case.ts';
import { BoilingAway, boilsOver } from './soak-boiling.ts';
import { fluidNode, type NetLayout } from './net-layout.ts';
import { type BayAsk, baysAt, type RunCase, zonesWith } from './run-case.ts';

export interface SoakCase {
  readonly state: CaseState;
  readonly told: ToldC;
  readonly soak: Soak;
  readonly bays: readonly BayAir[];
  readonly films: Films;
  readonly last: { readonly net: NetState; readonly c: Float64Array };
  readonly stopped?: string;
}

export interface SoakAsk {
  readonly at: Omit<CaseState, 'zones'>;
  /** The same with pump and fan as they run on. */
  readonly runsOn: Omit<CaseState, 'zones'>;
  readonly before: RunCase;
  readonly after: string;
  /** Of the case before: its nodes among the nodes of this network. */
  readonly start: Float64Array;
  readonly bay: BayAsk;
  readonly minutes: number;
  readonly fanMin: number;
  readonly pumpMin: number;
}

/** Error of one step [K], and longest step [s]. */
const STEP_WITHIN_K = 0.4;
const LONGEST_STEP_S = 120;

/** What happens after switching off: hot parts, metal and standing fluids in time, the bay's air with them. */
export function soakCase(model: HeatModel, layout: NetLayout, ask: SoakAsk): SoakCase {
  const films = new Films();
  let zones = zonesFrom(model, ask);
  const stateAt = (minutes: number): Omit<CaseState, 'zones'> => (minutes < ask.pumpMin ? ask.runsOn : ask.at);
  let pumping = ask.pumpMin > 0;
  let fanning = ask.fanMin > 0;
  const away = new BoilingAway(model, layout, ask.at);
  const first = netInCase(model, layout, { ...stateAt(0), zones }, films);
  const bayAsk = (): BayAsk => ({ ...ask.bay, fanStands: !fanning, advises: false });
  let bays = baysAt(zones, films, first, ask.start, bayAsk());
  zones = zonesWith(zones, bays);
  first.films = films.tables(zones);
  const seen: { readonly minutes: number; readonly net: ThermalNet; readonly bays: readonly BayAir[] }[] = [
    { minutes: 0, net: { ...first }, bays },
  ];
  const run = inTime(first, ask.start, {
    seconds: 60 * ask.minutes,
    withinK: STEP_WITHIN_K,
    mostStepS: LONGEST_STEP_S,
    at: (moment, net) => {
      const minutes = moment.seconds / 60;
      fanning = minutes < ask.fanMin;
      bays = baysAt(zones, films, net, moment.c, bayAsk());
      zones = zonesWith(zones, bays);
      net.films = films.tables(zones);
      const dries = away.at(moment, net, pumping);
      const stops = pumping && minutes >= ask.pumpMin;
      if (stops) pumping = false;
      const dry = new Set(away.since.keys());
      const next = stops || dries ? netInCase(model, layout, { ...stateAt(minutes), zones, dry }, films) : undefined;
      seen.push({ minutes, net: { ...(next ?? net) }, bays });
      return next;
    },
  });
  const told = toldOver(
    model,
    layout,
    run.moments,
    seen.map(({ net }) => net),
  );
  return {
    state: { ...ask.at, zones },
    told,
    soak: soakOf(
      model,
      layout,
      ask,
      run.moments,
      seen.map((row) => row.bays),
      run.unbalanced,
      seen.map(({ net }) => net),
      away.since,
    ),
    bays,
    films,
    last: { net: new NetState(seen.at(-1)!.net), c: run.moments.at(-1)!.c },
    ...(run.stopped === undefined ? {} : { stopped: run.stopped }),
  };
}

/** The air as it was when the engine stopped. */
const zonesFrom = (model: HeatModel, { at, before }: SoakAsk): AirZone[] =>
  airZones(model.car, at.at).map((zone, i) => {
    const was = before.state.zones[i];
    return zone.bay === null || was === undefined ? zone : { ...zone, airC: was.airC };
  });

/** Of each node the highest over the whole time, and when. */
function toldOver(
  model: HeatModel,
  layout: NetLayout,
  moments: readonly NetMoment[],
  nets: readonly ThermalNet[],
): ToldC {
  const most = new Float64Array(layout.nodes).fill(-Infinity);
  const when = new Int32Array(layout.nodes);
  moments.forEach(({ c }, m) => {
    for (let i = 0; i < layout.nodes; i++)
      if (c[i]! > most[i]!) {
        most[i] = c[i]!;
        when[i] = m;
      }
  });
  const states = new Map<number, NetState>();
  let shape: NetShape | undefined;
  const stateOf = (m: number): NetState => {
    const known = states.get(m) ?? new NetState(nets[m]!, shape);
    shape = known.shape;
    states.set(m, known);
    return known;
  };
  return {
    c: (node) => most[node]!,
    at: (node) => ({ model, layout, state: stateOf(when[node]!), c: moments[when[node]!]!.c }),
    minutes: (node) => moments[when[node]!]!.seconds / 60,
  };
}

function series(id: string, minutes: readonly number[], c: readonly number[]): SoakSeries {
  const at = c.reduce((best, value, i) => (value > c[best]! ? i : best), 0);
  return { id, c, peak: { atMin: minutes[at]!, c: c[at]! } };
}

function soakOf(
  model: HeatModel,
  layout: NetLayout,
  ask: SoakAsk,
  moments: readonly NetMoment[],
  bays: readonly (readonly BayAir[])[],
  unbalanced: number,
  nets: readonly ThermalNet[],
  drySince: ReadonlyMap<string, number>,
): Soak {
  const minutes = moments.map(({ seconds }) => seconds / 60);
  const over = (id: string, of: (c: Float64Array) => number): SoakSeries =>
    series(
      id,
      minutes,
      moments.map(({ c }) => of(c)),
    );
  return {
    after: ask.after,
    minutes,
    lines: model.lines.map(({ line }, i) => {
      const nodes = layout.lines[i]!;
      return over(line.id, (c) => {
        let most = -Infinity;
        for (let s = 0; s < nodes.segments; s++)
          for (let k = 1; k <= SECTORS; k++) most = Math.max(most, c[fluidNode(nodes, s) + k]!);
        return most;
      });
    }),
    parts: wholeParts(model).map((rows) =>
      over(model.parts[rows[0]!]!.part.part.id, (c) => Math.max(...rows.map((i) => c[layout.partNode[i]!]!))),
    ),
    panels: model.panels.map(({ id, patches }, i) =>
      over(id, (c) => {
        let most = -Infinity;
        for (let k = 0; k < patches.length / 2; k++) most = Math.max(most, c[layout.panelNode[i]! + k]!);
        return most;
      }),
    ),
    bays: (bays[0] ?? []).map(({ bay }, b) =>
      series(
        bay,
        minutes,
        bays.map((row) => row[b]!.airC),
      ),
    ),
    boils: boilsOver(model, layout, ask.at, moments, nets, drySince),
    coversOff: ask.at.at.coversOff ?? [],
    fanRunsMin: ask.fanMin,
    pumpRunsMin: ask.pumpMin,
    unbalanced,
  };
}
