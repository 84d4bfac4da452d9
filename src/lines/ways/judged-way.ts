import { type GapRow, gapFaults, gapsToParts } from '#bay';
import { type LineObstacles, type RigidMotion, type Vec, still } from '#geometry';
import type { HoseFinding } from '../make-up/hose-fitness.ts';
import type { Way, WayBody, WayFail, WayGap, WayNote } from '../way.ts';
import type { LinesWorld } from '../world.ts';
import { nearestAlong } from './along.ts';
import { type FallRule, fallFault, fallRule, offPlumbDeg } from './fall.ts';
import { runningLength } from './hang.ts';
import {
  type DraftBody,
  type LineDraft,
  draftBodies,
  draftBodiesAt,
  draftCrossings,
  reversedPath,
} from './line-draft.ts';
import { selfGap } from './self-gap.ts';
import { writtenClamps, writtenEnds, writtenPieces } from './written.ts';

/** A line's draft judged on its true bodies against parts and placed lines, and written down. */
export function judgedWay(
  world: LinesWorld,
  draft: LineDraft,
  placed: LineObstacles | null,
  findings: readonly HoseFinding[],
): Way {
  const bodies = draftBodies(draft);
  const nearMm = draft.nearMm ?? nearLengths(draft);
  const hangSpreadMm = Math.max(0, ...draft.pieces.map((d) => (d.kind === 'hose' ? d.piece.hung.spreadMm : 0)));
  const rows = gapsToParts(
    {
      line: draft.line,
      bodies,
      from: draft.line.from,
      to: draft.line.to,
      nearMm,
      hangSpreadMm,
      crossings: draftCrossings(draft, bodies),
      hung: (from, to) => draftBodiesAt(draft, from, to, (part) => jointMotion(world, draft, part, from, to)),
    },
    world.bay,
  );
  const faults = gapFaults(rows);
  const fall = fallRule(draft.line);
  const pieces = writtenPieces(draft);
  const ends = writtenEnds(world, draft);
  const fails: WayFail[] = [
    ...faults.filter((f) => f.when === 'nominal').map(({ row, region }) => keepOffFail(row.part, region)),
    ...lineFails(bodies, placed, world.lineKeepOffMm),
    ...bendFails(draft),
    ...findings.filter((f) => f.level === 'stop').map(fitnessFail),
    ...(fall === null ? [] : fallFails(bodies, fall)),
    ...reachFails(draft),
    ...selfFails(draft),
  ];
  const cost = draft.pieces.reduce((sum, d) => sum + d.piece.cost, 0);
  return {
    rank: 1,
    feasible: fails.length === 0,
    cost: round(cost, 1),
    ends: ends.ends,
    joints: ends.joints,
    pieces,
    clamps: writtenClamps(world, draft, bodies),
    bodies: bodies.map(writtenBody),
    nearMm: [round(nearMm[0], 1), round(nearMm[1], 1)],
    hangSpreadMm: round(hangSpreadMm, 1),
    gaps: rows.map(writtenGap),
    fails,
    notes: [...gapNotes(faults, rows), ...hoseNotes(findings), ...slackNotes(draft), ...engineSlackNotes(world, draft)],
    reasons: [],
  };
}

function jointMotion(
  world: LinesWorld,
  draft: LineDraft,
  part: string,
  from: RigidMotion,
  to: RigidMotion,
): RigidMotion {
  const moverOf = (ref: string) => world.bay.partById.get(world.bay.ports.get(ref)!.partId)?.moverId ?? null;
  const mover = world.bay.partById.get(part)?.moverId ?? null;
  if (mover === null) return still;
  if (mover === moverOf(draft.line.from)) return from;
  return mover === moverOf(draft.line.to) ? to : still;
}

/** Adapter, hose end and first straight at either end of the line [mm]. */
function nearLengths(draft: LineDraft): [number, number] {
  const first = draft.pieces[0]!;
  const last = draft.pieces.at(-1)!;
  const start =
    first.kind === 'hose'
      ? first.piece.a.shape.lengthMm + first.piece.straightsMm[0]
      : (first.piece.a?.shape.lengthMm ?? 0);
  const end =
    last.kind === 'hose'
      ? last.piece.b.shape.lengthMm + last.piece.straightsMm[1]
      : (last.piece.b?.shape.lengthMm ?? 0);
  return [start, end];
}

const round = (value: number, digits: number): number => Number(value.toFixed(digits));
export const roundedPlace = (at: Vec): Vec => [round(at[0], 1), round(at[1], 1), round(at[2], 1)];

export const keepOffFail = (part: string, region: { gapMm: number; keepOffMm: number; atMm: Vec }): WayFail => ({
  limit: 'keep-off',
  valueMm: round(region.gapMm, 2),
  limitMm: round(region.keepOffMm, 2),
  part,
  atMm: roundedPlace(region.atMm),
  text: `passes ${part} at ${region.gapMm.toFixed(0)} mm; it wants ${region.keepOffMm.toFixed(0)}`,
});

