import type { Case, Passage } from '#car';
import type { Catalogue } from '#standards';
import { easierRuns, widerRuns, withRun } from '../circuit/changed-runs.ts';
import { type ReadyCircuit, redrawn } from '../circuit/circuit-state.ts';
import { type DrawnCircuit, nameOf } from '../circuit/drawn-circuit.ts';
import type { FlowFinding } from '../finding.ts';
import { guides } from '../limits.ts';
import { guarded } from '../refused.ts';
import { upToEnough } from '../circuit/worked-cure.ts';
import { plainBleeds, RUNS_COLD_C } from './coolant-findings.ts';
import { type CoolantState, coolantState } from './coolant-state.ts';
import { DRILLS_MM, withDrill } from './drilled.ts';
import { suctionLines } from './water-pressures.ts';

/** What a cure is worked out with. */
export interface WaterCureAsk {
  readonly ready: ReadyCircuit;
  readonly shelf: Catalogue;
}

/** One change of the circuit or of its air, in words. */
interface Change {
  readonly words: string;
  readonly drawn: DrawnCircuit;
  readonly at: Case;
}

/** Steps of a pressure cap that are tried [bar]. */
const CAP_STEPS_BAR = [0.2, 0.5] as const;
const MORE_AIR = [1.25, 1.5, 2] as const;
const MOST_CURES = 5;

/** The finding with its cures, each worked out on the changed circuit, the one that gains most first. */
export function withWaterCures(finding: FlowFinding, at: Case, state: CoolantState, ask: WaterCureAsk): FlowFinding {
  const cures =
    finding.code === 'bleed-flow'
      ? bleedCures(finding, at, state, ask)
      : finding.code === 'boiling'
        ? ranked(state, ask, 'K', 0.2, (now) => now.answer.worst?.marginK, [
            ...restricted(at, ask),
            ...caps(at, ask),
            ...wider(at, ask),
          ])
        : finding.code === 'pump-pulls'
          ? ranked(state, ask, 'kPa', 0.2, (now) => leastInlet(now) / 1000, [...wider(at, ask), ...restricted(at, ask)])
          : finding.code === 'too-hot' || finding.code === 'heat-stays'
            ? ranked(state, ask, 'K cooler', 0.2, cooler, [
                ...moreAir(at, ask),
                ...largerCores(at, ask),
                ...restricted(at, ask),
                ...wider(at, ask),
              ])
            : finding.code === 'water-speed'
              ? speedCures(finding, at, ask)
              : finding.code === 'settles'
                ? thermostatCures(state, at, ask)
                : [];
  return { ...finding, cures: [...cures, ...finding.cures] };
}

const leastInlet = ({ answer }: CoolantState): number => Math.min(...answer.inlets.map(({ gaugePa }) => gaugePa));
/** Where it settles, counted downward; past what is worked with: by the heat carried off. */
const cooler = ({ answer }: CoolantState): number | undefined =>
  answer.settlesC === null ? undefined : -answer.settlesC;

function ranked(
  state: CoolantState,
  ask: WaterCureAsk,
  unit: string,
  least: number,
  measure: (state: CoolantState) => number | undefined,
  changes: readonly Change[],
): string[] {
  const now = measure(state);
  const rows = changes.flatMap((change) => {
    const after = solved(change, ask);
    const reached = after === undefined ? undefined : measure(after);
    if (reached === undefined) return [];
    const gain = now === undefined ? Number.POSITIVE_INFINITY : reached - now;
    return gain > least ? [{ words: change.words, reached, gain }] : [];
  });
  return rows
    .toSorted((a, b) => b.gain - a.gain)
    .slice(0, MOST_CURES)
    .map(({ words, reached, gain }) =>
      Number.isFinite(gain)
        ? `${words}: +${gain.toFixed(1)} ${unit}`
        : `${words}: it settles, at ${Math.abs(reached).toFixed(0)} °C`,
    );
}

function solved({ drawn, at }: Change, { ready }: WaterCureAsk): CoolantState | undefined {
  const state = guarded(() => coolantState(drawn === ready.drawn ? ready : redrawn(ready, drawn), at));
  return 'why' in state ? undefined : state;
}

