import type { Line, TakenWay } from '#car';
import type { LineObstacles } from '#geometry';
import { type HoseRow, dutyNeeds } from '#standards';
import { chooseHoses } from './make-up/choose-hoses.ts';
import { type HeldBy, type HoseFinding, hoseFitness } from './make-up/hose-fitness.ts';
import { type LineJoint, type LineSpan, lineSpans } from './make-up/line-spans.ts';
import type { Way } from './way.ts';
import { type LinesWorld, conditionsOf } from './world.ts';
import { carrierOf, pieceMovement } from './ways/carriers.ts';
import { clearance } from './ways/clearance.ts';
import { lineHope } from './ways/crossing-hope.ts';
import { type Movable, type MoveEffort, type PlacedLine, movedCheaper } from './ways/crossing-search.ts';
import { isCutOff } from './ways/cut-off.ts';
import { type Passage, farReading } from './ways/far-reading.ts';
import { firstPieces } from './ways/first-pieces.ts';
import type { HosePiece } from './ways/hose-piece.ts';
import { type HosePieces, hosePieces } from './ways/hose-pieces.ts';
import { type EndAnswer, type PlacedJoint, jointEnd, knownAt, passageOf, portEnd } from './ways/joints.ts';
import { movables, placedJoints, unfitTee, wantedJoints } from './ways/line-joints.ts';
import { fallFault, fallRule } from './ways/fall.ts';
import { hasMoverSlack } from './ways/hang.ts';
import { judgedWay } from './ways/judged-way.ts';
import { type DraftPiece, type LineDraft, hoseBodies } from './ways/line-draft.ts';
import { type NearHose, type NearLine, nearLine } from './ways/near-line.ts';
import { type ExtraCost, ranked } from './ways/ranked-ways.ts';
import { refusedWay } from './ways/refused-way.ts';
import { narrowMissMm, roomier } from './ways/roomier.ts';
import type { HeldAt } from './ways/run.ts';
import { type Span, type SpanEnd, straightOut } from './ways/span.ts';
import { distinctWays } from './ways/distinct-ways.ts';
import { firstTubeWay, tubeLineWays } from './ways/tube/tube-line-ways.ts';

/**
 * The best few ways of one line among the lines already placed: feasible ones first, cheapest first; never empty.
 *
 * @param extraCost - what a way costs besides; absent: nothing
 */
export function lineWays(
  world: LinesWorld,
  line: Line,
  placed: LineObstacles | null,
  count: number,
  extraCost?: (way: Way) => ExtraCost,
): Way[] {
  const hasTube = line.pieces.some((piece) => piece.tube !== undefined);
  const ways = hasTube ? tubeLineWays(world, line, placed, count) : new LineWork(world, line, placed, count).ways();
  return ranked(ways, count, extraCost);
}

/**
 * A way that keeps every limit, found fast: the first that comes, seldom the best. Null where a quick look finds none; that says
 * nothing of whether there is one.
 */
export function firstWay(world: LinesWorld, line: Line, placed: LineObstacles | null): Way | null {
  if (line.pieces.some((piece) => piece.tube !== undefined)) return firstTubeWay(world, line, placed);
  return new LineWork(world, line, placed, 1, true).ways().find((way) => way.feasible) ?? null;
}

/**
 * A way of a line near one that it had before something was moved, found fast: through the same places, made up as it was where that
 * still does; where it may cross elsewhere, and for lines with hard tube, a first way as `firstWay` gives. Null where neither comes to
 * anything.
 */
export function followingWay(
  world: LinesWorld,
  line: Line,
  placed: LineObstacles | null,
  before: Way | TakenWay,
): Way | null {
  if (line.pieces.some((piece) => piece.tube !== undefined)) return firstWay(world, line, placed);
  const near = nearLine(before);
  const way = near && new LineWork(world, line, placed, 1, true, near).ways().find(({ feasible }) => feasible);
  // Where it goes through the same places, more than a look near by is for the search behind.
  return (
    way ??
    (near !== null && line.through.every(({ atMm }) => atMm !== undefined) ? null : firstWay(world, line, placed))
  );
}

interface Stretch {
  readonly span: LineSpan;
  readonly hose: HoseRow;
  readonly findings: readonly HoseFinding[];
  /** How its hose lay before, where one did. */
  readonly near: NearHose | undefined;
}

/** Sets of places for joints that the tool may move, worked out beside the first. */
const MOVES: MoveEffort = { places: 3, fully: 1, steps: 5 };

