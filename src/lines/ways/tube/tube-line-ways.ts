import { jointPoses } from '#bay';
import type { Line } from '#car';
import type { LineObstacles } from '#geometry';
import { type HoseRow, dutyNeeds } from '#standards';
import { chooseHoses } from '../../make-up/choose-hoses.ts';
import { type HeldBy, type HoseFinding, hoseFitness } from '../../make-up/hose-fitness.ts';
import { type LineSpan, lineSpans } from '../../make-up/line-spans.ts';
import type { Limit, Way } from '../../way.ts';
import { type LinesWorld, conditionsOf } from '../../world.ts';
import { clearance } from '../clearance.ts';
import { farReading } from '../far-reading.ts';
import { type FittedEnd, hosePieces } from '../hose-piece.ts';
import { type EndAnswer, type PlacedJoint, jointEnd, passageOf } from '../joints.ts';
import { judgedWay } from '../judged-way.ts';
import type { DraftPiece } from '../line-draft.ts';
import { refusedWay } from '../refused-way.ts';
import type { SpanEnd } from '../span.ts';
import { couplerMovement, reversedPiece } from './coupler.ts';
import { type EndChoice, endPairs, openEnds } from './end-pairs.ts';
import { type EndTee, endTee, teeEnd, teeJointText } from './end-tee.ts';
import type { LedThrough, TubeBench } from './hard-tube.ts';
import { coupledEnds, fittedTubeEnds, hosePortEnd, tubeJointEnd, tubePortEnd, withOthersNear } from './tube-ends.ts';
import { RUN_FULL, RUN_LIGHT, type RunEffort } from './run-search.ts';
import { type PieceSize, placedJoints, wantedJoints } from './tube-joints.ts';
import { tubeFitness } from './tube-fitness.ts';
import { tubePieces } from './tube-pieces.ts';
import { type TubeAsked, type TubeRule, tubeRule } from './tube-rule.ts';

/** The best few ways of a line with hard tube in it, unranked; never empty. */
export function tubeLineWays(world: LinesWorld, line: Line, placed: LineObstacles | null, count: number): Way[] {
  return new TubeLine({ world, line, placed, count }).ways();
}

/** How much is tried at one set of places. */
interface TubeEffort {
  /** Slack that the tube is planned with beyond its keep-offs, in turn [mm]: the field reads a little generous. */
  readonly marginsMm: readonly number[];
  /** Pairs of fittings tried at a tube's ends. */
  readonly pairs: number;
  /** Give up as soon as one leg has no way. */
  readonly onlyGood: boolean;
  readonly much: RunEffort;
}

const LIGHT: TubeEffort = { marginsMm: [4], pairs: 1, onlyGood: true, much: RUN_LIGHT };
const FULL: TubeEffort = { marginsMm: [3, 9], pairs: 5, onlyGood: false, much: RUN_FULL };
const PLACES_IN_FULL = 3;

/** What one stretch of the line is made of. */
type Made =
  | { readonly kind: 'hose'; readonly hose: HoseRow }
  | { readonly kind: 'tube'; readonly tube: TubeAsked; readonly rule: TubeRule };

/** Consecutive pieces worked out together: a tube with its couplers, or a hose between fittings. */
interface Section {
  readonly pieces: readonly DraftPiece[];
  readonly cost: number;
  readonly ok: boolean;
  /** Near rules hold for so much of the line at the section's start and end [mm]. */
  readonly nearMm: readonly [number, number];
}

class Refusal {
  readonly limit: Limit;
  readonly text: string;
  constructor(limit: Limit, text: string) {
    this.limit = limit;
    this.text = text;
  }
}

class TubeLine {
  private readonly bench: TubeBench;
  private readonly tee: EndTee | null;
  private readonly spans: readonly LineSpan[];
  private readonly made: readonly Made[];
  private readonly refusal: Refusal | null;

