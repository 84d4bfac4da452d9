import type { Case } from '#car';
import type { Catalogue } from '#standards';
import { easierRuns, withRun } from '../circuit/changed-runs.ts';
import { type ReadyCircuit, redrawn } from '../circuit/circuit-state.ts';
import type { DrawnCircuit } from '../circuit/drawn-circuit.ts';
import type { FlowFinding } from '../finding.ts';
import { guides } from '../limits.ts';
import { guarded } from '../refused.ts';
import { plainBleeds } from './coolant-findings.ts';
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
                ...restricted(at, ask),
                ...wider(at, ask),
              ])
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
        settled[0] === null || settled[1] === null
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
