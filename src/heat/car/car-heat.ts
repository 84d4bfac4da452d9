import type { Case } from '#car';
import { panelLayouts, type PanelLayout } from '#panels';
import { baySpaces, type SpaceOfBay } from '../air/bay-space.ts';
import type { HeatAsk } from '../heat-ask.ts';
import type { HeatCase } from '../heat-answer.ts';
import type { Traced } from '../heat-memory.ts';
import { panelHeat, partHeat, wholeParts } from './body-heat.ts';
import { caseFindings } from './heat-findings.ts';
import { heatModel } from './heat-model.ts';
import { lineFluid } from './line-fluid.ts';
import { lineHeat, type ToldC } from './line-heat.ts';
import type { CaseState } from './net-in-case.ts';
import { correctedTold } from './corrected-told.ts';
import { type Corrections, noCorrections } from './readings.ts';
import { netLayout } from './net-layout.ts';
import { caseBefore, isSwitchedOff, partWarmth } from './part-warmth.ts';
import { type BayAsk, type RunCase, runCase } from './run-case.ts';
import { soakCase } from './soak-case.ts';

const DEFAULT_SOAK_MIN = 30;

/** The work of one car: traced once for each set of panels that are off, each running case once. */
export class CarHeat {
  readonly #ask: HeatAsk;
  readonly #given: Traced | null;
  readonly #spaces: readonly SpaceOfBay[];
  readonly #layouts: readonly PanelLayout[];
  readonly #traced = new Map<string, Traced>();
  readonly #ran = new Map<string, RunCase>();

  /** Told only of this line, and without advice on openings: for what-ifs. */
  readonly #only: string | null;

  #corrections: Corrections;

  /** @param given - traced already, for any set of covers, and what agreed readings correct */
  constructor(
    ask: HeatAsk,
    given: { readonly traced: Traced; readonly line: string; readonly corrections: Corrections } | null = null,
  ) {
    this.#ask = ask;
    this.#corrections = given?.corrections ?? noCorrections;
    this.#only = given?.line ?? null;
    this.#given = given?.traced ?? null;
    this.#layouts = panelLayouts(ask.car, { meshes: ask.meshes });
    this.#spaces = baySpaces(ask.car, this.#layouts);
  }

  /** What agreed readings correct from now on. */
  correctBy(corrections: Corrections): void {
    if (corrections.airShares !== this.#corrections.airShares) this.#ran.clear();
    this.#corrections = corrections;
  }

  traced(coversOff: readonly string[]): Traced {
    if (this.#given !== null) return this.#given;
    const key = [...coversOff].sort().join(' ');
    const known = this.#traced.get(key);
    if (known !== undefined) return known;
    const { memory } = this.#ask;
    const like = memory?.traced.get(key)?.model ?? this.#traced.values().next().value?.model;
    const before = like?.traces ?? (memory === undefined ? undefined : 'keep');
    const model = heatModel({
      ...this.#ask,
      coversOff,
      layouts: this.#layouts,
      ...(like === undefined ? {} : { like }),
      ...(before === undefined ? {} : { before }),
    });
    const made = { model, layout: netLayout(model) };
    this.#traced.set(key, made);
    memory?.traced.set(key, made);
    return made;
  }

  #state({ model }: Traced, at: Case, isOff: boolean, warmFrom: Case, pumpOn = false): Omit<CaseState, 'zones'> {
    const { car, flow, shelf } = this.#ask;
    const from = { ...at, ...(isOff ? fluidsOf(warmFrom, at) : {}) };
    return {
      at,
      isOff,
      steams: this.#only === null,
      warmth: model.parts.map(({ part }) => partWarmth(part.part, isOff ? warmFrom : at)),
      fluids: model.lines.map(({ line }) => {
        const runs = pumpOn && (line.duty === 'water' || line.duty === 'water-bleed');
        return lineFluid({
          car,
          line,
          shelf,
          at: isOff && !runs ? from : runs ? { ...from, id: warmFrom.id, engineRpm: warmFrom.engineRpm } : at,
          flow,
          isOff: isOff && !runs,
        });
      }),
    };
  }

  #bayAsk(at: Case): BayAsk {
    const { car } = this.#ask;
    return {
      at,
      spaces: this.#spaces,
      mostPowerKw: Math.max(0, ...(car.cases ?? []).map(({ powerKw = 0 }) => powerKw)),
      partNames: new Map(car.parts.map(({ id, name }) => [id, name ?? id])),
      coversOff: at.coversOff ?? [],
      fanStands: isSwitchedOff(at) && (at.fanRunsMin ?? 0) === 0,
      advises: this.#only === null,
      airShares: this.#corrections.airShares,
    };
  }

