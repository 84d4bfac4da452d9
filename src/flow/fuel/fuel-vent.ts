import type { Case } from '#car';
import type { Vec } from '#geometry';
import type { ReadyCircuit } from '../circuit/circuit-state.ts';
import { partOf } from '../circuit/drawn-circuit.ts';
import type { FuelStands, FuelVent } from '../circuit/fuel-answer.ts';
import { heightMmG, pullG } from '../circuit/pull.ts';
import { fillIn, vesselState } from '../circuit/vessel-state.ts';
import { fluidAt } from '../fluids/fluid-at.ts';

/** Ways a car may come to lie. */
const ATTITUDES = [
  { words: 'level', pitchDeg: 0, rollDeg: 0 },
  { words: 'on its right side', pitchDeg: 0, rollDeg: 90 },
  { words: 'on its left side', pitchDeg: 0, rollDeg: -90 },
  { words: 'upside down', pitchDeg: 0, rollDeg: 180 },
  { words: 'on its tail', pitchDeg: 90, rollDeg: 0 },
  { words: 'on its nose', pitchDeg: -90, rollDeg: 0 },
] as const;

const USUAL_AIR_C = 25;

/** The vent of the cell: what it holds back at the burn, and where fuel stands in it whichever way the car lies. */
export function fuelVent(ready: ReadyCircuit, at: Case, burnM3S: number, outsideAbsPa: number): FuelVent | null {
  const element = ready.sorted.gas.find(({ id }) => ready.drawn.lines.get(id)?.duty === 'fuel-vent');
  const run = element?.run;
  if (element === undefined || run === undefined) return null;
  const cell = ready.insides.find(
    ({ drawn }) => [partOf(run.from), partOf(run.to)].includes(drawn.vessel.part) && drawn.vessel.kind !== 'outside',
  );
  if (cell === undefined || cell.tank === null) return null;
  const ahead = partOf(run.from) === cell.drawn.vessel.part;
  const mouth = ahead ? run.from : run.to;
  const path = run.stretches.flatMap(({ pathMm }) => pathMm);
  const bore = new Map([[mouth, (ahead ? run.stretches[0]! : run.stretches.at(-1)!).boreMm]]);
  const airC = at.airC ?? USUAL_AIR_C;
  const air = fluidAt({ kind: 'air' }, airC, outsideAbsPa);
  const depressionPa = air.ok ? Math.abs(element.law(air.state, at, airC)(burnM3S).dropPa) : 0;
  const standing = (pull: Vec): FuelStands => {
    const state = vesselState(cell, fillIn(cell, at), pull, bore);
    const surface = state.surfaceMmG ?? Number.NEGATIVE_INFINITY;
    const top = path.reduce<Vec>((a, b) => (heightMmG(pull, b) > heightMmG(pull, a) ? b : a), path[0]!);
    return {
      mouthCovered: (state.mouths.get(mouth)?.share ?? 0) > 0,
      // Heights along a pull of more than 1 g are told in millimetres all the same.
      highestOverMm: (heightMmG(pull, top) - surface) / Math.hypot(...pull),
      highestAtMm: top,
    };
  };
  const attitudes = ATTITUDES.map((stand) => ({ ...stand, ...standing(pullG(stand)) }));
  return { line: run.line, depressionPa, attitudes, inCase: standing(pullG(at)) };
}
