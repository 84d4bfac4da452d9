import { type Vec, addScaled, scale } from '#geometry';
import type { HoseRow } from '#standards';
import { endMakeUps } from '../../make-up/end-make-ups.ts';
import type { EndMakeUp } from '../../make-up/end-make-up.ts';
import { farReading } from '../far-reading.ts';
import type { HosePiece } from '../hose-piece.ts';
import { passageOf } from '../joints.ts';
import type { DraftPiece } from '../line-draft.ts';
import type { SpanEnd } from '../span.ts';
import { type Slot, type SlotNeeds, slotSets } from './coupler-slots.ts';
import { couplerLength, couplerMovement, couplerPiece, fittedEnds, reversedPiece } from './coupler.ts';
import { type EndChoice, endPairs, openEnds } from './end-pairs.ts';
import { type LedThrough, type TubeEndAt, straightAt } from './hard-tube.ts';
import { Refusal, type Section, type TubeSectionAsk, endChoices } from './line-sections.ts';
import { tubeClear } from './tube-clear.ts';
import { THROUGH_STRAIGHT_MM, tubeCorners, tubePieces } from './tube-pieces.ts';
import type { TubeAsked, TubeRule } from './tube-rule.ts';

/** Ways over that are looked at for straights that a coupler can sit on. */
const GUIDES = 3;
/** Sets of places for the couplers that the tubes are worked out for. */
const SETS_TRIED = 4;
/** The field reads within this of the truth [mm]. */
const IN_IT_MM = -3;
const LOOK_STEP_MM = 6;

interface Tube {
  readonly tube: TubeAsked;
  readonly rule: TubeRule;
}

/** A hose between two tubes, before its place is known. */
interface Between {
  readonly hose: HoseRow;
  /** What the hose is pushed over, on the tube before it and the one after. */
  readonly onBefore: EndMakeUp;
  readonly onAfter: EndMakeUp;
  readonly label: string;
}

/**
 * Tubes that follow each other with a hose between every two, pieces `ask.n` to `last`. A hose between tubes is a straight coupler
 * in line with both, so it can sit on any straight that one tube all the way would have: such ways are looked for first, the
 * couplers put on their straights, as evenly as may be, and each tube worked out from coupler to coupler.
 */
export function chainSections(ask: TubeSectionAsk, last: number): Section[] | Refusal {
  const chain = new Chain(ask, last);
  return chain.refusal ?? chain.sections();
}

class Chain {
  readonly refusal: Refusal | null;
  private readonly ask: TubeSectionAsk;
  private readonly tubes: readonly Tube[];
  private readonly seats: readonly (string | null)[];
  private readonly between: readonly Between[];
  private readonly a: EndChoice[];
  private readonly b: EndChoice[];

  constructor(ask: TubeSectionAsk, last: number) {
    this.ask = ask;
    const { ends, n } = ask;
    const made = ask.made.slice(n, last + 1);
    this.tubes = made.filter((m) => m.kind === 'tube');
    // A tube with a hose at both its ends is clipped to the chassis; one screwed on at an end goes with that.
    this.seats = this.tubes.map((_, k) =>
      k === 0 ? (ends[n]!.a?.moverId ?? null) : k === this.tubes.length - 1 ? (ends[last]!.b?.moverId ?? null) : null,
    );
    const between = made
      .filter((m) => m.kind === 'hose')
      .map(({ hose }, k) => betweenTubes(ask, hose, [this.tubes[k]!, this.tubes[k + 1]!], n + 2 * k + 1));
    const a = endChoices(ask, ends[n]!.a, ends[n - 1]?.a ?? null, n - 1, this.seats[0]!);
    const b = endChoices({ ...ask, n: last }, ends[last]!.b, ends[last + 1]?.b ?? null, last + 1, this.seats.at(-1)!);
    this.refusal = [a, b, ...between].find((x) => x instanceof Refusal) ?? null;
    this.between = between.filter((x): x is Between => !(x instanceof Refusal));
    this.a = a instanceof Refusal ? [] : a;
    this.b = b instanceof Refusal ? [] : b;
  }

  sections(): Section[] | Refusal {
    const { effort } = this.ask;
    const [first, final] = [this.tubes[0]!, this.tubes.at(-1)!];
    const pairs = endPairs(this.open(this.a, first), this.open(this.b, final)).slice(0, effort.pairs);
    let leastBad: Section[] = [];
    for (const [from, to] of pairs) {
      const sections = this.joined(from, to);
      const good = sections.filter((s) => s.ok).sort((p, q) => p.cost - q.cost);
      if (good.length > 0) return good.slice(0, this.ask.bench.count);
      if (leastBad.length === 0) leastBad = sections.slice(0, 1);
    }
    return leastBad.length > 0
      ? leastBad
      : new Refusal(
          'reach',
          `no way for ${this.tubes.length} tubes with a hose between: nothing wide enough leads over`,
        );
  }

