import { toolFindings } from '#access';
import type { LinesWorld, Planned } from '#lines';
import { panelStrengthOf } from '#panels';
import { ruleFindings } from '#rules';
import { type Snag, snags } from '#snags';
import { flowOf } from './flow-of.ts';
import { hasHeat, heatOf } from './heat-of.ts';
import { bodiesByLine } from './bodies-by-line.ts';
import { leversOf } from './lever-of.ts';
import { dueFound } from './due-found.ts';
import { panelsOf } from './panels-of.ts';
import { stripFindings } from './strip-findings.ts';
import { hottestByLine, rulesOf } from './rules-of.ts';
import { toolRoomOf } from './tool-room-of.ts';

/** Every open point of the car with its plan, worst first: what does not fit, what does not flow, what cooks, what there is to cut, what no tool reaches. */
export const snagsOf = (world: LinesWorld, planned: Planned): Snag[] => {
  const flow = flowOf(world, planned.lines);
  return gathered(world, planned, {
    flow,
    heat: hasHeat(world) ? heatOf(world, planned.lines, { flow }) : null,
    access: [...toolFindings(toolRoomOf(world, planned.lines)), ...stripFindings(world, planned.lines)],
  });
};

/** The open points that come with a plan; heat and spanner room take longer than the rest together, and are asked for on their own. */
export const planSnagsOf = (world: LinesWorld, planned: Planned): Snag[] =>
  gathered(world, planned, { flow: flowOf(world, planned.lines) });

type Asked = Pick<NonNullable<Parameters<typeof snags>[2]>, 'flow' | 'heat' | 'access'>;

const gathered = (world: LinesWorld, planned: Planned, asked: Asked): Snag[] =>
  snags(world, planned, {
    ...asked,
    panels: panelsOf(world, planned.lines).flatMap((layout) => [
      ...layout.findings,
      ...(panelStrengthOf(layout)?.findings ?? []),
    ]),
    extra: dueFound(world, planned.lines),
    rules: ruleFindings(rulesOf(world, planned.lines, asked.heat ? hottestByLine(asked.heat) : undefined)),
    levers: leversOf(world.car, world.meshes, bodiesByLine(world.car, planned.lines)).flatMap(
      ({ findings }) => findings,
    ),
  });