class LineWork {
  readonly world: LinesWorld;
  readonly line: Line;
  readonly placed: LineObstacles | null;
  private readonly count: number;
  private readonly isQuick: boolean;
  readonly near: NearLine | null;
  private readonly judgedBefore = new Map<HosePiece, Way>();

  constructor(
    world: LinesWorld,
    line: Line,
    placed: LineObstacles | null,
    count: number,
    isQuick = false,
    near: NearLine | null = null,
  ) {
    this.world = world;
    this.line = line;
    this.placed = placed;
    this.count = count;
    this.isQuick = isQuick;
    this.near = near;
  }

  ways(): Way[] {
    const { spans, findings } = lineSpans(this.line);
    const wrong = findings.find((f) => f.level === 'stop');
    if (wrong !== undefined) return [refusedWay(this.world, this.line, [{ limit: 'mating', text: wrong.text }])];
    const stretches = this.stretches(spans);
    if (typeof stretches === 'string')
      return [refusedWay(this.world, this.line, [{ limit: 'mating', text: stretches }])];
    const a = this.portEndOf(this.line.from, stretches[0]!.hose);
    const b = this.portEndOf(this.line.to, stretches.at(-1)!.hose);
    for (const end of [a, b])
      if ('missing' in end) return [refusedWay(this.world, this.line, [{ limit: 'mating', text: end.missing }])];
    if ('missing' in a || 'missing' in b) return [];
    const wanted = wantedJoints(spans, (n) => ({ odMm: stretches[n]!.hose.odMm, dash: stretches[n]!.hose.dash }));
    const unfit = unfitTee(this, wanted);
    if (unfit !== null) return [refusedWay(this.world, this.line, [{ limit: 'mating', text: unfit }])];
    const choices = [...placedJoints(this, wanted, a.end, b.end)];
    const ways = this.waysAt(stretches, [a.end, b.end], choices, movables(this, wanted));
    if (ways.length > 0) return ways;
    return [
      refusedWay(this.world, this.line, [{ limit: 'reach', text: 'no place on the panel lets this line through' }]),
    ];
  }

  /** Ways through the first places that give enough; what the tool may place is then moved to where the line is cheapest. */
  private waysAt(
    stretches: readonly Stretch[],
    ends: readonly [SpanEnd, SpanEnd],
    choices: readonly (readonly PlacedJoint[])[],
    movable: readonly Movable[],
  ): Way[] {
    const ways: Way[] = [];
    let best: PlacedLine<Way> | null = null;
    for (const joints of choices) {
      const first = this.waysThrough(stretches, joints, 0);
      const missMm = this.isQuick ? null : narrowMissMm(first);
      const found = missMm === null ? first : [...first, ...this.waysThrough(stretches, joints, missMm)];
      ways.push(...found);
      for (const way of found)
        if (way.feasible && (best === null || way.cost < best.cost)) best = { joints, cost: way.cost, found: way };
      if (this.isQuick || ways.filter((way) => way.feasible).length >= this.count) break;
    }
    if (best === null || movable.length === 0 || this.isQuick) return ways;
    const moved = movedCheaper(
      best,
      movable,
      {
        hopeOf: this.hopeOf(stretches, ends),
        tryAt: (joints, belowMm, fully) => this.cheapestAt(stretches, joints, fully ? null : belowMm),
      },
      MOVES,
    );
    if (moved === best) return ways;
    const there = this.count === 1 ? [] : this.waysThrough(stretches, moved.joints, 0).filter((way) => way.feasible);
    return distinctWays([moved.found, ...there, ...ways]);
  }

  /** What the line can be hoped to cost through joints: a leg from each joint to the next, of the hose that lies there. */
  private hopeOf(
    stretches: readonly Stretch[],
    ends: readonly [SpanEnd, SpanEnd],
  ): (joints: readonly PlacedJoint[]) => number {
    const hoses = stretches.flatMap(({ span, hose }) => [...span.passes.map(() => hose), hose]);
    const legs = hoses.map(({ odMm, minBendRadiusMm }) => ({ odMm, radiusMm: minBendRadiusMm }));
    return lineHope(ends, legs, (joint, leg, side) => {
      const answer = joint.row === null ? null : jointEnd(this.world, this.line, joint, hoses[leg]!, side);
      return answer === null || 'missing' in answer ? null : answer.end;
    });
  }

  /** The line through these places; looked for only where it is likeliest if it must come below a cost. */
  private cheapestAt(
    stretches: readonly Stretch[],
    joints: readonly PlacedJoint[],
    belowMm: number | null,
  ): { cost: number; found: Way } | null {
    const ways = this.waysThrough(stretches, joints, 0, belowMm).filter((way) => way.feasible);
    const found = ways.sort((p, q) => p.cost - q.cost)[0];
    return found === undefined ? null : { cost: found.cost, found };
  }