  private passages() {
    return this.ask.joints.map((joint) => passageOf(joint, this.widestMm()));
  }

  private widestMm(): number {
    return Math.max(...this.tubes.map(({ tube }) => tube.odMm));
  }

  private open(choices: readonly EndChoice[], { tube, rule }: Tube): readonly EndChoice[] {
    return openEnds(this.ask.bench, choices, tube, rule, this.passages());
  }

  /** Sections from one end choice to another: the couplers at each of the best few sets of places. */
  private joined(from: EndChoice, to: EndChoice): Section[] {
    const { bench, marginMm, effort } = this.ask;
    const through: LedThrough[] = this.ask.stops.map(({ at, direction }) => ({ at, direction }));
    const wish = {
      a: from.end,
      b: to.end,
      through,
      passages: this.passages(),
      marginMm,
      onlyGood: false,
      much: effort.much,
    };
    const guides = tubeCorners({
      ...wish,
      bench: { ...bench, count: GUIDES },
      seat: null,
      ...widest(this.tubes),
    });
    const needs = this.slotNeeds(from, to);
    const sets = guides.flatMap(({ corners }) => slotSets(corners, this.widestRadiusMm(), needs));
    sets.sort((p, q) => Number(p.forced) - Number(q.forced));
    const found: Section[] = [];
    for (const set of sets.slice(0, SETS_TRIED)) {
      const section = this.withCouplersAt(set.slots, from, to);
      if (section !== null) found.push(section);
    }
    return found;
  }

  private widestRadiusMm(): number {
    return Math.max(...this.tubes.map(({ rule }) => rule.radiusMm));
  }

  private slotNeeds(from: EndChoice, to: EndChoice): SlotNeeds {
    const [first, final] = [this.tubes[0]!, this.tubes.at(-1)!];
    return {
      startMm: straightAt(from.end, first.rule, true),
      endMm: straightAt(to.end, final.rule, false),
      couplers: this.between.map((between, k) => {
        const [before, after] = this.couplerEnds(k, [0, 0, 0], [1, 0, 0]);
        return {
          beforeMm: straightAt(before, this.tubes[k]!.rule, false),
          afterMm: straightAt(after, this.tubes[k + 1]!.rule, true),
          showingMm: (at, along) => this.showingMm(k, at, along),
          isClear: (at, along) => this.isClear(between, from, to, at, along, this.showingMm(k, at, along)),
        };
      }),
      apartMm: this.tubes.map(({ rule }) => rule.clampMm),
      stops: this.ask.stops.map((stop) => ({ at: stop.at, roomMm: THROUGH_STRAIGHT_MM })),
    };
  }

  /** The hose itself, stouter than the tubes, is clear of everything there. */
  private isClear({ hose }: Between, from: EndChoice, to: EndChoice, at: Vec, along: Vec, showingMm: number): boolean {
    const { bench } = this.ask;
    const far = farReading(bench.world, bench.line, bench.placed, this.passages());
    const near = ({ end }: EndChoice): SpanEnd => ({ ...end.from, nearMm: Math.max(end.from.nearMm, end.nearMm) });
    const clear = tubeClear({
      a: near(from),
      b: near(to),
      odMm: hose.odMm,
      minBendRadiusMm: hose.minBendRadiusMm,
      far,
    });
    for (let s = -showingMm / 2; s <= showingMm / 2; s += LOOK_STEP_MM)
      if (clear.slack(...addScaled(at, along, s)) < IN_IT_MM) return false;
    return true;
  }

  private showingMm(k: number, at: Vec, along: Vec): number {
    const { hose } = this.between[k]!;
    const movement = couplerMovement(this.ask.bench.world, at, along, this.seats[k]!, this.seats[k + 1]!);
    return couplerLength(hose, movement);
  }

  /** Both tubes' ends at a coupler whose middle is here. */
  private couplerEnds(k: number, at: Vec, along: Vec): [TubeEndAt, TubeEndAt] {
    const between = this.between[k]!;
    const half = this.showingMm(k, at, along) / 2;
    return [
      tubeEndAt(between, between.onBefore, this.tubes[k]!, addScaled(at, along, -half), scale(along, -1)),
      tubeEndAt(between, between.onAfter, this.tubes[k + 1]!, addScaled(at, along, half), along),
    ];
  }

  private coupler(k: number, { at, along }: Slot): HosePiece {
    const { hose, onBefore, onAfter, label } = this.between[k]!;
    const movement = couplerMovement(this.ask.bench.world, at, along, this.seats[k]!, this.seats[k + 1]!);
    const showingMm = couplerLength(hose, movement);
    const start = freeEnd(label, addScaled(at, along, -showingMm / 2), along, onBefore);
    const from = fittedEnds(start, hose.odMm, showingMm / 2)[0]!;
    return couplerPiece(hose, from, onAfter, nextLabel(label), showingMm, movement);
  }