function lineFails(bodies: readonly DraftBody[], placed: LineObstacles | null, keepOffMm: number): WayFail[] {
  if (placed === null) return [];
  return placed.gaps(bodies, keepOffMm - GRACE_MM).map((gap) => ({
    limit: 'keep-off',
    valueMm: round(gap.gapMm, 2),
    limitMm: keepOffMm,
    part: `line ${gap.id}`,
    atMm: roundedPlace(gap.at),
    text: `passes line ${gap.id} at ${gap.gapMm.toFixed(0)} mm; lines want ${keepOffMm}`,
  }));
}

const GRACE_MM = 0.05;
/** A bend radius read off a drawn curve is known to this share. */
const BEND_GRACE = 0.997;

function bendFails(draft: LineDraft): WayFail[] {
  return draft.pieces.flatMap((d): WayFail[] => {
    if (d.kind === 'tube') return d.piece.ok ? [] : d.piece.why.map((text) => ({ limit: 'bend', text }));
    const { hung, hose } = d.piece;
    if (hung.leastRadiusMm >= hose.minBendRadiusMm * BEND_GRACE) return [];
    const value = round(hung.leastRadiusMm, 1);
    return [
      {
        limit: 'bend',
        valueMm: value,
        limitMm: hose.minBendRadiusMm,
        text: `bends to ${value} mm; ${hose.name} allows ${hose.minBendRadiusMm} mm`,
      },
    ];
  });
}

/** A hose that lies on itself chafes through. */
function selfFails(draft: LineDraft): WayFail[] {
  return draft.pieces.flatMap((d): WayFail[] => {
    if (d.kind === 'tube') return [];
    const self = selfGap(d.piece.path, d.piece.hose.odMm, d.piece.hose.minBendRadiusMm);
    if (self === null || self.gapMm >= -GRACE_MM) return [];
    const text = `lies ${(-self.gapMm).toFixed(0)} mm into itself`;
    return [{ limit: 'self', valueMm: round(self.gapMm, 1), limitMm: 0, atMm: roundedPlace(self.at), text }];
  });
}

function reachFails(draft: LineDraft): WayFail[] {
  return draft.pieces.flatMap((d): WayFail[] => {
    if (d.kind === 'tube' || d.piece.hung.reaches) return [];
    return [
      {
        limit: 'reach',
        text: 'the hose does not lie still, or does not reach, at one end of its allowance or of the movement of what it joins',
      },
    ];
  });
}

export const fitnessFail = (finding: HoseFinding): WayFail => ({
  limit: finding.breaks,
  ...(finding.value === undefined ? {} : { value: finding.value }),
  ...(finding.limit === undefined ? {} : { limitValue: finding.limit }),
  ...(finding.unit === undefined ? {} : { unit: finding.unit }),
  text: finding.text,
});

export function fallFails(bodies: readonly DraftBody[], rule: FallRule): WayFail[] {
  const fault = fallFault(bodies, rule);
  const fails: WayFail[] = [];
  const way = rule.sense === 1 ? 'rises' : 'dips';
  if (fault !== null) {
    const leaned = fault.down[0] === 0 && fault.down[1] === 0 ? '' : ' with the car leaned as asked';
    fails.push({
      limit: 'fall',
      valueMm: round(fault.wrongMm, 1),
      limitMm: 0,
      atMm: roundedPlace(fault.at),
      text: `${way} by ${fault.wrongMm.toFixed(0)} mm${leaned}; it must not`,
    });
  }
  if (rule.withinPlumbDeg !== null && offPlumbDeg(bodies) > rule.withinPlumbDeg + 1e-6) {
    const off = offPlumbDeg(bodies);
    fails.push({
      limit: 'fall',
      value: round(off, 1),
      limitValue: rule.withinPlumbDeg,
      unit: 'deg',
      text: `starts ${off.toFixed(0)}° off plumb; ${rule.withinPlumbDeg}° is allowed`,
    });
  }
  return fails;
}

const writtenBody = (body: DraftBody): WayBody => ({
  part: body.part,
  ...(body.row === undefined ? {} : { row: body.row }),
  pathMm: Array.from(
    { length: body.path.length / 3 },
    (_, i): Vec => [round(body.path[3 * i]!, 3), round(body.path[3 * i + 1]!, 3), round(body.path[3 * i + 2]!, 3)],
  ),
  odMm: round(2 * body.radiusMm, 3),
});

export const writtenGap = (row: GapRow): WayGap => ({
  part: row.part,
  class: row.class,
  gapMm: round(row.gapMm, 2),
  worstMm: round(row.worstMm, 1),
  bestMm: round(row.bestMm, 1),
  keepOffMm: round(row.keepOffMm, 2),
  near: row.near,
  atMm: roundedPlace(row.atMm),
  source: row.source,
  ...(row.beyond === null
    ? {}
    : {
        beyond: {
          gapMm: round(row.beyond.gapMm, 2),
          worstMm: round(row.beyond.worstMm, 1),
          keepOffMm: round(row.beyond.keepOffMm, 2),
          atMm: roundedPlace(row.beyond.atMm),
        },
      }),
});