  #run(at: Case): { readonly traced: Traced; readonly run: RunCase } {
    const traced = this.traced(at.coversOff ?? []);
    const { memory } = this.#ask;
    const like = this.#given === null ? memory?.ran.get(at.id) : undefined;
    const warm =
      like === undefined
        ? undefined
        : { c: carriedOver(like.traced, like.run.answer.c, traced), zones: like.run.state.zones };
    const run =
      this.#ran.get(at.id) ??
      runCase(traced.model, traced.layout, this.#state(traced, at, false, at), this.#bayAsk(at), warm);
    this.#ran.set(at.id, run);
    if (this.#given === null) memory?.ran.set(at.id, { traced, run });
    return { traced, run };
  }

  /** One case, whichever kind it is. */
  inCase(at: Case): HeatCase {
    return isSwitchedOff(at) ? this.soak(at) : this.running(at);
  }

  /** Temperature of each surface in a case that runs, the outside last [degC]; of a soak in the case before it. */
  surfacesC(at: Case): { readonly c: Float64Array; readonly patches: Float64Array } {
    const { traced, run } = this.#run(isSwitchedOff(at) ? (caseBefore(this.#ask.car, at) ?? at) : at);
    const { model, layout } = traced;
    const sums = new Float64Array(model.surfaces.length + 1);
    const areas = new Float64Array(model.surfaces.length + 1);
    model.patches.forEach(({ surface, areaM2 }, p) => {
      sums[surface] = sums[surface]! + areaM2 * run.answer.c[layout.nodeOfPatch[p]!]!;
      areas[surface] = areas[surface]! + areaM2;
    });
    const c = sums.map((sum, s) => (areas[s]! > 0 ? sum / areas[s]! : run.state.zones[0]!.airC));
    return { c, patches: Float64Array.from(layout.nodeOfPatch, (node) => run.answer.c[node]!) };
  }

  running(at: Case): HeatCase {
    const { traced, run } = this.#run(at);
    const { model, layout } = traced;
    const here = { model, layout, state: run.net, c: run.answer.c };
    const told: ToldC = { c: (node) => run.answer.c[node]!, at: () => here, minutes: () => undefined };
    const { heat, unbalanced } = run.answer;
    const bodies = toldBodies(here, correctedTold(here, told, this.#corrections, run.state), run.state, this.#only);
    const answer = {
      case: at,
      kind: 'running' as const,
      ...bodies,
      bays: run.bays,
      heatInW: heat.inW,
      heatOutW: heat.outW,
      unbalanced,
    };
    return {
      ...answer,
      findings: caseFindings({
        model,
        layout,
        answer,
        state: run.state,
        films: run.films,
        settled: run.answer.settled,
        told,
      }),
    };
  }

  soak(at: Case): HeatCase {
    const before = caseBefore(this.#ask.car, at) ?? { ...at, id: 'assumed', engineRpm: 1000 };
    const ran = this.#run(before);
    const traced = this.traced(at.coversOff ?? []);
    const { model, layout } = traced;
    const fanMin = at.fanRunsMin ?? 0;
    const pumpMin = at.pumpRunsMin ?? 0;
    const made = soakCase(model, layout, {
      at: this.#state(traced, at, true, before),
      runsOn: this.#state(traced, at, true, before, true),
      before: ran.run,
      after: before.id,
      start: carriedOver(ran.traced, ran.run.answer.c, traced),
      bay: this.#bayAsk(at),
      minutes: at.soakMin ?? DEFAULT_SOAK_MIN,
      fanMin,
      pumpMin,
    });
    const here = { model, layout, state: made.last.net, c: made.last.c };
    made.last.net.radiate(made.last.c);
    made.last.net.balance(made.last.c);
    const { inW, outW } = made.last.net.heat(made.last.c);
    const answer = {
      case: at,
      kind: 'soak' as const,
      ...toldBodies(here, correctedTold(here, made.told, this.#corrections, made.state), made.state, this.#only),
      bays: made.bays,
      heatInW: inW,
      heatOutW: outW,
      unbalanced: made.soak.unbalanced,
      soak: made.soak,
    };
    return {
      ...answer,
      findings: caseFindings({
        model,
        layout,
        answer,
        state: made.state,
        films: made.films,
        settled: made.stopped === undefined,
        told: made.told,
      }),
    };
  }
}

/** Fluids stand where they were when the engine stopped. */
const fluidsOf = (warm: Case, off: Case): Partial<Case> => ({
  oilC: off.oilC ?? warm.oilC,
  coolantC: off.coolantC ?? warm.coolantC,
  fuelC: off.fuelC ?? warm.fuelC,
});

function toldBodies(here: Parameters<typeof lineHeat>[0], told: ToldC, state: CaseState, only: string | null) {
  const { model } = here;
  const least = (limits: readonly { readonly marginK: number }[]): number => limits[0]?.marginK ?? Infinity;
  return {
    lines: model.lines
      .flatMap(({ line }, i) => (only === null || line.id === only ? [lineHeat(here, told, state, i)] : []))
      .toSorted((a, b) => least(a.limits) - least(b.limits) || b.worst.surfaceC - a.worst.surfaceC),
    panels: (only === null ? model.panels : [])
      .map((_, i) => panelHeat(here, told, i))
      .toSorted((a, b) => b.worstC - a.worstC),
    parts: (only === null ? wholeParts(model) : [])
      .map((rows) => partHeat(here, told, state, rows))
      .toSorted((a, b) => b.surfaceC - a.surfaceC),
  };
}

/** Temperatures of one network put into another of the same car or one like it; NaN where there was no such thing before. */
function carriedOver(from: Traced, c: Float64Array, to: Traced): Float64Array {
  if (from.layout === to.layout) return Float64Array.from(c);
  const out = new Float64Array(to.layout.nodes).fill(Number.NaN);
  const put = (at: number, was: number, count: number): void => out.set(c.subarray(was, was + count), at);
  const parts = new Map(from.model.parts.map(({ part }, i) => [part.id, i]));
  to.model.parts.forEach(({ part }, i) => {
    const was = parts.get(part.id);
    if (was === undefined) return;
    put(to.layout.partNode[i]!, from.layout.partNode[was]!, 1);
    const [under, underWas] = [to.layout.underNode[i]!, from.layout.underNode[was]!];
    if (under >= 0 && underWas >= 0) put(under, underWas, 1);
  });
  to.model.panels.forEach(({ id, patches }, i) => {
    const was = from.model.panels.findIndex((row) => row.id === id && row.patches.length === patches.length);
    if (was >= 0) put(to.layout.panelNode[i]!, from.layout.panelNode[was]!, patches.length / 2);
  });
  to.model.lines.forEach(({ line, segments }, i) => {
    const was = from.model.lines.findIndex((row) => row.line.id === line.id && row.segments === segments);
    const [nodes, before] = [to.layout.lines[i]!, from.layout.lines[was]];
    if (before !== undefined) put(nodes.head, before.head, nodes.tail + 1 - nodes.head);
  });
  return out;
}