  constructor(bench: TubeBench) {
    this.bench = bench;
    this.tee = endTee(bench.world, bench.line);
    const line = this.tee === null ? bench.line : { ...bench.line, through: bench.line.through.slice(0, -1) };
    const { spans, findings } = lineSpans(line);
    this.spans = spans;
    const wrong = findings.find((f) => f.level === 'stop');
    const made = spans.map((span) => this.madeOf(span));
    const unmade = made.find((m): m is Refusal => m instanceof Refusal);
    this.refusal = wrong === undefined ? (unmade ?? wrongOrder(spans)) : new Refusal('mating', wrong.text);
    this.made = made.filter((m): m is Made => !(m instanceof Refusal));
  }

  ways(): Way[] {
    if (this.refusal !== null) return [this.refused(this.refusal)];
    const a = this.endAtPort(0, 'from');
    const b = this.endAtPort(this.spans.length - 1, 'to');
    for (const end of [a, b]) if ('missing' in end) return [this.refused(new Refusal('mating', end.missing))];
    if ('missing' in a || 'missing' in b) return [];
    const places = [
      ...placedJoints(
        this.bench,
        wantedJoints(this.spans, (n) => this.sizeOf(n)),
        a.end,
        b.end,
      ),
    ];
    const ways = this.waysAt(places);
    return ways.length > 0
      ? ways
      : [this.refused(new Refusal('reach', 'no place on the panel lets this line through'))];
  }

  private refused({ limit, text }: Refusal): Way {
    return refusedWay(this.bench.world, this.bench.line, [{ limit, text }]);
  }

  private madeOf({ piece }: LineSpan): Made | Refusal {
    const { world, line } = this.bench;
    if (piece.tube !== undefined) return { kind: 'tube', tube: piece.tube, rule: tubeRule(piece.tube, world.shelf) };
    const choices = chooseHoses(conditionsOf(line), world.shelf.hoses, piece.hose);
    const choice = choices.hoses[0] ?? choices.refused[0];
    return choice === undefined
      ? new Refusal('mating', choices.missing ?? 'no hose for this line in the catalogue')
      : { kind: 'hose', hose: choice.hose };
  }

  private sizeOf(n: number): PieceSize {
    const made = this.made[n]!;
    if (made.kind === 'hose') return { odMm: made.hose.odMm, dash: made.hose.dash };
    const { tube, rule } = made;
    return { odMm: tube.odMm, dash: rule.row?.dash, reachMm: COUPLER_ODS * tube.odMm + rule.clampMm + rule.radiusMm };
  }

  private endAtPort(n: number, which: 'from' | 'to'): EndAnswer {
    const made = this.made[n]!;
    const ref = this.bench.line[which];
    const answer =
      made.kind === 'hose' ? hosePortEnd(this.bench, ref, made.hose) : tubePortEnd(this.bench, ref, made.tube);
    if ('missing' in answer || which === 'from' || this.tee === null) return answer;
    return { end: teeEnd(answer.end, this.tee, this.bench.world) };
  }

  /**
   * Ways with the joints in the best of these places. Through a grommet a tube's bends hang on where it crosses: every place is
   * looked at lightly, the best in full. Between fittings the first place that gives enough will do.
   */
  private waysAt(places: readonly (readonly PlacedJoint[])[]): Way[] {
    const ways: Way[] = [];
    if (places.length > 1 && places.every((joints) => joints.some((j) => j.kind === 'grommet'))) {
      const looked = places.map((joints) => ({ joints, ways: this.waysThrough(joints, LIGHT) }));
      const good = looked
        .filter((l) => l.ways.some((way) => way.feasible))
        .sort((p, q) => leastCost(p.ways) - leastCost(q.ways));
      const best = good[0];
      if (best !== undefined) return [...this.waysThrough(best.joints, FULL), ...good.slice(1).flatMap((l) => l.ways)];
    }
    for (const joints of places.slice(0, PLACES_IN_FULL)) {
      ways.push(...this.waysThrough(joints, FULL));
      if (ways.filter((way) => way.feasible).length >= this.bench.count) break;
    }
    return ways;
  }

