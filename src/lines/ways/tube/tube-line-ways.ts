import type { Line } from '#car';
import type { LineObstacles } from '#geometry';
import { chooseHoses } from '../../make-up/choose-hoses.ts';
import { type HeldBy, type HoseFinding, hoseFitness } from '../../make-up/hose-fitness.ts';
import { type LineSpan, lineSpans } from '../../make-up/line-spans.ts';
import type { Way } from '../../way.ts';
import { type LinesWorld, conditionsOf } from '../../world.ts';
import type { FittedEnd } from '../hose-piece.ts';
import { type EndAnswer, type PlacedJoint, jointEnd } from '../joints.ts';
import { judgedWay } from '../judged-way.ts';
import type { DraftPiece } from '../line-draft.ts';
import { refusedWay } from '../refused-way.ts';
import { type EndTee, endTee, teeEnd, teeJointText } from './end-tee.ts';
import type { TubeBench } from './hard-tube.ts';
import { hosePortEnd, tubeJointEnd, tubePortEnd, withOthersNear } from './tube-ends.ts';
import {
  type FixedEnds,
  type Made,
  Refusal,
  type Section,
  type TubeEffort,
  hoseSections,
  tubeSections,
} from './line-sections.ts';
import { chainSections } from './tube-chain.ts';
import { RUN_FULL, RUN_LIGHT } from './run-search.ts';
import { type PieceSize, placedJoints, unfitTee, wantedJoints } from '../line-joints.ts';
import { tubeFitness } from './tube-fitness.ts';
import { tubeRule } from './tube-rule.ts';

/** The best few ways of a line with hard tube in it, unranked; never empty. */
export function tubeLineWays(world: LinesWorld, line: Line, placed: LineObstacles | null, count: number): Way[] {
  return new TubeLine({ world, line, placed, count }).ways();
}

/** A way of a line with hard tube that keeps every limit, by a light look at one place after another; null where that finds none. */
export function firstTubeWay(world: LinesWorld, line: Line, placed: LineObstacles | null): Way | null {
  return new TubeLine({ world, line, placed, count: 1 }).first();
}

const LIGHT: TubeEffort = { marginsMm: [4], pairs: 1, onlyGood: true, much: RUN_LIGHT };
const FULL: TubeEffort = { marginsMm: [3, 9], pairs: 5, onlyGood: false, much: RUN_FULL };
const PLACES_IN_FULL = 3;
/** Places that a first, light look goes through. */
const PLACES_AT_ONCE = 4;

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
    this.refusal = wrong === undefined ? (unmade ?? null) : new Refusal('mating', wrong.text);
    this.made = made.filter((m): m is Made => !(m instanceof Refusal));
  }

  first(): Way | null {
    const places = this.places();
    if (places instanceof Refusal) return null;
    for (const joints of places.slice(0, PLACES_AT_ONCE)) {
      const way = this.waysThrough(joints, LIGHT).find(({ feasible }) => feasible);
      if (way !== undefined) return way;
    }
    return null;
  }

  ways(): Way[] {
    const places = this.places();
    if (places instanceof Refusal) return [this.refused(places)];
    const ways = this.waysAt(places);
    return ways.length > 0
      ? ways
      : [this.refused(new Refusal('reach', 'no place on the panel lets this line through'))];
  }

  /** Where its joints could be, the likeliest first. */
  private places(): readonly (readonly PlacedJoint[])[] | Refusal {
    if (this.refusal !== null) return this.refusal;
    const a = this.endAtPort(0, 'from');
    const b = this.endAtPort(this.spans.length - 1, 'to');
    if ('missing' in a) return new Refusal('mating', a.missing);
    if ('missing' in b) return new Refusal('mating', b.missing);
    const wanted = wantedJoints(this.spans, (n) => this.sizeOf(n));
    const unfit = unfitTee(this.bench, wanted);
    if (unfit !== null) return new Refusal('mating', unfit);
    return [...placedJoints(this.bench, wanted, a.end, b.end)];
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
    return { end: teeEnd(answer.end, this.tee, this.bench.world, this.bench.line) };
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
      const last = this.lastOfChain(n);
      const sections = this.sections(n, last, ends, grommets, joints, marginMm, effort);
      if (sections instanceof Refusal) return [this.refused(sections)];
      chains = chains.flatMap((chain) => sections.map((section) => [...chain, section]));
      chains.sort((p, q) => costOf(p) - costOf(q));
      chains = chains.slice(0, count);
      n = last;
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

  /** The last tube of those that follow tube `n` with only a hose between. */
  private lastOfChain(n: number): number {
    const goesOn = this.spans[n]!.to.kind === 'hose-tube' && this.spans[n + 1]?.to.kind === 'hose-tube';
    return goesOn && this.made[n]!.kind === 'tube' ? this.lastOfChain(n + 2) : n;
  }

  /** Both ends of every stretch that are fixed in place; null where hose meets tube. */
  private endsAt(fittings: readonly PlacedJoint[]): FixedEnds[] | Refusal {
    let next = 0;
    const out: FixedEnds[] = [];
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
      out.push(
        both
          ? { a: withOthersNear(this.bench, start, end), b: withOthersNear(this.bench, end, start) }
          : { a: start, b: end },
      );
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
    last: number,
    ends: readonly FixedEnds[],
    grommets: readonly PlacedJoint[],
    joints: readonly PlacedJoint[],
    marginMm: number,
    effort: TubeEffort,
  ): Section[] | Refusal {
    const passes = (spans: readonly LineSpan[]): number => spans.reduce((sum, span) => sum + span.passes.length, 0);
    const stops = grommets.slice(passes(this.spans.slice(0, n)), passes(this.spans.slice(0, last + 1)));
    const made = this.made[n]!;
    if (made.kind === 'hose') return hoseSections(this.bench, made.hose, ends[n]!.a!, ends[n]!.b!, stops, joints);
    const ask = { bench: this.bench, made: this.made, n, ends, stops, joints, marginMm, effort };
    return last > n ? chainSections(ask, last) : tubeSections(ask);
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

/** What a coupler shows, roughly, in diameters: for a first guess at where a tube may bend. */
const COUPLER_ODS = 1.5;

const costOf = (chain: readonly Section[]): number =>
  chain.reduce((sum, section) => sum + section.cost + (section.ok ? 0 : NOT_OK_MM), 0);
const leastCost = (ways: readonly Way[]): number =>
  Math.min(...ways.filter((way) => way.feasible).map((way) => way.cost));
/** What does not keep its limits comes after all that does [mm]. */
const NOT_OK_MM = 1e5;
function heldBy({ tail }: FittedEnd): HeldBy[] {
  const { makeUp } = tail;
  if (makeUp.fixing === 'tube') return [];
  const name = makeUp.parts.findLast((p) => p.kind === 'hose-end' || p.kind === 'clamp')?.name;
  return name === undefined ? [] : [{ name, fixing: makeUp.fixing }];
}
