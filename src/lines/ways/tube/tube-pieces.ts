import { type Body, type Vec, scale } from '#geometry';
import { dutyNeeds } from '#standards';
import { reversedBodies } from '../line-draft.ts';
import { type Passage, farReading } from '../far-reading.ts';
import { fallRule } from '../fall.ts';
import type { Span } from '../span.ts';
import type { TubePiece } from '../tube-piece.ts';
import { bendTable } from './bend-table.ts';
import { type LedThrough, type TubeBench, type TubeEndAt, straightAt } from './hard-tube.ts';
import { BEND_COST_MM, type RunCost } from './run-cost.ts';
import type { PolishedRun } from './run-polish.ts';
import type { RunProblem, TubePose } from './run-problem.ts';
import { type RunEffort, type TubeRuns, tubeRuns } from './run-search.ts';
import { supportPlaces } from './supports.ts';
import { tubeClear } from './tube-clear.ts';
import type { TubeAsked, TubeRule } from './tube-rule.ts';
import { type Corners, STRAIGHT_RAD, tubePath, tubeRun, withoutStraightCorners } from './tube-run.ts';

/** What a support counts against a longer tube [mm]: the same as a clamp on a hose. */
const SUPPORT_COST_MM = 30;
/** Straight on each side of a place the tube is led through [mm]; common practice, no source. */
export const THROUGH_STRAIGHT_MM = 30;

export interface TubeWish {
  readonly bench: TubeBench;
  readonly tube: TubeAsked;
  readonly rule: TubeRule;
  readonly a: TubeEndAt;
  readonly b: TubeEndAt;
  readonly through: readonly LedThrough[];
  /** The mover that the tube sits on. */
  readonly seat: string | null;
  readonly passages: readonly Passage[];
  /** Slack kept beyond the keep-offs while planning [mm]. */
  readonly marginMm: number;
  /** Nothing is wanted where a leg has no way that keeps every limit. */
  readonly onlyGood: boolean;
  readonly much: RunEffort;
}

/** A tube, and whether it keeps clear of everything by the field's reading. */
export interface FoundTube {
  readonly piece: TubePiece;
  readonly keeps: boolean;
}

/** The best few tubes between two ends; the least bad alone where none keeps every limit. */
export function tubePieces(wish: TubeWish): FoundTube[] {
  return tubeCorners(wish).map(({ corners, runs }) => ({
    piece: pieceOf(wish, corners, runs),
    keeps: runs.every((run) => run.cost.ok),
  }));
}

/** The corners of the best few tubes between two ends, with the runs from place to place that they are made of. */
export function tubeCorners(wish: TubeWish): { readonly corners: Corners; readonly runs: readonly PolishedRun[] }[] {
  const found: TubeRuns[] = [];
  for (const { problem, span } of legs(wish)) {
    const runs = tubeRuns(problem, span, wish.bench.count, wish.much);
    if (wish.onlyGood && runs.runs.length === 0) return [];
    found.push(runs);
  }
  let chains: { corners: readonly Vec[]; cost: number; runs: readonly PolishedRun[] }[] = [
    { corners: [], cost: 0, runs: [] },
  ];
  for (const leg of found) {
    const runs = leg.runs.length > 0 ? leg.runs : leg.leastBad === null ? [] : [leg.leastBad];
    chains = chains.flatMap((chain) =>
      runs.map((run) => ({
        corners: [...chain.corners, ...run.corners.slice(chain.corners.length === 0 ? 0 : 1)],
        cost: chain.cost + run.cost.total,
        runs: [...chain.runs, run],
      })),
    );
    chains.sort((p, q) => p.cost - q.cost);
    chains = chains.slice(0, wish.bench.count);
  }
  return chains.map(({ corners, runs }) => ({ corners: withoutStraightCorners(corners), runs }));
}

/** One search a leg: from end to end, or from place to place that the tube is led through. */
function legs(wish: TubeWish): { problem: RunProblem; span: Span }[] {
  const { bench, tube, rule, a, b } = wish;
  const far = farReading(bench.world, bench.line, bench.placed, wish.passages);
  const span: Span = {
    a: { ...a.from, nearMm: Math.max(a.from.nearMm, a.nearMm) },
    b: { ...b.from, nearMm: Math.max(b.from.nearMm, b.nearMm) },
    odMm: tube.odMm,
    minBendRadiusMm: tube.bendRadiusMm,
    far,
  };
  const clear = tubeClear(span);
  const stops = wish.through;
  const byMm = (Math.max(a.over?.odMm ?? 0, b.over?.odMm ?? 0, tube.odMm) - tube.odMm) / 2;
  return Array.from({ length: stops.length + 1 }, (_, n) => {
    const before = stops[n - 1];
    const after = stops[n];
    const start: TubePose = before === undefined ? a.pose : { at: before.at, along: before.direction };
    const end: TubePose =
      after === undefined
        ? { at: b.pose.at, along: scale(b.pose.along, -1) }
        : { at: after.at, along: after.direction };
    const problem: RunProblem = {
      start,
      end,
      radiusMm: rule.radiusMm,
      odMm: tube.odMm,
      mostBendDeg: rule.mostBendDeg,
      startMm: before === undefined ? straightAt(a, rule, true) : Math.max(THROUGH_STRAIGHT_MM, rule.betweenMm / 2),
      betweenMm: rule.betweenMm,
      endMm: after === undefined ? straightAt(b, rule, false) : Math.max(THROUGH_STRAIGHT_MM, rule.betweenMm / 2),
      clear,
      marginMm: wish.marginMm,
      stout: {
        startMm: before === undefined ? (a.over?.lengthMm ?? 0) : 0,
        endMm: after === undefined ? (b.over?.lengthMm ?? 0) : 0,
        byMm,
      },
      fall: fallRule(bench.line),
    };
    const legSpan: Span = {
      ...span,
      a: { ...span.a, at: start.at, faces: start.along },
      b: { ...span.b, at: end.at, faces: scale(end.along, -1) },
    };
    return { problem, span: legSpan };
  });
}