  /** Ways with the joints in these places: the first margin that gives a feasible one. */
  private waysThrough(joints: readonly PlacedJoint[], effort: TubeEffort): Way[] {
    let all: Way[] = [];
    for (const marginMm of effort.marginsMm) {
      const ways = this.waysWith(joints, marginMm, effort);
      if (ways.some((way) => way.feasible)) return ways;
      all = [...all, ...ways];
    }
    return all;
  }

  private waysWith(joints: readonly PlacedJoint[], marginMm: number, effort: TubeEffort): Way[] {
    const { world, line, placed, count } = this.bench;
    const fittings = joints.filter((j) => j.kind !== 'grommet');
    const grommets = joints.filter((j) => j.kind === 'grommet');
    const ends = this.endsAt(fittings);
    if (ends instanceof Refusal) return [this.refused(ends)];
    let chains: (readonly Section[])[] = [[]];
    for (let n = 0; n < this.spans.length; n++) {
      if (this.isCoupler(n)) continue;
      const sections = this.sections(n, ends, grommets, joints, marginMm, effort);
      if (sections instanceof Refusal) return [this.refused(sections)];
      chains = chains.flatMap((chain) => sections.map((section) => [...chain, section]));
      chains.sort((p, q) => costOf(p) - costOf(q));
      chains = chains.slice(0, count);
    }
    return chains.map((chain) => {
      const pieces = chain.flatMap((section) => section.pieces);
      const draft = { line, pieces, between: this.between(fittings), grommets, nearMm: this.nearOf(chain) };
      return judgedWay(world, draft, placed, this.findings(pieces));
    });
  }

  /** A hose between a tube and a port or fitting is the tube's coupler, worked out with it. */
  private isCoupler(n: number): boolean {
    const span = this.spans[n]!;
    return this.made[n]!.kind === 'hose' && (span.from.kind === 'hose-tube' || span.to.kind === 'hose-tube');
  }

  /** Both ends of every stretch that are fixed in place; null where hose meets tube. */
  private endsAt(fittings: readonly PlacedJoint[]): { a: SpanEnd | null; b: SpanEnd | null }[] | Refusal {
    let next = 0;
    const out: { a: SpanEnd | null; b: SpanEnd | null }[] = [];
    for (let n = 0; n < this.spans.length; n++) {
      const { from, to } = this.spans[n]!;
      const a =
        from.kind === 'hose-tube'
          ? null
          : from.kind === 'port'
            ? this.endAtPort(n, 'from')
            : this.endAtJoint(n, fittings[next - 1], 1);
      const b =
        to.kind === 'hose-tube'
          ? null
          : to.kind === 'port'
            ? this.endAtPort(n, 'to')
            : this.endAtJoint(n, fittings[next], -1);
      if (to.kind !== 'hose-tube' && to.kind !== 'port') next++;
      if (a !== null && 'missing' in a) return new Refusal('mating', a.missing);
      if (b !== null && 'missing' in b) return new Refusal('mating', b.missing);
      const [start, end] = [a?.end ?? null, b?.end ?? null];
      const both = start !== null && end !== null;
      out.push(both ? { a: withOthersNear(start, end), b: withOthersNear(end, start) } : { a: start, b: end });
    }
    return out;
  }

  private endAtJoint(n: number, joint: PlacedJoint | undefined, side: -1 | 1): EndAnswer {
    const made = this.made[n]!;
    if (joint === undefined) return { missing: 'no fitting to end this piece on' };
    if (joint.row === null) return { missing: `${joint.label}: no bulkhead fitting of this size in the catalogue` };
    const { world, line } = this.bench;
    if (made.kind === 'hose') return jointEnd(world, line, joint, made.hose, side);
    return tubeJointEnd(this.bench, joint, made.tube, side);
  }