  private stretches(spans: readonly LineSpan[]): Stretch[] | string {
    const out: Stretch[] = [];
    for (const span of spans) {
      const choices = chooseHoses(conditionsOf(this.line), this.world.shelf.hoses, span.piece.hose);
      const choice = choices.hoses[0] ?? choices.refused[0];
      if (choice === undefined) return choices.missing ?? 'no hose for this line in the catalogue';
      out.push({ span, hose: choice.hose, findings: choice.findings, near: this.near?.hoses[out.length] });
    }
    return out;
  }

  private portEndOf(ref: string, hose: HoseRow): EndAnswer {
    return portEnd(this.world, this.line, ref, hose);
  }

  private span(a: SpanEnd, b: SpanEnd, hose: HoseRow, passages: readonly Passage[]): Span {
    const far = farReading(this.world, this.line, this.placed, passages);
    return { a, b, odMm: hose.odMm, minBendRadiusMm: hose.minBendRadiusMm, far };
  }

  /** Ways of the whole line with its joints in these places; below a cost [mm], if one is given, and then looked for briefly. */
  private waysThrough(
    stretches: readonly Stretch[],
    joints: readonly PlacedJoint[],
    roomMm: number,
    belowMm: number | null = null,
  ): Way[] {
    const fittings = joints.filter((j) => j.kind !== 'grommet');
    const grommets = joints.filter((j) => j.kind === 'grommet');
    let g = 0;
    const found: HosePieces[] = [];
    for (const [i, stretch] of stretches.entries()) {
      const stops = grommets.slice(g, g + stretch.span.passes.length);
      g += stops.length;
      const a = this.endOf(stretch.span.from, fittings[i - 1], stretch.hose, 1);
      const b = this.endOf(stretch.span.to, fittings[i], stretch.hose, -1);
      for (const end of [a, b])
        if ('missing' in end) return [refusedWay(this.world, this.line, [{ limit: 'mating', text: end.missing }])];
      if ('missing' in a || 'missing' in b) return [];
      const whole = stretches.length === 1 ? (piece: HosePiece) => this.judged([piece], stretches, [], grommets) : null;
      const isLost = belowMm !== null || found.some(({ pieces }) => pieces.length === 0);
      const pieces = this.piecesOf(stretch, [a.end, b.end], stops, joints, roomMm, whole, isLost);
      const why = noHose(pieces, a.end, b.end);
      if (why !== null) {
        const shown = pieces.leastBad === null ? undefined : whole?.(pieces.leastBad);
        const inTheWay = shown?.fails.find((fail) => fail.limit === 'keep-off');
        const text = inTheWay === undefined ? why : `${why}; the least bad try ${inTheWay.text}`;
        return [refusedWay(this.world, this.line, [{ limit: 'reach', text, atMm: inTheWay?.atMm ?? a.end.at }])];
      }
      found.push(pieces);
      if (belowMm !== null && leastCost(found) >= belowMm) return [];
    }
    return this.chains(found).map((chain) => this.judged(chain, stretches, fittings, grommets));
  }

  /** The whole line of these pieces, judged on the true bodies. */
  private judged(
    chain: readonly HosePiece[],
    stretches: readonly Stretch[],
    fittings: readonly PlacedJoint[],
    grommets: readonly PlacedJoint[],
  ): Way {
    const known = chain.length === 1 ? this.judgedBefore.get(chain[0]!) : undefined;
    if (known !== undefined) return known;
    const draft: LineDraft = {
      line: this.line,
      pieces: chain.map((piece): DraftPiece => ({ kind: 'hose', piece })),
      between: fittings,
      grommets,
    };
    const way = judgedWay(this.world, draft, this.placed, this.fitness(draft, stretches));
    if (chain.length === 1) this.judgedBefore.set(chain[0]!, way);
    return way;
  }

  private endOf(joint: LineJoint, fitting: PlacedJoint | undefined, hose: HoseRow, side: -1 | 1): EndAnswer {
    if (joint.kind === 'port') return this.portEndOf(joint.ref, hose);
    if (fitting === undefined) return { missing: 'no fitting to end this piece on' };
    if (fitting.row === null) return { missing: `no bulkhead fitting for ${hose.name} in the catalogue` };
    return jointEnd(this.world, this.line, fitting, hose, side);
  }

