import type { Case } from '#car';
import type { Catalogue } from '#standards';
import { easierRuns, withRun } from '../circuit/changed-runs.ts';
import { caseOf, liquidFlow, type ReadyCircuit, redrawn } from '../circuit/circuit-state.ts';
import type { FlowFinding } from '../finding.ts';
import type { DrySumpState } from './dry-sump-state.ts';
import { guarded } from '../refused.ts';
import { feedInletPa, inletPa, stageInletPa } from './inlets.ts';
import { scavengeFlow } from './scavenge.ts';

/** What a cure is worked out with. */
export interface CureAsk {
  readonly ready: ReadyCircuit;
  readonly shelf: Catalogue;
}

/** Findings whose number is a pressure at an inlet: a cure is worth what it lifts that pressure by. */
const INLET_CODES: ReadonlySet<string> = new Set(['feed-draws-air', 'vacuum', 'vacuum-stated', 'suction-depth']);
/** Cures that lift less than this are not worth a line [Pa]. */
const LEAST_GAIN_PA = 100;
const MOST_CURES = 5;

/** The finding with its cures, each worked out on the changed circuit, the one that gains most first. */
export function withCures(finding: FlowFinding, at: Case, state: DrySumpState, ask: CureAsk): FlowFinding {
  if (!INLET_CODES.has(finding.code) || finding.line === undefined || finding.limit === undefined) return finding;
  const now = inletPa(state, ask.ready, finding.line);
  if (now === undefined) return finding;
  const wantedPa = finding.limit * 1e5 * (finding.code === 'suction-depth' ? -1 : 1);
  const run = ask.ready.drawn.runs.find(({ line }) => line === finding.line);
  const line = ask.ready.drawn.lines.get(finding.line);
  if (run === undefined || line === undefined) return finding;
  const hose = line.hose ?? line.pieces.find((row) => row.hose !== undefined)?.hose;
  const changed = easierRuns(run, ask.shelf, hose, line.dash).flatMap(({ words, run: easier }) => {
    const ready = redrawn(ask.ready, withRun(ask.ready.drawn, easier));
    const inlet = inletAfter(ready, at, finding.line!, state);
    return inlet === undefined ? [] : [{ words, inlet, gain: inlet - now }];
  });
  const best = changed.filter(({ gain }) => gain > LEAST_GAIN_PA).toSorted((a, b) => b.gain - a.gain);
  const cures = best
    .slice(0, MOST_CURES)
    .map(
      ({ words, inlet, gain }) =>
        `${words}: +${(gain / 1000).toFixed(1)} kPa, ${(inlet / 1e5).toFixed(2)} bar${inlet >= wantedPa ? ', which is enough' : ''}`,
    );
  const warm = warmEnough(at, finding.line, wantedPa, state, ask);
  return { ...finding, cures: [...cures, ...(warm === undefined ? [] : [warm]), ...finding.cures] };
}

/** The same inlet on a changed circuit; only the side that it lies on is solved again. */
function inletAfter(ready: ReadyCircuit, at: Case, line: string, before: DrySumpState): number | undefined {
  const inlet = guarded(() => ({ pa: inletOf(ready, at, line, before) }));
  return 'why' in inlet ? undefined : inlet.pa;
}

function inletOf(ready: ReadyCircuit, at: Case, line: string, before: DrySumpState): number | undefined {
  const asked = caseOf(ready, at);
  if (typeof asked === 'string') return undefined;
  if (!before.liquid.lines.some((row) => row.line === line))
    return stageInletPa(scavengeFlow(ready, asked, before.oilInto, before.gasPa), ready, line);
  const liquid = liquidFlow(ready, asked, before.gasPa);
  return 'why' in liquid ? undefined : feedInletPa(liquid, asked.fluid, line);
}

const WARMEST_C = 80;
const HALVINGS = 7;

/** The least oil temperature at which the limit holds at this speed, where there is one. */
function warmEnough(at: Case, line: string, wantedPa: number, state: DrySumpState, ask: CureAsk): string | undefined {
  const coldC = at.oilC ?? WARMEST_C;
  const holds = (oilC: number): boolean =>
    (inletAfter(ask.ready, { ...at, oilC }, line, state) ?? Number.NEGATIVE_INFINITY) >= wantedPa;
  if (coldC >= WARMEST_C || !holds(WARMEST_C)) return undefined;
  let [low, high] = [coldC, WARMEST_C];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return `the oil at ${Math.ceil(high)} °C or warmer before ${Math.round(at.engineRpm)} rpm is asked of it: enough`;
}
