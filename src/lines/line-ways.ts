import type { Line } from '#car';
import { type LineObstacles, type Vec, unit } from '#geometry';
import { type HoseRow, dutyNeeds } from '#standards';
import { chooseHoses } from './make-up/choose-hoses.ts';
import { type HeldBy, type HoseFinding, hoseFitness } from './make-up/hose-fitness.ts';
import { type LineJoint, type LineSpan, lineSpans } from './make-up/line-spans.ts';
import type { Way } from './way.ts';
import { type LinesWorld, conditionsOf } from './world.ts';
import { carrierOf, pieceMovement } from './ways/carriers.ts';
import { clearance } from './ways/clearance.ts';
import { crossings } from './ways/crossing.ts';
import { isCutOff } from './ways/cut-off.ts';
import { type Passage, farReading } from './ways/far-reading.ts';
import type { HosePiece } from './ways/hose-piece.ts';
import { type HosePieces, hosePieces } from './ways/hose-pieces.ts';
import {
  type EndAnswer,
  type PlacedJoint,
  directionOf,
  jointEnd,
  knownAt,
  panelSolid,
  passageOf,
  portEnd,
} from './ways/joints.ts';
import { fallFault, fallRule } from './ways/fall.ts';
import { hasMoverSlack } from './ways/hang.ts';
import { judgedWay } from './ways/judged-way.ts';
import { type DraftPiece, type LineDraft, hoseBodies } from './ways/line-draft.ts';
import { refusedWay } from './ways/refused-way.ts';
import { narrowMissMm, roomier } from './ways/roomier.ts';
import type { HeldAt } from './ways/run.ts';
import { type Span, type SpanEnd, straightOut } from './ways/span.ts';
import { tubeLineWays } from './ways/tube/tube-line-ways.ts';

/** The best few ways of one line among the lines already placed: feasible ones first, cheapest first; never empty. */
export function lineWays(world: LinesWorld, line: Line, placed: LineObstacles | null, count: number): Way[] {
  const hasTube = line.pieces.some((piece) => piece.tube !== undefined);
  const ways = hasTube ? tubeLineWays(world, line, placed, count) : new LineWork(world, line, placed, count).ways();
  return ranked(ways, count);
}

/** Feasible first, of them what touches nothing hot or moving at worst, then cheap first; each says why it stands where it does. */
function ranked(ways: readonly Way[], count: number): Way[] {
  const order = [...ways].sort(
    (p, q) =>
      Number(q.feasible) - Number(p.feasible) || failing(p) - failing(q) || stops(p) - stops(q) || p.cost - q.cost,
  );
  const best = order[0];
  return order.slice(0, count).map((way, i) => ({ ...way, rank: i + 1, reasons: reasonsFor(way, best!) }));
}

const failing = (way: Way): number =>
  way.fails.reduce((sum, f) => sum + 1 + Math.abs((f.valueMm ?? 0) - (f.limitMm ?? 0)) / 100, 0);

const stops = (way: Way): number => way.notes.filter(({ level }) => level === 'stop').length;

function reasonsFor(way: Way, best: Way): string[] {
  if (!way.feasible) return way.fails.map((fail) => fail.text);
  const lengthMm = way.pieces.reduce((sum, piece) => sum + piece.cutLengthMm, 0);
  const least = Math.min(...way.gaps.filter((gap) => !gap.near).map((gap) => gap.gapMm - gap.keepOffMm));
  const clamps = way.clamps.length;
  const words = [`${Math.round(lengthMm)} mm to cut, ${clamps === 1 ? '1 clamp' : `${clamps} clamps`}`];
  if (Number.isFinite(least)) words.push(`least room beyond a keep-off ${least.toFixed(0)} mm`);
  if (way !== best)
    words.push(`${(way.cost - best.cost).toFixed(0)} mm of line worse than the first, ends and clamps counted`);
  return words;
}

interface Stretch {
  readonly span: LineSpan;
  readonly hose: HoseRow;
  readonly findings: readonly HoseFinding[];
}

/** Places tried for a crossing that the car file leaves open. */
const CROSSINGS_TRIED = 3;
const FITTING_WEB_MM = 4;

