import { type HoseRow, dutyNeeds } from '#standards';
import type { Limit } from '../../way.ts';
import { carrierOf, pieceMovement } from '../carriers.ts';
import { clearance } from '../clearance.ts';
import { farReading } from '../far-reading.ts';
import { hasMoverSlack } from '../hang.ts';
import { hosePieces } from '../hose-pieces.ts';
import { type PlacedJoint, knownAt, passageOf } from '../joints.ts';
import type { DraftPiece } from '../line-draft.ts';
import type { SpanEnd } from '../span.ts';
import { couplerMovement, reversedPiece } from './coupler.ts';
import { type EndChoice, endPairs, openEnds } from './end-pairs.ts';
import type { LedThrough, TubeBench } from './hard-tube.ts';
import type { RunEffort } from './run-search.ts';
import { coupledEnds, fittedTubeEnds } from './tube-ends.ts';
import { type FoundTube, tubePieces } from './tube-pieces.ts';
import type { TubeAsked, TubeRule } from './tube-rule.ts';

/** How much is tried at one set of places. */
export interface TubeEffort {
  /** Slack that the tube is planned with beyond its keep-offs, in turn [mm]: the field reads a little generous. */
  readonly marginsMm: readonly number[];
  /** Pairs of fittings tried at a tube's ends. */
  readonly pairs: number;
  /** Give up as soon as one leg has no way. */
  readonly onlyGood: boolean;
  readonly much: RunEffort;
}

/** What one stretch of the line is made of. */
export type Made =
  | { readonly kind: 'hose'; readonly hose: HoseRow }
  | { readonly kind: 'tube'; readonly tube: TubeAsked; readonly rule: TubeRule };

/** Consecutive pieces worked out together: a tube with its couplers, or a hose between fittings. */
export interface Section {
  readonly pieces: readonly DraftPiece[];
  readonly cost: number;
  readonly ok: boolean;
  /** Near rules hold for so much of the line at the section's start and end [mm]. */
  readonly nearMm: readonly [number, number];
}

/** Why a line cannot be drawn. */
export class Refusal {
  readonly limit: Limit;
  readonly text: string;
  constructor(limit: Limit, text: string) {
    this.limit = limit;
    this.text = text;
  }
}

/** Straight of a hose beside its grommet, beyond its radius [mm]. */
const GROMMET_STRAIGHT_MM = 8;

/** The best few hoses between two fixed ends. */
export function hoseSections(
  bench: TubeBench,
  hose: HoseRow,
  a: SpanEnd,
  b: SpanEnd,
  stops: readonly PlacedJoint[],
  joints: readonly PlacedJoint[],
): Section[] | Refusal {
  const { world, line, placed, count } = bench;
  const passages = joints.map((joint) => passageOf(joint, hose.odMm));
  const span = {
    a,
    b,
    odMm: hose.odMm,
    minBendRadiusMm: hose.minBendRadiusMm,
    far: farReading(world, line, placed, passages),
  };
  const found = hosePieces({
    span,
    hose,
    stops: stops.map((stop) => ({
      label: stop.label,
      at: stop.at,
      direction: stop.direction,
      straightMm: hose.odMm / 2 + GROMMET_STRAIGHT_MM,
      carrier: carrierOf(world.bay.partById.get(stop.part)?.moverId ?? null, a.moverId, b.moverId),
    })),
    clearOf: clearance,
    count,
    known: [knownAt(world, a), knownAt(world, b)],
    clampSpacingMm: dutyNeeds(line.duty).clampMm,
    suits: ({ hung }) => hasMoverSlack(hung),
    movement: pieceMovement(world, a, b),
  });
  const pieces = found.pieces.length > 0 ? found.pieces : found.leastBad === null ? [] : [found.leastBad];
  if (pieces.length === 0)
    return new Refusal(
      'reach',
      `no room for the fittings of ${hose.name} at ${found.search.blockedEnds.join(' and ') || `${a.label} and ${b.label}`}`,
    );
  return pieces.map((piece) => ({
    pieces: [{ kind: 'hose', piece }],
    cost: piece.cost,
    ok: piece.ok,
    nearMm: [piece.a.shape.lengthMm + piece.straightsMm[0], piece.b.shape.lengthMm + piece.straightsMm[1]],
  }));
}

/** What a tube section is worked out from. */
export interface TubeSectionAsk {
  readonly bench: TubeBench;
  /** All stretches of the line, and which of them is this tube. */
  readonly made: readonly Made[];
  readonly n: number;
  /** Both ends of every stretch that are fixed in place. */
  readonly ends: readonly FixedEnds[];
  readonly stops: readonly PlacedJoint[];
  readonly joints: readonly PlacedJoint[];
  readonly marginMm: number;
  readonly effort: TubeEffort;
}

