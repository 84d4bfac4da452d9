import type { Pump } from '#car';
import { type ReadyCircuit, redrawn } from '../circuit/circuit-state.ts';
import { nameOf, partOf, vesselFinder } from '../circuit/drawn-circuit.ts';
import type { FlowFinding } from '../finding.ts';
import { guides } from '../limits.ts';
import { Levels } from '../tank/level.ts';
import type { Tank } from '../tank/tank.ts';
import { LEVEL } from './tank-depth.ts';
import { ownReturnCures, separatorCures } from './return-cures.ts';
import { litres } from './tank-words.ts';
import { pressurePerTurn, sweptPerTurn, sweptRatio } from './swept-ratio.ts';

/** Usual layouts of a dry sump. Common practice, no source. */
const USUAL_PAN_PICK_UPS = 3;
/** A return may come in this share of the tank's height below its top. */
const TOP_SHARE = 0.25;
/** The feed may leave this share of the tank's height above its floor. */
const FLOOR_SHARE = 0.12;

/** What holds in every case: capacities over one another, and where lines meet the tank. */
export function drySumpLayout(ready: ReadyCircuit): FlowFinding[] {
  const say = (
    level: FlowFinding['level'],
    code: string,
    text: string,
    source: FlowFinding['source'],
    about: Partial<FlowFinding> = {},
  ): FlowFinding => ({
    circuit: ready.drawn.circuit.id,
    code,
    level,
    text,
    source,
    cures: [],
    ...about,
  });
  return [
    ...ratios(ready, say),
    ...pickUps(ready, say),
    ...tankLayout(ready, say),
    ...joinedReturns(ready, say),
    ...separator(ready, say),
  ];
}

type Say = (
  level: FlowFinding['level'],
  code: string,
  text: string,
  source: FlowFinding['source'],
  about?: Partial<FlowFinding>,
) => FlowFinding;

function ratios(ready: ReadyCircuit, say: Say): FlowFinding[] {
  const stages = ready.sorted.scavenge.flatMap(({ stages: own }) => own);
  const ratio = sweptRatio(ready);
  if (ratio === undefined) return [];
  const pressure = pressurePerTurn(ready);
  const each = stages
    .map(
      ({ pump, drains }) => `${nameOf(pump.pump!)} ${(sweptPerTurn(pump.pump!) / pressure).toFixed(2)} from ${drains}`,
    )
    .join(', ');
  const { scavengeRatioLeast: least, scavengeRatioUsual: usual, scavengeRatioMost: most } = guides;
  const level = ratio < least.value ? 'stop' : ratio < usual.value ? 'fix' : 'note';
  const words =
    ratio < usual.value ? `; ${usual.words}` : ratio > most.value ? `; above ${most.value} ${most.words}` : '';
  const limit = ratio < least.value ? least.value : usual.value;
  return [
    say(
      level,
      'scavenge-ratio',
      `the scavenge stages sweep ${ratio.toFixed(2)} times what the pressure stage does (${each})${words}`,
      usual.source,
      { value: ratio, limit, cures: ratio < usual.value ? largerScavenge(ready, usual.value) : [] },
    ),
  ];
}

/** Stages come in steps of this [cc/rev]. */
const STEP_CC = 0.5;

/** Every scavenge stage larger by one factor, in the trade's steps, and the ratio that makes. */
function largerScavenge(ready: ReadyCircuit, wanted: number): string[] {
  const now = sweptRatio(ready)!;
  const ids = new Set(ready.sorted.scavenge.flatMap(({ stages }) => stages.map(({ pump }) => pump.id)));
  const larger = (cc: number): number => Math.ceil((cc * wanted) / now / STEP_CC) * STEP_CC;
  const pumps = ready.drawn.pumps.map((row) =>
    ids.has(row.id ?? nameOf(row)) && row.displacementCcRev !== undefined
      ? { ...row, displacementCcRev: larger(row.displacementCcRev) }
      : row,
  );
  const after = sweptRatio(redrawn(ready, { ...ready.drawn, pumps }));
  if (after === undefined || after <= now) return [];
  const stages = pumps
    .filter((row) => ids.has(row.id ?? nameOf(row)))
    .map((row) => `${nameOf(row)} ${row.displacementCcRev!.toFixed(1)}`);
  return [`scavenge stages of ${stages.join(', ')} cc/rev: ${after.toFixed(2)} times`];
}

function pickUps(ready: ReadyCircuit, say: Say): FlowFinding[] {
  const pans = ready.drawn.vessels.filter(({ vessel }) => vessel.kind === 'pan').map(({ vessel }) => vessel.part);
  const stages = ready.sorted.scavenge.flatMap(({ stages: own }) => own);
  const fromPan = stages.filter(({ drains }) => pans.includes(drains)).length;
  if (fromPan === 0 || fromPan >= USUAL_PAN_PICK_UPS) return [];
  return [
    say(
      'note',
      'pan-pick-ups',
      `${fromPan} stage${fromPan === 1 ? '' : 's'} draw${fromPan === 1 ? 's' : ''} from the pan; ${USUAL_PAN_PICK_UPS} pick-ups and one stage for the turbo are a usual layout`,
      'common-practice',
      {
        value: fromPan,
        limit: USUAL_PAN_PICK_UPS,
        cures: morePickUps(
          ready,
          stages.filter(({ drains }) => pans.includes(drains)).map(({ pump }) => pump.pump!),
        ),
      },
    ),
  ];
}

