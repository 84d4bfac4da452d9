import type { AccessFinding } from '#access';
import type { FlowAnswer } from '#flow';
import type { HeatAnswer } from '#heat';
import type { LeverFinding } from '#levers';
import type { LineGap, LinesWorld, Planned } from '#lines';
import { accessSnag } from './access-snags.ts';
import { type ExtraFinding, carSnags, findingSnag } from './car-snags.ts';
import { heatSnags } from './heat-snags.ts';
import { placedFlowSnags } from './placed-flow-snags.ts';
import type { PanelFinding } from '#panels';
import { leverSnag } from './lever-snags.ts';
import { lineSnags } from './line-snags.ts';
import { listed } from './listed.ts';
import { panelSnag } from './panel-snags.ts';
import type { Snag } from './snag.ts';
import type { RuleFinding } from '#rules';
import { ruleSnag } from './rule-snags.ts';
import { workSnags } from './work-snags.ts';

/** What other rooms found about the car. */
export interface FoundElsewhere {
  readonly extra?: readonly ExtraFinding[];
  /** What the circuits leave open; absent or null: not worked out. */
  readonly flow?: FlowAnswer | null;
  /** What gets too hot; absent or null: not worked out. */
  readonly heat?: HeatAnswer | null;
  readonly panels?: readonly PanelFinding[];
  readonly levers?: readonly LeverFinding[];
  /** What is open about reach and strip-down. */
  readonly access?: readonly AccessFinding[];
  /** What is open about the rules as entered. */
  readonly rules?: readonly RuleFinding[];
}

/**
 * Every open point of a car and its plan, worst first: lines refused and why, what taken ways leave open, lines that come too near each
 * other, how things stand and were measured, what the builder's hands must do first. What other rooms found joins them.
 */
export function snags(
  world: LinesWorld,
  planned: Planned,
  { extra = [], flow = null, heat = null, panels = [], levers = [], access = [], rules = [] }: FoundElsewhere = {},
): Snag[] {
  const found: Snag[] = [];
  for (const answer of planned.lines) {
    const line = world.car.lines.find((candidate) => candidate.id === answer.line);
    if (line === undefined) continue;
    found.push(...lineSnags(world, line, answer));
    if (answer.taken !== null) found.push(...workSnags(world, line, answer.taken));
  }
  found.push(
    ...planned.lineGaps.filter((gap) => gap.gapMm < gap.keepOffMm - GAP_KNOWN_MM).map((gap) => lineGapSnag(world, gap)),
  );
  if (planned.stopped) found.push(stoppedSnag(world, planned));
  found.push(
    ...carSnags(world),
    ...extra.map(findingSnag),
    ...panels.map(panelSnag),
    ...levers.map(leverSnag),
    ...access.map(accessSnag),
    ...rules.map(ruleSnag),
    ...(flow === null ? [] : placedFlowSnags(world.car, flow)),
    ...(heat === null ? [] : heatSnags(heat)),
  );
  return listed(world.car, found);
}

/** Gaps are right to this [mm]. */
const GAP_KNOWN_MM = 0.05;

function lineGapSnag({ car }: LinesWorld, { a, b, gapMm, keepOffMm, atMm }: LineGap): Snag {
  const made = [a, b].filter((id) => car.lines.find((line) => line.id === id)?.state !== 'planned');
  const mm = gapMm < 0 ? `overlap by ${(-gapMm).toFixed(1)} mm` : `pass each other at ${gapMm.toFixed(1)} mm`;
  return {
    id: `${a}-keep-off-${b}`,
    kind: 'line-gap',
    level: 'stop',
    question: 'fit',
    line: a,
    text: `${a} and ${b} ${mm}; lines want ${keepOffMm}.`,
    value: Number(gapMm.toFixed(2)),
    limit: keepOffMm,
    unit: 'mm',
    source: car.keepOffMm?.line === undefined ? 'common practice, line to line' : 'set for the car',
    atMm,
    cures:
      made.length === 2
        ? ['both are made: a clamp that holds them apart there']
        : ['a clamp that holds them apart there, or let the tool plan the one that is not made again'],
  };
}

function stoppedSnag({ car }: LinesWorld, planned: Planned): Snag {
  const want = car.lines.filter((line) => line.state === 'planned').length;
  return {
    id: 'plan-stopped',
    kind: 'plan-stopped',
    level: 'stop',
    question: 'fit',
    text: `The plan was stopped: ${planned.lines.length} of ${want} lines are worked out.`,
    value: planned.lines.length,
    limit: want,
    unit: 'lines',
    source: 'this plan',
    cures: ['run it again and let it end, or give it more time'],
  };
}