  private piecesOf(
    stretch: Stretch,
    [a, b]: readonly [SpanEnd, SpanEnd],
    stops: readonly PlacedJoint[],
    joints: readonly PlacedJoint[],
    roomMm: number,
    whole: ((piece: HosePiece) => Way) | null,
    isLost: boolean,
  ): HosePieces {
    const { hose } = stretch;
    const passages = joints.map((joint) => passageOf(joint, hose.odMm));
    const { near } = stretch;
    const span = { ...this.span(a, b, hose, passages), ...(near && { near }) };
    const held = stops.map(
      (stop): HeldAt => ({
        label: stop.label,
        at: stop.at,
        direction: stop.direction,
        straightMm: Math.min(straightOut(hose.odMm), hose.odMm / 2 + 8),
        carrier: carrierOf(this.world.bay.partById.get(stop.part)?.moverId ?? null, a.moverId, b.moverId),
      }),
    );
    return (this.isQuick ? firstPieces : hosePieces)({
      span,
      hose,
      stops: held,
      clearOf: (leg) => roomier(clearance(leg), roomMm),
      count: this.count,
      isLost,
      known: [knownAt(this.world, a), knownAt(this.world, b)],
      clampSpacingMm: dutyNeeds(this.line.duty).clampMm,
      suits: (piece) =>
        hasMoverSlack(piece.hung) && (whole === null ? this.suits(piece) : suitsAtExtremes(whole(piece))),
      isCutOff: () => joints.length === 0 && isCutOff(this.world, this.line, a, b, hose.odMm),
      movement: pieceMovement(this.world, a, b),
    });
  }

  /** Does a piece fall or rise all the way, where its line must? */
  private suits(piece: HosePiece): boolean {
    const rule = fallRule(this.line);
    return rule === null || fallFault(hoseBodies(piece), rule) === null;
  }

  /** The cheapest combinations of one piece a stretch; the least bad where a stretch has none. */
  private chains(found: readonly HosePieces[]): HosePiece[][] {
    let chains: HosePiece[][] = [[]];
    for (const { pieces, leastBad } of found) {
      const choices = pieces.length > 0 ? pieces : leastBad === null ? [] : [leastBad];
      chains = chains.flatMap((chain) => choices.map((piece) => [...chain, piece]));
      chains.sort((p, q) => costOf(p) - costOf(q));
      chains = chains.slice(0, this.count);
    }
    return chains;
  }

  private fitness(draft: LineDraft, stretches: readonly Stretch[]): HoseFinding[] {
    return stretches.flatMap(({ hose }, i) => {
      const piece = draft.pieces[i];
      const held: HeldBy[] =
        piece?.kind === 'hose' ? [piece.piece.a, piece.piece.b].flatMap((fit) => heldBy(fit.tail.makeUp)) : [];
      return [...hoseFitness(hose, conditionsOf(this.line), held)];
    });
  }
}

/** Every limit is kept, also at the extremes of what the line joins. */
const suitsAtExtremes = (way: Way): boolean =>
  way.feasible && way.notes.every(({ code }) => code !== 'keep-off-at-extreme');

/** Why not even a bad hose can be drawn; null where one can. */
function noHose({ pieces, leastBad, search, isCutOff: isProved }: HosePieces, a: SpanEnd, b: SpanEnd): string | null {
  if (pieces.length > 0) return null;
  if (isProved === true)
    return `${a.label} and ${b.label} have no way to each other: what stands between leaves no gap wide enough, proved cell by cell`;
  if (leastBad !== null) return null;
  if (search.blockedEnds.length > 0)
    return `no hose end fits at ${search.blockedEnds.join(' and ')} without touching what stands there`;
  return `none found from ${a.label} to ${b.label} in ${search.effort.refinements} tries; that is no proof`;
}

function heldBy(makeUp: {
  readonly key: string;
  readonly fixing: string;
  readonly parts: readonly { readonly name: string; readonly kind: string }[];
}): HeldBy[] {
  if (makeUp.fixing === 'tube') return [];
  const name = makeUp.parts.findLast((p) => p.kind === 'hose-end' || p.kind === 'clamp')?.name;
  return name === undefined ? [] : [{ name, fixing: makeUp.fixing as HeldBy['fixing'] }];
}

/** What the pieces found so far cost at least; infinite where one has no way [mm]. */
const leastCost = (found: readonly HosePieces[]): number =>
  found.reduce((sum, { pieces }) => sum + Math.min(...pieces.map((piece) => piece.cost)), 0);

const costOf = (chain: readonly HosePiece[]): number => chain.reduce((sum, piece) => sum + piece.cost, 0);