/** Water through the radiators [m3/s]. */
function radiatorFlow({ flow }: CoolantState, ready: ReadyCircuit): number {
  return ready.elements
    .filter(({ passage }) => passage?.duty !== undefined)
    .reduce((sum, { id }) => sum + Math.abs(flow.flowOf.get(id) ?? 0), 0);
}

/** Less is not worth a word [K]. */
const LEAST_COOLER_K = 0.05;

/** The widest drill that keeps this bleed within its guide, and all bleeds choked alike. */
function bleedCures(finding: FlowFinding, at: Case, state: CoolantState, ask: WaterCureAsk): string[] {
  const { drawn } = ask.ready;
  const all = plainBleeds(ask.ready);
  const before = radiatorFlow(state, ask.ready);
  const tell = (lines: readonly string[], words: (mm: number) => string): string[] => {
    for (const mm of DRILLS_MM) {
      const after = solved({ words: '', drawn: withDrill(drawn, lines, mm), at }, ask);
      const flow = after?.flow.flowOf.get(finding.line!);
      if (after === undefined || flow === undefined || flow * 60_000 > guides.bleedFlow.value) continue;
      const gained = (radiatorFlow(after, ask.ready) - before) * 60_000;
      const settled = [state, after].map(({ answer }) => answer.settlesC);
      const colder =
        settled[0] === null || settled[1] === null || Math.abs(settled[0]! - settled[1]!) < LEAST_COOLER_K
          ? ''
          : `, the water settles ${(settled[0]! - settled[1]!).toFixed(1)} K cooler`;
      return [
        `${words(mm)}: ${(flow * 60_000).toFixed(1)} L/min through it, the radiator gains ${gained.toFixed(1)} L/min${colder}`,
      ];
    }
    return [];
  };
  return [
    ...tell([finding.line!], (mm) => `a restrictor of ${mm} mm in ${finding.line}`),
    ...(all.length > 1 ? tell(all, (mm) => `one of ${mm} mm in each of ${all.join(', ')}`) : []),
  ];
}

function restricted(at: Case, { ready }: WaterCureAsk): Change[] {
  const bleeds = plainBleeds(ready);
  if (bleeds.length === 0) return [];
  return [{ words: `2 mm restrictors in ${bleeds.join(', ')}`, drawn: withDrill(ready.drawn, bleeds, 2), at }];
}

function caps(at: Case, { ready }: WaterCureAsk): Change[] {
  const header = ready.drawn.vessels.find(({ vessel }) => vessel.capBar !== undefined || vessel.kind === 'header');
  if (header === undefined || header.vessel.pressureBar !== undefined) return [];
  const now = header.vessel.capBar ?? 0;
  const steps = now === 0 ? [1, 1.3] : CAP_STEPS_BAR.map((step) => now + step);
  return steps.map((capBar) => ({
    words: `a cap of ${capBar.toFixed(1)} bar instead of ${now === 0 ? 'none' : `${now.toFixed(1)} bar`}, if radiator and hoses stand it`,
    drawn: {
      ...ready.drawn,
      vessels: ready.drawn.vessels.map((row) => (row === header ? { ...row, vessel: { ...row.vessel, capBar } } : row)),
    },
    at,
  }));
}

/** The pump's suction lines in the next sizes, with straighter ends. */
function wider(at: Case, { ready, shelf }: WaterCureAsk): Change[] {
  const suction = suctionLines(ready);
  return ready.drawn.runs
    .filter(({ line }) => suction.has(line))
    .flatMap((run) => {
      const line = ready.drawn.lines.get(run.line);
      const hose = line?.hose ?? line?.pieces.find((row) => row.hose !== undefined)?.hose;
      return easierRuns(run, shelf, hose, line?.dash).map(({ words, run: easier }) => ({
        words,
        drawn: withRun(ready.drawn, easier),
        at,
      }));
    });
}