  /** Every tube worked out from coupler to coupler; null where one cannot be drawn at all. */
  private withCouplersAt(slots: readonly Slot[], from: EndChoice, to: EndChoice): Section | null {
    const { bench, marginMm, effort } = this.ask;
    const pieces: DraftPiece[] = from.coupler === null ? [] : [{ kind: 'hose', piece: from.coupler }];
    let cost = from.coupler?.cost ?? 0;
    let ok = true;
    for (const [k, { tube, rule }] of this.tubes.entries()) {
      const before = slots[k - 1];
      const after = slots[k];
      const a = before === undefined ? from.end : this.couplerEnds(k - 1, before.at, before.along)[1];
      const b = after === undefined ? to.end : this.couplerEnds(k, after.at, after.along)[0];
      const through = this.ask.stops
        .filter((_, i) => (before?.stopsBefore ?? 0) <= i && i < (after?.stopsBefore ?? this.ask.stops.length))
        .map(({ at, direction }) => ({ at, direction }));
      const best = tubePieces({
        bench: { ...bench, count: 1 },
        tube,
        rule,
        a,
        b,
        through,
        seat: this.seats[k]!,
        passages: this.passages(),
        marginMm,
        onlyGood: effort.onlyGood,
        much: effort.much,
      })[0];
      if (best === undefined) return null;
      pieces.push({ kind: 'tube', piece: best.piece });
      cost += best.piece.cost;
      ok &&= best.keeps;
      if (after === undefined) continue;
      const coupler = this.coupler(k, after);
      pieces.push({ kind: 'hose', piece: coupler });
      cost += coupler.cost;
    }
    if (to.coupler !== null) {
      pieces.push({ kind: 'hose', piece: reversedPiece(to.coupler) });
      cost += to.coupler.cost;
    }
    return { pieces, cost, ok, nearMm: [from.end.nearMm, to.end.nearMm] };
  }
}

/** One tube that is as stout and as stiff as any of them: where it goes they all can. */
function widest(tubes: readonly Tube[]): Tube {
  const most = (of: (t: Tube) => number): number => Math.max(...tubes.map(of));
  const { tube, rule } = tubes[0]!;
  return {
    tube: { ...tube, odMm: most((t) => t.tube.odMm), bendRadiusMm: most((t) => t.rule.radiusMm) },
    rule: {
      ...rule,
      radiusMm: most((t) => t.rule.radiusMm),
      betweenMm: most((t) => t.rule.betweenMm),
      clampMm: most((t) => t.rule.clampMm),
      mostBendDeg: Math.min(...tubes.map((t) => t.rule.mostBendDeg)),
    },
  };
}

/** A hose's make-ups on the beads of both tubes; piece `n` of the line, counted from 0. */
function betweenTubes(
  { bench }: TubeSectionAsk,
  hose: HoseRow,
  tubes: readonly [Tube, Tube],
  n: number,
): Between | Refusal {
  const label = `${bench.line.id} joint ${n}`;
  const onTube = tubes.map(({ tube }, side) => {
    const made = endMakeUps({ end: { type: 'bead', odMm: tube.odMm } }, hose, bench.world.shelf, {
      box: bench.world.box,
      duty: bench.line.duty,
      allowElbowAdapters: false,
    });
    if ('missing' in made) return new Refusal('mating', `${side === 0 ? label : nextLabel(label)}: ${made.missing}`);
    return made.makeUps.find((m) => m.angleDeg === 0)!;
  });
  const [onBefore, onAfter] = onTube as [EndMakeUp | Refusal, EndMakeUp | Refusal];
  if (onBefore instanceof Refusal) return onBefore;
  if (onAfter instanceof Refusal) return onAfter;
  return { hose, onBefore, onAfter, label };
}

/** A hose between tubes has a joint at each of its ends, numbered on. */
const nextLabel = (label: string): string => label.replace(/\d+$/u, (n) => String(Number(n) + 1));

const freeEnd = (label: string, at: Vec, faces: Vec, makeUp: EndMakeUp): SpanEnd => ({
  label,
  at,
  faces,
  partId: null,
  moverId: null,
  makeUps: [makeUp],
  nearItems: [],
  nearMm: 0,
});

function tubeEndAt({ hose, label }: Between, on: EndMakeUp, { tube }: Tube, at: Vec, along: Vec): TubeEndAt {
  return {
    from: freeEnd(label, at, along, on),
    fit: null,
    pose: { at, along },
    insertMm: 0,
    over: { lengthMm: on.insertMm, odMm: hose.odMm, row: hose.id },
    nearMm: 0,
    prep: `bead rolled on the ${tube.odMm} mm end; the hose goes ${on.insertMm.toFixed(0)} mm over it (${label})`,
    cost: 0,
  };
}
