import type { LinesWorld, PlannedLine } from '#lines';
import { type RulesAnswer, rulesOfCar } from '#rules';
import { panelsOf } from './panels-of.ts';
import { waysByLine } from './flow-of.ts';

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