/** The line in the sizes up to the one in which the water runs slowly enough. */
function speedCures(finding: FlowFinding, at: Case, { ready, shelf }: WaterCureAsk): string[] {
  const run = ready.drawn.runs.find(({ line }) => line === finding.line);
  const line = ready.drawn.lines.get(finding.line ?? '');
  const { limit = 0 } = finding;
  if (run === undefined || line === undefined) return [];
  const hose = line.hose ?? line.pieces.find((row) => row.hose !== undefined)?.hose;
  const speeds = widerRuns(run, shelf, hose, line.dash).flatMap(({ words, run: easier }) => {
    const after = solved({ words, drawn: withRun(ready.drawn, easier), at }, { ready, shelf });
    const flow = after?.answer.lines.find((row) => row.line === run.line);
    return flow === undefined ? [] : [{ words, speed: Math.abs(flow.velocityMS) }];
  });
  return upToEnough(speeds, ({ speed }) => speed <= limit).map(
    ({ words, speed }) => `${words}: ${speed.toFixed(2)} m/s${speed <= limit ? ', which is enough' : ''}`,
  );
}

/** A usual thermostat. Common practice, no source. */
const THERMOSTAT = { opensC: 80, fullC: 92 } as const;

/** Where it runs cold and no thermostat holds it up: one at the engine. */
function thermostatCures({ answer }: CoolantState, at: Case, ask: WaterCureAsk): string[] {
  const { drawn } = ask.ready;
  const hasOne = drawn.passages.some(({ thermostat }) => thermostat !== undefined);
  if (answer.settlesC === null || answer.settlesC >= RUNS_COLD_C || hasOne) return [];
  const passages = drawn.passages.map((row) => (row.heats === true ? { ...row, thermostat: THERMOSTAT } : row));
  const settlesC = solved({ words: '', drawn: { ...drawn, passages }, at }, ask)?.answer.settlesC ?? null;
  return settlesC === null
    ? []
    : [
        `a thermostat that begins to open at ${THERMOSTAT.opensC} °C and is open at ${THERMOSTAT.fullC}: the water settles at ${settlesC.toFixed(1)} °C instead of ${answer.settlesC.toFixed(1)} °C`,
      ];
}

const LARGER_CORE = [1.25, 1.5, 2] as const;

/** More of the same core side by side: its measured point holds for each part, so that heat, water and face grow alike. */
function largerCores(at: Case, { ready }: WaterCureAsk): Change[] {
  const cores = ready.drawn.passages.filter(({ duty }) => duty !== undefined);
  if (cores.length === 0) return [];
  return LARGER_CORE.map((times) => ({
    words: `${cores.map(nameOf).join(' and ')} of ${times} times the face, as deep, as much air to each part of it`,
    drawn: {
      ...ready.drawn,
      passages: ready.drawn.passages.map((row) => (row.duty === undefined ? row : { ...row, ...grown(row, times) })),
    },
    at,
  }));
}

function grown({ duty, curveLMinKpa }: Passage, times: number): Partial<Passage> {
  const { heatKw, flowLMin, coreM2 } = duty!;
  return {
    duty: {
      ...duty!,
      heatKw: heatKw * times,
      flowLMin: flowLMin * times,
      ...(coreM2 === undefined ? {} : { coreM2: coreM2 * times }),
    },
    ...(curveLMinKpa === undefined
      ? {}
      : { curveLMinKpa: curveLMinKpa.map(([flow, kpa]): [number, number] => [flow * times, kpa]) }),
  };
}

function moreAir(at: Case, { ready }: WaterCureAsk): Change[] {
  const measured = ready.elements.flatMap(({ passage }) => passage?.duty?.airMPerS ?? [])[0];
  const now = at.coreAirMPerS ?? measured;
  if (now === undefined || now === 0) return [];
  return MORE_AIR.map((times) => ({
    words: `air at the core ${(now * times).toFixed(1)} m/s instead of ${now.toFixed(1)} m/s (duct, seals, fan)`,
    drawn: ready.drawn,
    at: { ...at, coreAirMPerS: now * times },
  }));
}