class LineWork {
  private readonly world: LinesWorld;
  private readonly line: Line;
  private readonly placed: LineObstacles | null;
  private readonly count: number;
  private readonly judgedBefore = new Map<HosePiece, Way>();

  constructor(world: LinesWorld, line: Line, placed: LineObstacles | null, count: number) {
    this.world = world;
    this.line = line;
    this.placed = placed;
    this.count = count;
  }

  ways(): Way[] {
    const { spans, findings } = lineSpans(this.line);
    const wrong = findings.find((f) => f.level === 'stop');
    if (wrong !== undefined) return [refusedWay(this.world, this.line, [{ limit: 'mating', text: wrong.text }])];
    const stretches = this.stretches(spans);
    if (typeof stretches === 'string')
      return [refusedWay(this.world, this.line, [{ limit: 'mating', text: stretches }])];
    const ways: Way[] = [];
    for (const joints of this.jointChoices(spans, stretches)) {
      const found = this.waysThrough(stretches, joints, 0);
      const missMm = narrowMissMm(found);
      ways.push(...found, ...(missMm === null ? [] : this.waysThrough(stretches, joints, missMm)));
      if (ways.filter((way) => way.feasible).length >= this.count) break;
    }
    if (ways.length > 0) return ways;
    return [
      refusedWay(this.world, this.line, [{ limit: 'reach', text: 'no place on the panel lets this line through' }]),
    ];
  }

  private stretches(spans: readonly LineSpan[]): Stretch[] | string {
    const out: Stretch[] = [];
    for (const span of spans) {
      const choices = chooseHoses(conditionsOf(this.line), this.world.shelf.hoses, span.piece.hose);
      const choice = choices.hoses[0] ?? choices.refused[0];
      if (choice === undefined) return choices.missing ?? 'no hose for this line in the catalogue';
      out.push({ span, hose: choice.hose, findings: choice.findings });
    }
    return out;
  }

  /** Every set of places for the joints and grommets: as the car says, or the best the tool finds. */
  private *jointChoices(spans: readonly LineSpan[], stretches: readonly Stretch[]): Generator<PlacedJoint[]> {
    const wanted = spans.flatMap((span, i) => [
      ...span.passes.map((pass) => ({ joint: pass as Wanted, hose: stretches[i]!.hose })),
      ...(i < spans.length - 1 && isFitting(span.to) ? [{ joint: span.to as Wanted, hose: stretches[i]!.hose }] : []),
    ]);
    const open = wanted.filter((w) => w.joint.atMm === undefined);
    const choices = open.map((w) => this.crossingPlaces(w.joint, w.hose));
    const most = Math.max(1, ...choices.map((c) => c.length));
    for (let n = 0; n < most; n++) {
      const placed = wanted.map((w, i) => {
        const k = open.indexOf(w);
        const place =
          k < 0
            ? fixedPlace(this.world, this.line, w.joint)
            : (choices[k]![Math.min(n, choices[k]!.length - 1)] ?? null);
        return place === null ? null : this.placedJoint(w.joint, w.hose, place, i + 1);
      });
      if (placed.every((p) => p !== null)) yield placed;
    }
  }

  private placedJoint(joint: Wanted, hose: HoseRow, place: { at: Vec; direction: Vec }, n: number): PlacedJoint {
    const row =
      joint.kind === 'grommet' ? null : (this.world.shelf.bulkheadFittings.find((r) => r.a.dash === hose.dash) ?? null);
    const holeRadiusMm = row === null ? hose.odMm / 2 + FITTING_WEB_MM : row.bodyOdMm / 2 + FITTING_WEB_MM;
    return { kind: joint.kind, label: `${this.line.id} joint ${n}`, part: joint.part, ...place, row, holeRadiusMm };
  }

  private crossingPlaces(joint: Wanted, hose: HoseRow): { at: Vec; direction: Vec }[] {
    const part = this.world.bay.partById.get(joint.part);
    const solid = part === undefined ? null : panelSolid(part);
    const a = this.portEndOf(this.line.from, hose);
    const b = this.portEndOf(this.line.to, hose);
    if (solid === null || 'missing' in a || 'missing' in b) return [];
    const span = this.span(a.end, b.end, hose, []);
    const holeRadiusMm = joint.kind === 'grommet' ? hose.odMm / 2 + FITTING_WEB_MM : hose.odMm * 0.8 + FITTING_WEB_MM;
    const taken = (this.placed?.ids ?? []).flatMap((id) => crossedAt(this.placed!, id, solid));
    return crossings(span, clearance(span), { solid, holeRadiusMm, taken, count: CROSSINGS_TRIED });
  }

