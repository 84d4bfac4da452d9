import type { HeatAnswer } from '#heat';
import type { LinesWorld, PlannedLine } from '#lines';
import { type RulesAnswer, rulesOfCar } from '#rules';
import { panelsOf } from './panels-of.ts';
import { flowOf, waysByLine } from './flow-of.ts';
import { hasHeat, heatOf } from './heat-of.ts';

/** The car against the rules as entered, along the ways as they were planned or, where none was, as they were taken. */
export const rulesOf = (
  world: LinesWorld,
  lines: readonly PlannedLine[],
  hottestC?: ReadonlyMap<string, number>,
): RulesAnswer =>
  world.car.rulePacks === undefined || world.car.rulePacks.length === 0
    ? { packs: [], conflicts: [] }
    : rulesOfCar({
        world,
        ways: waysByLine(world, lines),
        layouts: panelsOf(world, lines),
        ...(hottestC === undefined ? {} : { hottestC }),
      });

/** Hottest place of each line, of its wall under any sleeve or of what is in it, in any case [degC]. */
export const hottestByLine = ({ cases }: HeatAnswer): ReadonlyMap<string, number> => {
  const found = new Map<string, number>();
  for (const { lines } of cases)
    for (const { line, worst, points } of lines)
      found.set(line, Math.max(found.get(line) ?? -Infinity, worst.underC, ...points.map(({ fluidC }) => fluidC)));
  return found;
};

/** The same with heat worked out where a clause asks for a temperature and the car says what is hot. */
export function rulesWithHeat(world: LinesWorld, lines: readonly PlannedLine[]): RulesAnswer {
  const asks = (world.car.rulePacks ?? []).some(({ clauses }) =>
    clauses.some(({ measure }) => measure === 'temperature-c'),
  );
  if (!asks || !hasHeat(world)) return rulesOf(world, lines);
  return rulesOf(world, lines, hottestByLine(heatOf(world, lines, { flow: flowOf(world, lines) })));
}