/** Both ends of a stretch; null where hose meets tube. */
export interface FixedEnds {
  readonly a: SpanEnd | null;
  readonly b: SpanEnd | null;
}

/** The best few tubes with their couplers. */
export function tubeSections(ask: TubeSectionAsk): Section[] | Refusal {
  const { bench, n, ends, stops, joints, marginMm, effort } = ask;
  const made = ask.made[n]!;
  if (made.kind !== 'tube') return new Refusal('mating', `piece ${n + 1} is no tube`);
  const fixed = [ends[n]!.a, ends[n]!.b].filter((e) => e !== null);
  const movers = [...new Set(fixed.map((e) => e.moverId))];
  if (movers.length > 1)
    return new Refusal(
      'reach',
      `${fixed.map((e) => e.label).join(' and ')} move against each other: a hard tube between them would break; put a hose at one end`,
    );
  const seat = movers[0] ?? null;
  const a = endChoices(ask, ends[n]!.a, ends[n - 1]?.a ?? null, n - 1, seat);
  const b = endChoices(ask, ends[n]!.b, ends[n + 1]?.b ?? null, n + 1, seat);
  if (a instanceof Refusal) return a;
  if (b instanceof Refusal) return b;
  const passages = joints.map((joint) => passageOf(joint, made.tube.odMm));
  const through: LedThrough[] = stops.map(({ at, direction }) => ({ at, direction }));
  const open = (choices: readonly EndChoice[]) => openEnds(bench, choices, made.tube, made.rule, passages);
  let leastBad: Section[] = [];
  for (const [from, to] of endPairs(open(a), open(b)).slice(0, effort.pairs)) {
    const wish = {
      bench: bench,
      tube: made.tube,
      rule: made.rule,
      a: from.end,
      b: to.end,
      through,
      seat,
      passages,
      marginMm,
      onlyGood: effort.onlyGood,
      much: effort.much,
    };
    const sections = tubePieces(wish).map((found) => withCouplers(found, from, to));
    if (sections.some((s) => s.ok)) return sections.filter((s) => s.ok);
    if (leastBad.length === 0) leastBad = sections.slice(0, 1);
  }
  return leastBad.length > 0
    ? leastBad
    : new Refusal(
        'reach',
        `no way for a tube bent at ${made.rule.radiusMm} mm: nothing wide enough leads from one end to the other`,
      );
}

function withCouplers({ piece, keeps }: FoundTube, from: EndChoice, to: EndChoice): Section {
  return {
    pieces: [
      ...(from.coupler === null ? [] : [{ kind: 'hose' as const, piece: from.coupler }]),
      { kind: 'tube', piece },
      ...(to.coupler === null ? [] : [{ kind: 'hose' as const, piece: reversedPiece(to.coupler) }]),
    ],
    cost: (from.coupler?.cost ?? 0) + piece.cost + (to.coupler?.cost ?? 0),
    ok: keeps,
    nearMm: [from.end.nearMm, to.end.nearMm],
  };
}

/** Fittings of the tube itself, or couplers from the port beyond the neighbouring hose, which is piece `m`. */
export function endChoices(
  ask: TubeSectionAsk,
  own: SpanEnd | null,
  beyond: SpanEnd | null,
  m: number,
  seat: string | null,
): EndChoice[] | Refusal {
  const { bench, n } = ask;
  const made = ask.made[n]!;
  if (made.kind !== 'tube') return [];
  const first = m < n;
  const { world, line } = bench;
  if (own !== null) {
    const fits = fittedTubeEnds(own, made.tube, made.rule, first);
    return fits.length > 0
      ? fits.map((end) => ({ end, coupler: null }))
      : new Refusal('reach', `no room for the tube's nut at ${own.label}`);
  }
  const hose = ask.made[m];
  if (beyond === null || hose?.kind !== 'hose') return new Refusal('mating', `piece ${n + 1} ends on nothing`);
  const movement = couplerMovement(world, beyond.at, beyond.faces, beyond.moverId, seat);
  const label = `${line.id} joint ${first ? n : n + 1}`;
  const coupled = coupledEnds(bench, beyond, hose.hose, made.tube, made.rule, movement, label);
  if ('missing' in coupled) return new Refusal('mating', coupled.missing);
  return coupled.length > 0
    ? coupled
    : new Refusal('reach', `no room for a coupler of ${hose.hose.name} in line with ${beyond.label}`);
}
