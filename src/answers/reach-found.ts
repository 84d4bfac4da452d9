import { type AccessFinding, toolFindings } from '#access';
import type { LinesWorld } from '#lines';
import { type RuleFinding, ruleFindings } from '#rules';
import type { Watch } from './plan-car.ts';
import { rulesOf } from './rules-of.ts';
import { toolRoomOf } from './tool-room-of.ts';

/** What no tool reaches, and what does not meet the rules as entered. */
export interface ReachFound {
  readonly access: readonly AccessFinding[];
  readonly rules: readonly RuleFinding[];
}

/** Both along the ways as they were taken. */
export const reachFound = (world: LinesWorld, watch?: Watch): ReachFound => ({
  access: toolFindings(toolRoomOf(world, [], watch === undefined ? {} : { watch })),
  rules: ruleFindings(rulesOf(world, [])),
});