/** Stages more, each like the smallest that draws from the pan: what all of them sweep then. */
function morePickUps(ready: ReadyCircuit, fromPan: readonly Pump[]): string[] {
  const [least] = fromPan.toSorted((a, b) => sweptPerTurn(a) - sweptPerTurn(b));
  const now = sweptRatio(ready);
  if (least === undefined || now === undefined) return [];
  const more = USUAL_PAN_PICK_UPS - fromPan.length;
  const after = now + (more * sweptPerTurn(least)) / pressurePerTurn(ready);
  return [
    `${more} stage${more === 1 ? '' : 's'} more like ${nameOf(least)}: the scavenge sweeps ${after.toFixed(2)} times the pressure stage instead of ${now.toFixed(2)} times`,
  ];
}

/** The feed leaves at the lowest point, returns come in at the top, each on its own. */
function tankLayout(ready: ReadyCircuit, say: Say): FlowFinding[] {
  const out: FlowFinding[] = [];
  for (const { drawn, tank } of ready.insides) {
    if (drawn.vessel.kind !== 'tank' || tank === null) continue;
    const { positions, centre } = tank.mesh;
    const heights = positions.filter((_, i) => i % 3 === 2).map((z) => z + centre[2]);
    const [low, high] = [Math.min(...heights), Math.max(...heights)];
    for (const port of drawn.ports) {
      const run = ready.drawn.runs.find(
        ({ from, to }) => from === `${drawn.part.id}.${port.id}` || to === `${drawn.part.id}.${port.id}`,
      );
      const duty = run === undefined ? undefined : ready.drawn.lines.get(run.line)?.duty;
      const above = port.atMm[2] - low;
      if (run === undefined) continue;
      const leaves = partOf(run.from) === drawn.part.id && duty === 'oil-suction';
      if (leaves && above > FLOOR_SHARE * (high - low))
        out.push(
          say(
            'note',
            'feed-height',
            `${run.line} leaves ${drawn.part.id} ${above.toFixed(0)} mm above its floor: what lies below is never used`,
            'common-practice',
            {
              line: run.line,
              part: drawn.part.id,
              value: above,
              unit: 'mm',
              cures: lowerFeed(tank, port.atMm[2], low, run.stretches[0]!.boreMm),
            },
          ),
        );
      if (duty === 'oil-return' && high - port.atMm[2] > TOP_SHARE * (high - low))
        out.push(
          say(
            'fix',
            'return-height',
            `${run.line} comes in ${(high - port.atMm[2]).toFixed(0)} mm below the top of ${drawn.part.id}, into the oil: returns come in at the top, each on its own`,
            'common-practice',
            {
              line: run.line,
              part: drawn.part.id,
              value: high - port.atMm[2],
              limit: TOP_SHARE * (high - low),
              unit: 'mm',
              cures: higherReturn(tank, drawn.vessel.fillL, port.atMm[2], high - TOP_SHARE * (high - low)),
            },
          ),
        );
    }
  }
  return out;
}

/** Return lines that come together before they reach the tank: what one of them brings holds the other back. */
function joinedReturns(ready: ReadyCircuit, say: Say): FlowFinding[] {
  const vesselOf = vesselFinder(ready.drawn);
  const byJoint = new Map<string, string[]>();
  for (const { elements } of ready.sorted.scavenge)
    for (const { kind, id, to } of elements)
      if (kind === 'line' && vesselOf(to) === undefined) {
        const joint = ready.drawn.joints.of(to);
        byJoint.set(joint, [...(byJoint.get(joint) ?? []), id]);
      }
  return [...byJoint]
    .filter(([, lines]) => lines.length > 1)
    .map(([joint, lines]) =>
      say(
        'note',
        'returns-joined',
        `${lines.join(' and ')} come together at ${joint} before they reach the tank: each return comes in at the top on its own`,
        'common-practice',
        {
          line: lines[0]!,
          value: lines.length,
          cures: ownReturnCures(ready, lines),
        },
      ),
    );
}

/** An air separator in a scavenge return. */
function separator(ready: ReadyCircuit, say: Say): FlowFinding[] {
  const frothy = ready.sorted.scavenge.flatMap(({ elements }) => elements.map(({ words }) => words));
  if (frothy.length === 0 || frothy.some((words) => /separator/i.test(words))) return [];
  return [
    say(
      'note',
      'no-separator',
      'no air separator stands in a scavenge return; one is usual where the tank is short',
      'common-practice',
      { cures: separatorCures(ready) },
    ),
  ];
}

/** The feed with its bore down at the floor: what more of the oil can be used, standing on the level. */
function lowerFeed(tank: Tank, atMm: number, floor: number, boreMm: number): string[] {
  const lower = atMm - boreMm / 2 - floor;
  if (lower < 1) return [];
  const levels = new Levels(tank);
  levels.look(LEVEL);
  const more = levels.below(atMm - boreMm / 2).volumeM3;
  return [`${lower.toFixed(0)} mm lower, its bore at the floor: ${litres(more, 2)} L more of the oil can be used`];
}

/** A return as low under the top as is usual, and how that stands to the oil. */
function higherReturn(tank: Tank, fillL: number | undefined, atMm: number, usualMm: number): string[] {
  const oil = fillL === undefined ? '' : standsWords(tank, fillL / 1000, usualMm);
  return [`${(usualMm - atMm).toFixed(0)} mm higher: in the top quarter${oil}`];
}

function standsWords(tank: Tank, oilM3: number, atMm: number): string {
  const levels = new Levels(tank);
  levels.look(LEVEL);
  const over = atMm - levels.heightMm(Math.min(oilM3, tank.volumeM3));
  return `, ${Math.abs(over).toFixed(0)} mm ${over < 0 ? 'under' : 'over'} the oil as it runs, standing on the level`;
}