export function gapNotes(faults: ReturnType<typeof gapFaults>, rows: readonly GapRow[]): WayNote[] {
  const worst = faults
    .filter((f) => f.when !== 'nominal')
    .map(
      ({ row, region, when }): WayNote => ({
        level: when === 'touched' ? 'stop' : 'fix',
        code: when === 'touched' ? 'touched-at-worst' : 'keep-off-at-worst',
        text: `passes ${row.part} at ${region.gapMm.toFixed(0)} mm (${region.worstMm.toFixed(0)} to ${region.bestMm.toFixed(0)}); it wants ${region.keepOffMm.toFixed(0)}`,
        value: round(region.worstMm, 1),
        limit: round(when === 'touched' ? 0 : region.keepOffMm, 1),
        unit: 'mm',
        part: row.part,
        atMm: roundedPlace(region.atMm),
        source: row.source,
      }),
    );
  const relaxed = rows.flatMap((row) =>
    row.regions
      .filter((r) => r.near && !r.own && r.gapMm >= r.keepOffMm - GRACE_MM && r.gapMm < row.ruleMm)
      .map(
        (region): WayNote => ({
          level: 'fix',
          code: 'near-port',
          text: `${row.part} stands ${region.gapMm.toFixed(0)} mm off beside the port, where its ${row.ruleMm.toFixed(0)} mm cannot be had`,
          value: round(region.gapMm, 1),
          limit: round(row.ruleMm, 1),
          unit: 'mm',
          part: row.part,
          atMm: roundedPlace(region.atMm),
          source: row.source,
        }),
      ),
  );
  return [...worst, ...relaxed];
}

export const hoseNotes = (findings: readonly HoseFinding[]): WayNote[] =>
  findings
    .filter((f) => f.level !== 'stop')
    .map(
      (f): WayNote => ({
        level: f.level,
        code: f.code,
        text: f.text,
        ...(f.value === undefined ? {} : { value: f.value }),
        ...(f.limit === undefined ? {} : { limit: f.limit }),
        ...(f.unit === undefined ? {} : { unit: f.unit }),
        source: f.source,
      }),
    );

/** Less spare length than the rule asks, where there was no room for it. */
const slackNotes = (draft: LineDraft): WayNote[] =>
  draft.pieces.flatMap((d) =>
    d.kind === 'tube' || d.piece.hung.sparePercent >= SPARE_PERCENT - 0.1 ? [] : [slackNote(d.piece.hung.sparePercent)],
  );

export const SPARE_PERCENT = 4;

export const slackNote = (sparePercent: number): WayNote => ({
  level: 'fix',
  code: 'short-of-slack',
  text: `only ${sparePercent.toFixed(1)} % of the hose is spare: a hose under pressure may get 4 % shorter, and there is no room for more slack here`,
  value: round(sparePercent, 1),
  limit: SPARE_PERCENT,
  unit: '%',
  source: 'faa-ac-43-13-1b',
  cures: ['a bend more on the way, another hose end, or a hard tube for the straight run'],
});

/** Slack between the last clamp and what moves [mm]: Navy 14105, 1 1/2 in between the last support and the engine. */
const ENGINE_SLACK_MM = 38;

/** A hose from the chassis to something on a mover: what is left to give between its last clamp and that end. */
function engineSlackNotes(world: LinesWorld, draft: LineDraft): WayNote[] {
  return draft.pieces.flatMap((d): WayNote[] => {
    if (d.kind === 'tube' || d.piece.hung.clamps.length === 0 || d.piece.a.end.moverId === d.piece.b.end.moverId)
      return [];
    const { piece } = d;
    const path = piece.b.end.moverId === null ? reversedPath(piece.path) : piece.path;
    const clamps = piece.hung.clamps.map((clamp) => clamp.at);
    const last = piece.b.end.moverId === null ? clamps[0]! : clamps.at(-1)!;
    const slackMm =
      lengthBeyond(path, last) - Math.hypot(path.at(-3)! - last[0], path.at(-2)! - last[1], path.at(-1)! - last[2]);
    if (slackMm >= ENGINE_SLACK_MM) return [];
    const mover = world.bay.movers.get(piece.b.end.moverId ?? piece.a.end.moverId ?? '');
    return [
      {
        level: 'fix',
        code: 'engine-slack',
        text: `only ${slackMm.toFixed(0)} mm of slack between the last clamp and the end that moves with ${mover?.name ?? 'its mover'}; it wants ${ENGINE_SLACK_MM}`,
        value: round(slackMm, 0),
        limit: ENGINE_SLACK_MM,
        unit: 'mm',
        atMm: roundedPlace(last),
        source: 'navy-14105',
        cures: ['put the last clamp farther from that end, or on a bracket that moves with it'],
      },
    ];
  });
}

/** Length of a path from its place nearest to a point on to its end [mm]. */
function lengthBeyond(path: Float64Array, point: Vec): number {
  const along = runningLength(path);
  return along.at(-1)! - nearestAlong([{ part: 'hose', path, radiusMm: 0 }], point);
}