  private sections(
    n: number,
    ends: readonly { a: SpanEnd | null; b: SpanEnd | null }[],
    grommets: readonly PlacedJoint[],
    joints: readonly PlacedJoint[],
    marginMm: number,
    effort: TubeEffort,
  ): Section[] | Refusal {
    const before = this.spans.slice(0, n).reduce((sum, span) => sum + span.passes.length, 0);
    const stops = grommets.slice(before, before + this.spans[n]!.passes.length);
    const made = this.made[n]!;
    if (made.kind === 'hose') return this.hoseSections(made.hose, ends[n]!.a!, ends[n]!.b!, stops, joints);
    return this.tubeSections(n, made, ends, stops, joints, marginMm, effort);
  }

  private hoseSections(
    hose: HoseRow,
    a: SpanEnd,
    b: SpanEnd,
    stops: readonly PlacedJoint[],
    joints: readonly PlacedJoint[],
  ): Section[] | Refusal {
    const { world, line, placed, count } = this.bench;
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
      })),
      clearOf: clearance,
      count,
      allowanceMm: [-5, 15],
      clampSpacingMm: dutyNeeds(line.duty).clampMm,
      extremes: jointPoses(world.bay.movers, { from: a.moverId, to: b.moverId, part: null })
        .slice(1)
        .filter((pose) => pose.from !== pose.to),
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

  private tubeSections(
    n: number,
    made: Made & { kind: 'tube' },
    ends: readonly { a: SpanEnd | null; b: SpanEnd | null }[],
    stops: readonly PlacedJoint[],
    joints: readonly PlacedJoint[],
    marginMm: number,
    effort: TubeEffort,
  ): Section[] | Refusal {
    const fixed = [ends[n]!.a, ends[n]!.b].filter((e) => e !== null);
    const movers = [...new Set(fixed.map((e) => e.moverId))];
    if (movers.length > 1)
      return new Refusal(
        'reach',
        `${fixed.map((e) => e.label).join(' and ')} move against each other: a hard tube between them would break; put a hose at one end`,
      );
    const seat = movers[0] ?? null;
    const a = this.endChoices(n, made, ends[n]!.a, ends[n - 1]?.a ?? null, n - 1, seat, true);
    const b = this.endChoices(n, made, ends[n]!.b, ends[n + 1]?.b ?? null, n + 1, seat, false);
    if (a instanceof Refusal) return a;
    if (b instanceof Refusal) return b;
    const passages = joints.map((joint) => passageOf(joint, made.tube.odMm));
    const through: LedThrough[] = stops.map(({ at, direction }) => ({ at, direction }));
    const open = (choices: readonly EndChoice[]) => openEnds(this.bench, choices, made.tube, made.rule, passages);
    let leastBad: Section[] = [];
    for (const [from, to] of endPairs(open(a), open(b)).slice(0, effort.pairs)) {
      const wish = {
        bench: this.bench,
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
      const sections = tubePieces(wish).map(
        ({ piece, keeps }): Section => ({
          pieces: [
            ...(from.coupler === null ? [] : [{ kind: 'hose' as const, piece: from.coupler }]),
            { kind: 'tube', piece },
            ...(to.coupler === null ? [] : [{ kind: 'hose' as const, piece: reversedPiece(to.coupler) }]),
          ],
          cost: (from.coupler?.cost ?? 0) + piece.cost + (to.coupler?.cost ?? 0),
          ok: keeps,
          nearMm: [from.end.nearMm, to.end.nearMm],
        }),
      );
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

  /** Fittings of the tube itself, or couplers from the port beyond the neighbouring hose. */
  private endChoices(
    n: number,
    made: Made & { kind: 'tube' },
    own: SpanEnd | null,
    beyond: SpanEnd | null,
    m: number,
    seat: string | null,
    first: boolean,
  ): EndChoice[] | Refusal {
    const { world, line } = this.bench;
    if (own !== null) {
      const fits = fittedTubeEnds(own, made.tube, made.rule, first);
      return fits.length > 0
        ? fits.map((end) => ({ end, coupler: null }))
        : new Refusal('reach', `no room for the tube's nut at ${own.label}`);
    }
    const hose = this.made[m];
    if (beyond === null || hose?.kind !== 'hose') return new Refusal('mating', `piece ${n + 1} ends on nothing`);
    const movement = couplerMovement(world, beyond.at, beyond.faces, beyond.moverId, seat);
    const label = `${line.id} joint ${first ? n : n + 1}`;
    const coupled = coupledEnds(this.bench, beyond, hose.hose, made.tube, made.rule, movement, label);
    if ('missing' in coupled) return new Refusal('mating', coupled.missing);
    return coupled.length > 0
      ? coupled
      : new Refusal('reach', `no room for a coupler of ${hose.hose.name} in line with ${beyond.label}`);
  }

  /** Fittings between pieces, null where a hose goes over a tube's bead; the tee on the port stands last. */
  private between(fittings: readonly PlacedJoint[]): (PlacedJoint | null)[] {
    let next = 0;
    const between = this.spans
      .slice(0, -1)
      .map((span) => (span.to.kind === 'hose-tube' ? null : (fittings[next++] ?? null)));
    return this.tee === null ? between : [...between, this.tee.joint];
  }

  private nearOf(chain: readonly Section[]): [number, number] {
    return [chain[0]!.nearMm[0], chain.at(-1)!.nearMm[1] + (this.tee?.joint.row?.lengthMm ?? 0)];
  }

  private findings(pieces: readonly DraftPiece[]): HoseFinding[] {
    const { line } = this.bench;
    const conditions = conditionsOf(line);
    const found = pieces.flatMap((d, n): HoseFinding[] => {
      const made = this.made[n]!;
      if (d.kind === 'tube') return made.kind === 'tube' ? tubeFitness(made.tube, made.rule, conditions) : [];
      return [...hoseFitness(d.piece.hose, conditions, [d.piece.a, d.piece.b].flatMap(heldBy))];
    });
    const last = pieces.at(-1);
    if (this.tee === null || last?.kind !== 'hose') return found;
    const text = teeJointText(line, this.tee, last.piece.hose, last.piece.b.tail.makeUp.insertMm);
    return [...found, { code: 'tee-on-port', level: 'note', text, source: 'common-practice', breaks: 'mating' }];
  }
}

function wrongOrder(spans: readonly LineSpan[]): Refusal | null {
  const loose = spans.some(
    (s) => s.piece.tube === undefined && s.from.kind === 'hose-tube' && s.to.kind === 'hose-tube',
  );
  return loose
    ? new Refusal(
        'mating',
        'a hose between two tubes has nothing to fix its place: name a fitting between, or make the tubes one',
      )
    : null;
}

/** What a coupler shows, roughly, in diameters: for a first guess at where a tube may bend. */
const COUPLER_ODS = 1.5;

const costOf = (chain: readonly Section[]): number =>
  chain.reduce((sum, section) => sum + section.cost + (section.ok ? 0 : NOT_OK_MM), 0);
const leastCost = (ways: readonly Way[]): number =>
  Math.min(...ways.filter((way) => way.feasible).map((way) => way.cost));
/** What does not keep its limits comes after all that does [mm]. */
const NOT_OK_MM = 1e5;
/** Straight of a hose beside its grommet, beyond its radius [mm]. */
const GROMMET_STRAIGHT_MM = 8;

function heldBy({ tail }: FittedEnd): HeldBy[] {
  const { makeUp } = tail;
  if (makeUp.fixing === 'tube') return [];
  const name = makeUp.parts.findLast((p) => p.kind === 'hose-end' || p.kind === 'clamp')?.name;
  return name === undefined ? [] : [{ name, fixing: makeUp.fixing }];
}
