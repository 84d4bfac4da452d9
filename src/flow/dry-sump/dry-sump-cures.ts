import type { Case } from '#car';
import type { Catalogue } from '#standards';
import { easierRuns, widerRuns, withRun } from '../circuit/changed-runs.ts';
import { caseOf, liquidFlow, type ReadyCircuit, redrawn } from '../circuit/circuit-state.ts';
import type { FlowFinding } from '../finding.ts';
import { leastThatHolds, toldCures, upToEnough } from '../circuit/worked-cure.ts';
import { drainCures, drainFallCures } from './drain-cures.ts';
import type { DrySumpAsk } from './dry-sump-ask.ts';
import type { DrySumpState } from './dry-sump-state.ts';
import { guarded } from '../refused.ts';
import { feedInletPa, type Inlet, inletOf, plainly, stageInlet } from './inlets.ts';
import { barePickUpCures } from './pick-up-cures.ts';
import { floodedCures, galleryCures } from './pump-cures.ts';
import { scavengeFlow } from './scavenge.ts';
import { gasPressureCures, ventAddedCures, widerVentCures } from './vent-cures.ts';

const bar = (pa: number): string => (pa / 1e5).toFixed(2);
/** Cures that lift less than this are not worth a line [Pa]. */
const LEAST_GAIN_PA = 100;

/** By what is wrong: what would cure it. */
const CURES: Readonly<Record<string, (ask: DrySumpAsk) => readonly string[]>> = {
  'feed-draws-air': inletCures,
  vacuum: inletCures,
  'vacuum-stated': inletCures,
  'suction-depth': inletCures,
  'feed-speed': feedSpeedCures,
  'gallery-pressure': galleryCures,
  'pan-floods': floodedCures,
  'drain-capacity': drainCures,
  'drain-falls': drainFallCures,
  'no-vent': ventAddedCures,
  'vent-speed': widerVentCures,
  'gas-pressure': gasPressureCures,
  'pan-bare': barePickUpCures,
};

/** The finding with its cures, each worked out on the changed circuit, the one that gains most first. */
export function withCures(
  finding: FlowFinding,
  state: DrySumpState,
  ready: ReadyCircuit,
  shelf: Catalogue,
): FlowFinding {
  const cures = CURES[finding.code]?.({ finding, state, ready, shelf }) ?? [];
  return cures.length === 0 ? finding : { ...finding, cures: [...cures, ...finding.cures] };
}

/** What lifts the pressure at an inlet: the line wider, its ends straighter, the oil warmer. */
function inletCures(ask: DrySumpAsk): string[] {
  const { finding, state, ready, shelf } = ask;
  const { at } = state.asked;
  if (finding.line === undefined || finding.limit === undefined) return [];
  const now = inletOf(state, ready, finding.line);
  const run = ready.drawn.runs.find(({ line }) => line === finding.line);
  const line = ready.drawn.lines.get(finding.line);
  if (now === undefined || run === undefined || line === undefined) return [];
  const wantedPa = finding.limit * 1e5 * (finding.code === 'suction-depth' ? -1 : 1);
  const isOnlyAtWorst = finding.level === 'fix';
  const hose = line.hose ?? line.pieces.find((row) => row.hose !== undefined)?.hose;
  const tried = easierRuns(run, shelf, hose, line.dash).flatMap(({ words, run: easier }) => {
    const inlet = inletAfter(redrawn(ready, withRun(ready.drawn, easier)), at, finding.line!, state);
    if (inlet === undefined) return [];
    const enough = inlet.deepestPa >= wantedPa ? ', which is enough' : '';
    // Where all is well but for the deepest that models have it, that is what is cured.
    const gain = isOnlyAtWorst ? inlet.deepestPa - now.deepestPa : inlet.pa - now.pa;
    const deepest = inlet.pa - inlet.deepestPa < 500 ? '' : ` (${bar(inlet.deepestPa)} at its deepest)`;
    return [{ words: `${words}: +${(gain / 1000).toFixed(1)} kPa, ${bar(inlet.pa)} bar${deepest}${enough}`, gain }];
  });
  const warm = warmEnough(finding.line, wantedPa, ask);
  return [...toldCures(tried, LEAST_GAIN_PA), ...(warm === undefined ? [] : [warm])];
}

/** The feed in the sizes up to the one in which the oil runs slowly enough, solved again. */
function feedSpeedCures({ finding, state, ready, shelf }: DrySumpAsk): string[] {
  const run = ready.drawn.runs.find(({ line }) => line === finding.line);
  const line = ready.drawn.lines.get(finding.line ?? '');
  const { value: now = 0, limit = 0 } = finding;
  if (run === undefined || line === undefined) return [];
  const hose = line.hose ?? line.pieces.find((row) => row.hose !== undefined)?.hose;
  const speeds = widerRuns(run, shelf, hose, line.dash).flatMap(({ words, run: wider }) => {
    const liquid = guarded(() => liquidFlow(redrawn(ready, withRun(ready.drawn, wider)), state.asked, state.gasPa));
    const after = 'why' in liquid ? undefined : liquid.lines.find((row) => row.line === run.line);
    return after === undefined ? [] : [{ words, speed: after.velocityMS }];
  });
  return toldCures(
    upToEnough(speeds, ({ speed }) => speed <= limit).map(({ words, speed }) => ({
      words: `${words}: ${speed.toFixed(2)} m/s${speed <= limit ? ', which is enough' : ''}`,
      gain: now - speed,
    })),
    0.01,
  );
}

/** The same inlet on a changed circuit; only the side that it lies on is solved again. */
function inletAfter(ready: ReadyCircuit, at: Case, line: string, before: DrySumpState): Inlet | undefined {
  const found = guarded(() => ({ inlet: solvedInlet(ready, at, line, before) }));
  return 'why' in found ? undefined : found.inlet;
}

function solvedInlet(ready: ReadyCircuit, at: Case, line: string, before: DrySumpState): Inlet | undefined {
  const asked = caseOf(ready, at);
  if (typeof asked === 'string') return undefined;
  if (!before.liquid.lines.some((row) => row.line === line))
    return stageInlet(scavengeFlow(ready, asked, before.oilInto, before.gasPa), ready, line);
  const liquid = liquidFlow(ready, asked, before.gasPa);
  return 'why' in liquid ? undefined : plainly(feedInletPa(liquid, asked.fluid, line));
}

const WARMEST_C = 80;

/** The least oil temperature at which the limit holds at this speed, where there is one. */
function warmEnough(line: string, wantedPa: number, { ready, state }: DrySumpAsk): string | undefined {
  const { at } = state.asked;
  const coldC = at.oilC ?? WARMEST_C;
  if (coldC >= WARMEST_C) return undefined;
  const holds = (more: number): boolean =>
    (inletAfter(ready, { ...at, oilC: coldC + more }, line, state)?.deepestPa ?? Number.NEGATIVE_INFINITY) >= wantedPa;
  const more = leastThatHolds(0, WARMEST_C - coldC, 1, holds);
  return more === undefined
    ? undefined
    : `the oil at ${Math.ceil(coldC + more)} °C or warmer before ${Math.round(at.engineRpm)} rpm is asked of it: enough`;
}
