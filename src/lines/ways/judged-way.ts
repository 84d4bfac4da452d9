import type { Line } from '#car';
import { type GapRow, gapFaults, gapsToParts } from '#bay';
import { type LineObstacles, type RigidMotion, type Vec, still } from '#geometry';
import type { HoseFinding } from '../make-up/hose-fitness.ts';
import type { Way, WayBody, WayFail, WayGap } from '../way.ts';
import { type LinesWorld, portOf } from '../world.ts';
import { shrinkFails } from './bore-fails.ts';
import type { EndMotions } from './carriers.ts';
import type { DraftBody } from './draft-body.ts';
import { type FallRule, fallFault, fallRule, offPlumbDeg } from './fall.ts';
import { type LineDraft, draftBodies, draftBodiesAt, draftCrossings } from './line-draft.ts';
import { selfGap } from './self-gap.ts';
import {
  GRACE_MM,
  gapNotes,
  hoseNotes,
  makeUpNotes,
  moverSlackNotes,
  overlongNotes,
  round,
  roundedPlace,
  slackNotes,
} from './way-notes.ts';
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
      hung: (from, to) => draftBodiesAt(draft, from, to, (part) => jointMotion(world, draft, part, { from, to })),
    },
    world.bay,
  );
  const faults = gapFaults(rows);
  const pieces = writtenPieces(draft);
  const ends = writtenEnds(world, draft);
  const fails: WayFail[] = [
    ...faults.filter((f) => f.when === 'nominal').map(({ row, region }) => keepOffFail(row.part, region)),
    ...(movesApart(world, draft) ? touchFails(rows) : []),
    ...lineFails(bodies, placed, world.lineKeepOffMm),
    ...bendFails(draft),
    ...findings.filter((f) => f.level === 'stop').map(fitnessFail),
    ...drainFails(draft.line, bodies, world),
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
    notes: [
      ...gapNotes(faults, rows, movesApart(world, draft)),
      ...hoseNotes(findings),
      ...slackNotes(draft),
      ...moverSlackNotes(world, draft),
      ...overlongNotes(draft),
      ...makeUpNotes(draft),
    ],
    reasons: [],
  };
}

function jointMotion(world: LinesWorld, draft: LineDraft, part: string, motions: EndMotions): RigidMotion {
  const [from, to] = lineMovers(world, draft);
  const mover = world.bay.partById.get(part)?.moverId ?? null;
  if (mover === null) return still;
  if (mover === from) return motions.from;
  return mover === to ? motions.to : still;
}

/** What the line's two ends sit on. */
function lineMovers(world: LinesWorld, { line }: LineDraft): [from: string | null, to: string | null] {
  const moverOf = (ref: string) => world.bay.partById.get(portOf(world, ref).partId)?.moverId ?? null;
  return [moverOf(line.from), moverOf(line.to)];
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

export const keepOffFail = (part: string, region: { gapMm: number; keepOffMm: number; atMm: Vec }): WayFail => ({
  limit: 'keep-off',
  valueMm: round(region.gapMm, 2),
  limitMm: round(region.keepOffMm, 2),
  part,
  atMm: roundedPlace(region.atMm),
  text: `passes ${part} at ${region.gapMm.toFixed(0)} mm; it wants ${region.keepOffMm.toFixed(0)}`,
});

/** A line between things that move against each other touches something at an extreme, with nothing else in doubt. */
function touchFails(rows: readonly GapRow[]): WayFail[] {
  return rows.flatMap((row) =>
    row.regions
      .filter((r) => r.movedMm < -GRACE_MM && r.gapMm >= r.keepOffMm - GRACE_MM && !r.own)
      .map(
        (region): WayFail => ({
          limit: 'keep-off',
          valueMm: round(region.movedMm, 2),
          limitMm: 0,
          part: row.part,
          atMm: roundedPlace(region.atMm),
          text: `passes ${row.part} at ${region.gapMm.toFixed(0)} mm, but lies ${(-region.movedMm).toFixed(0)} mm in it at an extreme of what the line joins`,
        }),
      ),
  );
}

const movesApart = (world: LinesWorld, draft: LineDraft): boolean => {
  const [from, to] = lineMovers(world, draft);
  return from !== to;
};

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

/** A bend radius read off a drawn curve is known to this share. */
export const BEND_GRACE = 0.997;

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

export function drainFails(line: Line, bodies: readonly DraftBody[], { shelf }: LinesWorld): WayFail[] {
  const fall = fallRule(line);
  return [...(fall === null ? [] : fallFails(bodies, fall)), ...shrinkFails(line, bodies, shelf)];
}

function fallFails(bodies: readonly DraftBody[], rule: FallRule): WayFail[] {
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
