import type { Catalogue } from '#standards';
import { type ChangedRun, easierRuns, widerRuns, withRun } from '../circuit/changed-runs.ts';
import { hoseSizes, topOf, withLine } from '../circuit/changed-circuit.ts';
import { type ReadyCircuit, redrawn } from '../circuit/circuit-state.ts';
import type { LineRun } from '../circuit/line-run.ts';
import { toldCures, upToEnough, type WorkedCure } from '../circuit/worked-cure.ts';
import { guides } from '../limits.ts';
import type { DrySumpAsk } from './dry-sump-ask.ts';
import { gasInflow } from './dry-sump-state.ts';
import { type GasBalance, gasBalance } from './gas-balance.ts';

const lMin = (m3s: number): number => m3s * 60_000;
const mbar = (pa: number): string => (pa / 100).toFixed(1);
/** Vents that are tried, the smallest first. */
const DASHES = [4, 6, 8, 10, 12, 16] as const;
const ADDED = 'added vent';

/** The gas alone, with vents otherwise. */
function gasAfter(ready: ReadyCircuit, { state }: DrySumpAsk): GasBalance {
  const { asked, scavenge } = state;
  const pan = ready.drawn.vessels.find(({ vessel }) => vessel.kind === 'pan')?.vessel.part;
  return gasBalance(ready, asked.temperatureC, gasInflow(ready, scavenge, pan, asked.at));
}

/** A vent for what has none, to each vessel that breathes: the least size in which the gas runs slowly enough to leave the oil behind. */
export function ventAddedCures(ask: DrySumpAsk): string[] {
  const { ready, state, finding } = ask;
  const vessel = finding.part!;
  const shut = new Set(state.gas.shut.flatMap(({ vessels }) => vessels));
  const others = ready.drawn.vessels.filter(
    ({ vessel: { part, kind } }) => part !== vessel && !shut.has(part) && kind !== 'outside',
  );
  return toldCures(others.flatMap((other) => ventTo(ask, vessel, other.vessel.part) ?? []));
}

function ventTo(ask: DrySumpAsk, from: string, to: string): WorkedCure | undefined {
  const { ready, shelf, finding } = ask;
  const [a, b] = [from, to].map((id) => ready.drawn.vessels.find(({ vessel }) => vessel.part === id));
  const [fromMm, toMm] = [a && topOf(a), b && topOf(b)];
  if (fromMm === undefined || toMm === undefined) return undefined;
  for (const { dash, boreMm } of hoseSizes(shelf, DASHES)) {
    const drawn = withLine(ready.drawn, { id: ADDED, from, to, duty: 'oil-vent', fromMm, toMm, boreMm });
    const gas = gasAfter(redrawn(ready, drawn), ask);
    const line = gas.lines.find((row) => row.line === ADDED);
    if (gas.faults.length > 0 || line === undefined || gas.shut.some(({ vessels }) => vessels.includes(from)))
      return undefined;
    if (Math.abs(line.velocityMS) > guides.ventVelocity.value) continue;
    const stands = gas.gasPa.get(from) ?? 0;
    if (stands / 1e5 > guides.crankcase.value) continue;
    const way = line.flowM3S < 0 ? `${to} to ${from}` : `${from} to ${to}`;
    return {
      words: `a vent of -${dash} between ${from} and ${to}: ${lMin(Math.abs(line.flowM3S)).toFixed(1)} L/min go from ${way} at ${Math.abs(line.velocityMS).toFixed(1)} m/s, ${from} stands at ${mbar(stands)} mbar, nothing comes past the seals`,
      // All of them end what is wrong; the one in which the gas is least drawn or pressed is best.
      gain: Math.abs(finding.value ?? 0) / (1 + Math.abs(stands)),
    };
  }
  return undefined;
}

/** The vent in the sizes up to the one that is enough: how much slower the gas runs in it. */
export function widerVentCures(ask: DrySumpAsk): string[] {
  const { finding, state } = ask;
  const before = Math.abs(state.gas.lines.find((row) => row.line === finding.line)?.velocityMS ?? 0);
  const speeds = changedVents(ask, (line) => line === finding.line, widerRuns).flatMap(({ words, gas }) => {
    const after = gas.lines.find((row) => row.line === finding.line);
    return after === undefined ? [] : [{ words, speed: Math.abs(after.velocityMS) }];
  });
  return toldCures(
    upToEnough(speeds, ({ speed }) => speed <= guides.ventVelocity.value).map(({ words, speed }) => {
      const enough = speed <= guides.ventVelocity.value ? ', which is enough' : '';
      return {
        words: `${words}: ${(before - speed).toFixed(1)} m/s slower, ${speed.toFixed(1)} m/s${enough}`,
        gain: before - speed,
      };
    }),
  );
}

/** Each vent in the next sizes: how much lower the gas stands. */
export function gasPressureCures(ask: DrySumpAsk): string[] {
  const { finding, state } = ask;
  const before = state.gas.gasPa.get(finding.part!) ?? 0;
  return toldCures(
    changedVents(ask, () => true, easierRuns).flatMap(({ words, gas }) => {
      const after = gas.gasPa.get(finding.part!);
      if (after === undefined) return [];
      const enough = after / 1e5 <= guides.crankcase.value ? ', which is enough' : '';
      return [
        { words: `${words}: ${mbar(before - after)} mbar less, ${mbar(after)} mbar${enough}`, gain: before - after },
      ];
    }),
    1,
  );
}

function changedVents(
  ask: DrySumpAsk,
  isAsked: (line: string) => boolean,
  changes: (run: LineRun, shelf: Catalogue, hose: string | undefined, dash: number | undefined) => ChangedRun[],
): { words: string; gas: GasBalance }[] {
  const { ready, shelf } = ask;
  return ready.sorted.gas.flatMap(({ run }) => {
    if (run === undefined || !isAsked(run.line)) return [];
    const line = ready.drawn.lines.get(run.line);
    return changes(run, shelf, line?.hose, line?.dash).flatMap(({ words, run: changed }) => {
      const gas = gasAfter(redrawn(ready, withRun(ready.drawn, changed)), ask);
      return gas.faults.length > 0 ? [] : [{ words, gas }];
    });
  });
}