function pieceOf(wish: TubeWish, corners: readonly Vec[], runs: readonly PolishedRun[]): TubePiece {
  const { tube, rule, a, b, bench } = wish;
  const table = bendTable(corners, rule.radiusMm, tube.material);
  const bends = table.bends.map((bend) => ({ ...bend, markMm: Number((bend.markMm + a.insertMm).toFixed(3)) }));
  const lengthMm = table.lengthMm + a.insertMm + b.insertMm;
  const spacingMm = Math.min(rule.supportMm, dutyNeeds(bench.line.duty).clampMm);
  const supports = supportPlaces(corners, rule.radiusMm, spacingMm, [a.fit === null, b.fit === null]);
  const why = runs.flatMap((run) => whyNot(run.cost));
  const fittings =
    (a.fit?.shape.lengthMm ?? 0) +
    (b.fit?.shape.lengthMm ?? 0) +
    (a.fit?.tail.makeUp.cost ?? 0) +
    (b.fit?.tail.makeUp.cost ?? 0);
  return {
    tube,
    a: a.fit,
    b: b.fit,
    bodies: [
      ...(a.fit?.shape.bodies ?? []),
      ...tubeBodies(wish, tubePath(corners, rule.radiusMm)),
      ...reversedBodies(b.fit?.shape.bodies ?? []),
    ],
    lengthMm,
    bends,
    endPrep: endPrep(wish, corners),
    seat: wish.seat,
    supports,
    cost: table.lengthMm + BEND_COST_MM * bends.length + SUPPORT_COST_MM * supports.length + fittings,
    ok: why.length === 0,
    why,
  };
}

/** The tube, and the hoses over its ends. */
function tubeBodies({ tube, a, b }: TubeWish, path: Float64Array): (Body & { row?: string })[] {
  const { head, rest } = cutAt(path, a.over?.lengthMm ?? 0);
  const back = cutAt(reversed(rest), b.over?.lengthMm ?? 0);
  const over = (part: Float64Array, end: TubeEndAt): (Body & { row?: string })[] =>
    end.over === null ? [] : [{ part: 'hose-over-tube', row: end.over.row, path: part, radiusMm: end.over.odMm / 2 }];
  return [
    ...over(head, a),
    { part: 'tube', path: reversed(back.rest), radiusMm: tube.odMm / 2 },
    ...over(reversed(back.head), b),
  ];
}

/** A path cut at a length along it; the head is empty at 0. */
function cutAt(path: Float64Array, atMm: number): { head: Float64Array; rest: Float64Array } {
  if (atMm <= 0) return { head: new Float64Array(0), rest: path };
  let s = 0;
  for (let i = 3; i + 2 < path.length; i += 3) {
    const d = Math.hypot(path[i]! - path[i - 3]!, path[i + 1]! - path[i - 2]!, path[i + 2]! - path[i - 1]!);
    if (s + d < atMm) {
      s += d;
      continue;
    }
    const t = (atMm - s) / d;
    const cut = [0, 1, 2].map((k) => path[i - 3 + k]! + (path[i + k]! - path[i - 3 + k]!) * t);
    return {
      head: Float64Array.from([...path.subarray(0, i), ...cut]),
      rest: Float64Array.from([...cut, ...path.subarray(i)]),
    };
  }
  return { head: path, rest: path.slice(-3) };
}

function reversed(path: Float64Array): Float64Array {
  const out = new Float64Array(path.length);
  for (let i = 0; i < path.length; i += 3) out.set(path.subarray(path.length - 3 - i, path.length - i), i);
  return out;
}

/** What the bender and the bench must know beside the table. */
function endPrep(wish: TubeWish, corners: readonly Vec[]): string[] {
  const { a, b, rule, tube } = wish;
  const run = tubeRun(corners, rule.radiusMm);
  const first = run.straightsMm[0]! + a.insertMm;
  const last = run.straightsMm.at(-1)! + b.insertMm;
  const one = run.bendsRad.filter((r) => r > STRAIGHT_RAD).length === 0;
  const straights = one
    ? 'no bends: cut square, both ends deburred'
    : `straight ${first.toFixed(0)} mm at the start (clamp ${Math.min(rule.clampMm, first).toFixed(0)} mm), ${last.toFixed(0)} mm at the end; deburr both ends`;
  const spring = one
    ? []
    : [
        `springback differs from batch to batch: try one bend on an offcut of this ${tube.material ?? 'tube'} and correct the set angles`,
      ];
  return [`start: ${a.prep}`, `end: ${b.prep}`, straights, ...spring];
}

/** Limits of the bender that a run misses; what it touches is judged on the true bodies. */
function whyNot({ ok, lacks }: RunCost): string[] {
  if (ok) return [];
  const why: string[] = [];
  if (lacks.straightMm > LEAST_SAID)
    why.push(`the bends want ${lacks.straightMm.toFixed(0)} mm more straight than there is`);
  if (lacks.selfMm > LEAST_SAID) why.push('the tube would cross itself');
  if (lacks.angleRad > LEAST_SAID) why.push('a bend turns further than the bender can');
  return why;
}

const LEAST_SAID = 0.01;
