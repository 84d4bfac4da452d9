import type { Case } from '#car';
import { topOf } from '../circuit/changed-circuit.ts';
import { withRun } from '../circuit/changed-runs.ts';
import { type ReadyCircuit, redrawn } from '../circuit/circuit-state.ts';
import { partOf } from '../circuit/drawn-circuit.ts';
import type { LineRun } from '../circuit/line-run.ts';
import { guarded } from '../refused.ts';
import { drySumpState, gasInflow } from './dry-sump-state.ts';
import { gasBalance } from './gas-balance.ts';

const lMin = (m3s: number): string => (m3s * 60_000).toFixed(0);
const kPa = (pa: number): string => (pa / 1000).toFixed(1);

/** The case in which stages sweep most. */
const fastestOf = (ready: ReadyCircuit): Case | undefined =>
  (ready.car.cases ?? []).filter(({ engineRpm }) => engineRpm > 0).toSorted((a, b) => b.engineRpm - a.engineRpm)[0];

/** Returns that come together, all but the first led to a port of their own in the top of the tank: what each stage then pushes against. */
export function ownReturnCures(ready: ReadyCircuit, lines: readonly string[]): string[] {
  const at = fastestOf(ready);
  const group = ready.sorted.scavenge.find(({ elements }) => elements.some(({ id }) => lines.includes(id)));
  const tank = ready.drawn.vessels.find(({ vessel }) => vessel.part === group?.to);
  const topMm = tank === undefined ? undefined : topOf(tank);
  if (at === undefined || tank === undefined || topMm === undefined) return [];
  const [, ...others] = lines;
  const led = ready.drawn.runs
    .filter(({ line }) => others.includes(line))
    .map((run) => ledOn(run, tank.vessel.part, topMm));
  const changed = redrawn(ready, led.reduce(withRun, ready.drawn));
  const [before, after] = [ready, changed].map((circuit) => guarded(() => drySumpState(circuit, at)));
  if (before === undefined || after === undefined || 'why' in before || 'why' in after) return [];
  const stages = group!.stages.flatMap(({ pump }) => {
    const [was, is] = [before, after].map(({ scavenge }) => scavenge.stages.find(({ id }) => id === pump.id)?.outletPa);
    return was === undefined || is === undefined
      ? []
      : [`${pump.words} pushes against ${kPa(is)} kPa instead of ${kPa(was)} kPa`];
  });
  return stages.length === 0
    ? []
    : [
        `${others.join(' and ')} to ${others.length === 1 ? 'a port of its own' : 'ports of their own'} in the top of ${tank.vessel.part}: ${stages.join(', ')} at ${at.name ?? at.id}`,
      ];
}

/** A line that goes on straight from where it ended to a place in a vessel. */
function ledOn(run: LineRun, vessel: string, toMm: readonly [number, number, number]): LineRun {
  const last = run.stretches.findLast(({ what }) => what === 'hose' || what === 'tube') ?? run.stretches.at(-1)!;
  const fromMm = run.stretches.at(-1)!.pathMm.at(-1)!;
  const lengthMm = Math.hypot(toMm[0] - fromMm[0], toMm[1] - fromMm[1], toMm[2] - fromMm[2]);
  return {
    ...run,
    to: vessel,
    stretches: [...run.stretches, { ...last, pathMm: [fromMm, toMm], lengthMm }],
    lengthMm: run.lengthMm + lengthMm,
  };
}

/** Of the air of a return that a separator is tried to take out. What one does take, its maker measures. */
const TAKEN = [0.5, 0.9] as const;

/** An air separator in the return that brings most air: what then goes out through the tank's vents. */
export function separatorCures(ready: ReadyCircuit): string[] {
  const at = fastestOf(ready);
  const state = at === undefined ? undefined : guarded(() => drySumpState(ready, at));
  if (at === undefined || state === undefined || 'why' in state) return [];
  const { scavenge, asked } = state;
  const pan = ready.drawn.vessels.find(({ vessel }) => vessel.kind === 'pan')?.vessel.part;
  const airOf = ({ flowM3S, voidShare = 0 }: (typeof scavenge.lines)[number]): number => flowM3S * voidShare;
  const [most] = scavenge.lines
    .filter(({ line }) =>
      ready.drawn.vessels.some(
        ({ vessel }) => vessel.kind === 'tank' && vessel.part === partOf(ready.drawn.lines.get(line)?.to ?? ''),
      ),
    )
    .toSorted((a, b) => airOf(b) - airOf(a));
  if (most === undefined) return [];
  const tank = partOf(ready.drawn.lines.get(most.line)!.to);
  const outOf = (taken: number): number => {
    const inflow = gasInflow(ready, scavenge, pan, at);
    inflow.set(tank, (inflow.get(tank) ?? 0) - taken * airOf(most));
    return gasBalance(ready, asked.temperatureC, inflow)
      .lines.filter(({ line }) =>
        [ready.drawn.lines.get(line)?.from, ready.drawn.lines.get(line)?.to].some(
          (spot) => partOf(spot ?? '') === tank,
        ),
      )
      .reduce(
        (sum, { flowM3S, line }) => sum + (partOf(ready.drawn.lines.get(line)!.from) === tank ? flowM3S : -flowM3S),
        0,
      );
  };
  const now = outOf(0);
  if (now <= 0) return [];
  const told = TAKEN.map((taken) => `${(100 * taken).toFixed(0)} % of it ${lMin(outOf(taken))} L/min`).join(', ');
  return [
    `an air separator in ${most.line}, which brings ${lMin(airOf(most))} L/min of air at ${at.name ?? at.id}: ${lMin(now)} L/min go out through the vents of ${tank}; with one that takes out ${told} (what one takes, its maker measures)`,
  ];
}