  private portEndOf(ref: string, hose: HoseRow): EndAnswer {
    return portEnd(this.world, this.line, ref, hose);
  }

  private span(a: SpanEnd, b: SpanEnd, hose: HoseRow, passages: readonly Passage[]): Span {
    const far = farReading(this.world, this.line, this.placed, passages);
    return { a, b, odMm: hose.odMm, minBendRadiusMm: hose.minBendRadiusMm, far };
  }

  /** Ways of the whole line with its joints in these places. */
  private waysThrough(stretches: readonly Stretch[], joints: readonly PlacedJoint[], roomMm: number): Way[] {
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
      const isLost = found.some(({ pieces }) => pieces.length === 0);
      const pieces = this.piecesOf(stretch, [a.end, b.end], stops, joints, roomMm, whole, isLost);
      const why = noHose(pieces, a.end, b.end);
      if (why !== null) {
        const shown = pieces.leastBad === null ? undefined : whole?.(pieces.leastBad);
        const inTheWay = shown?.fails.find((fail) => fail.limit === 'keep-off');
        const text = inTheWay === undefined ? why : `${why}; the least bad try ${inTheWay.text}`;
        return [refusedWay(this.world, this.line, [{ limit: 'reach', text, atMm: inTheWay?.atMm ?? a.end.at }])];
      }
      found.push(pieces);
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
    const span = this.span(a, b, hose, passages);
    const held = stops.map(
      (stop): HeldAt => ({
        label: stop.label,
        at: stop.at,
        direction: stop.direction,
        straightMm: Math.min(straightOut(hose.odMm), hose.odMm / 2 + 8),
        carrier: carrierOf(this.world.bay.partById.get(stop.part)?.moverId ?? null, a.moverId, b.moverId),
      }),
    );
    return hosePieces({
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

const costOf = (chain: readonly HosePiece[]): number => chain.reduce((sum, piece) => sum + piece.cost, 0);

interface Wanted {
  readonly kind: 'bulkhead-fitting' | 'tee' | 'grommet';
  readonly part: string;
  readonly atMm?: Vec;
  readonly faces?: Vec;
}

const isFitting = (joint: LineJoint): boolean => joint.kind === 'bulkhead-fitting' || joint.kind === 'tee';

/** A place the car file fixes; without a direction the line runs square through the panel, towards its end. */
function fixedPlace(world: LinesWorld, line: Line, joint: Wanted): { at: Vec; direction: Vec } | null {
  if (joint.atMm === undefined) return null;
  if (joint.faces !== undefined) return { at: joint.atMm, direction: directionOf(joint.faces) };
  const to = world.bay.ports.get(line.to)!.at;
  const from = world.bay.ports.get(line.from)!.at;
  return { at: joint.atMm, direction: unit([to[0] - from[0], to[1] - from[1], to[2] - from[2]]) };
}

/** Where a placed line goes through a solid. */
function crossedAt(
  placed: LineObstacles,
  id: string,
  solid: { distance(x: number, y: number, z: number): number },
): { at: Vec; holeRadiusMm: number }[] {
  const out: { at: Vec; holeRadiusMm: number }[] = [];
  for (const { path, radiusMm } of placed.bodiesOf(id)) {
    for (let i = 0; i + 2 < path.length; i += 3) {
      const at: Vec = [path[i]!, path[i + 1]!, path[i + 2]!];
      if (solid.distance(...at) > THROUGH_MM) continue;
      const last = out.at(-1);
      if (last === undefined || Math.hypot(last.at[0] - at[0], last.at[1] - at[1], last.at[2] - at[2]) > 4 * radiusMm) {
        out.push({ at, holeRadiusMm: radiusMm + FITTING_WEB_MM });
      }
    }
  }
  return out;
}

/** Path points stand 3 mm apart: one within this of a thin panel is in it. */
const THROUGH_MM = 2;
