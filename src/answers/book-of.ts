import { type NutRoom, toolWords } from '#access';
import type { BookInput, OffNut, RuleClause, RulePackSheet } from '#book';
import { findLine } from '#car';
import type { FlowAnswer } from '#flow';
import type { LinesWorld, Way } from '#lines';
import { compareDecided } from './compare-decided.ts';
import { flowOf } from './flow-of.ts';
import type { RulesAnswer, RuleVerdict } from '#rules';
import { panelsOf } from './panels-of.ts';
import { rulesOf } from './rules-of.ts';
import { toolRoomOf } from './tool-room-of.ts';
import { type Standing, standing, standingWithFlow } from './standing.ts';

/** What may be handed over where it is known already. */
export interface BookKnown {
  /** The least bad ways of lines that found none. */
  readonly tried?: ReadonlyMap<string, Way>;
  readonly standing?: Standing;
  readonly flow?: FlowAnswer;
  /** The car as it was, with its ways: what the change costs is worked out. */
  readonly before?: { readonly name: string; readonly world: LinesWorld };
}

/** All that the book is made of, of a car with its ways taken; nothing is planned for it. */
export function bookOf(world: LinesWorld, known: BookKnown = {}): BookInput {
  const { car } = world;
  const stands = known.standing ?? standing(world, known.tried);
  const flow = known.flow ?? flowOf(world, []);
  const whole = standingWithFlow(car, stands, flow);
  return {
    car,
    shelf: world.shelf,
    meshes: world.meshes,
    lines: whole.lines.map(({ line, way, tried }) => ({
      line: findLine(car, line)!,
      way: way ?? tried,
      isTaken: way !== null,
    })),
    snags: whole.snags,
    order: whole.order,
    flow,
    panels: panelsOf(world),
    rulePacks: rulePacksOf(rulesOf(world, [])),
    nuts: toolRoomOf(world, []).nuts.flatMap(nutOf),
    ...(known.before === undefined
      ? {}
      : {
          against: { name: known.before.name, comparison: compareDecided(known.before.world, world) },
        }),
  };
}

const nutOf = (room: NutRoom): OffNut[] =>
  room.verdict === 'yes'
    ? []
    : [
        {
          id: room.nut.id,
          verdict: room.verdict,
          tool: toolWords(room),
          freeDeg: room.freeDeg,
          needDeg: room.needDeg,
          why: room.why,
          ...(room.nut.line === undefined ? {} : { line: room.nut.line }),
        },
      ];

const VERDICTS: Readonly<Record<RuleVerdict, RuleClause['verdict']>> = {
  'meets the entered rule': 'meets',
  'does not meet': 'does not meet',
  'not measured: look': 'look',
};

/** Rule packs as their sheets show them; what does not meet stands first among the evidence. */
function rulePacksOf({ packs, conflicts }: RulesAnswer): RulePackSheet[] {
  return packs.map((pack) => ({
    id: pack.id,
    name: pack.name,
    year: pack.year,
    conflicts: conflicts.filter(({ a, b }) => a.pack === pack.id || b.pack === pack.id).map(({ text }) => text),
    clauses: pack.clauses.map((clause) => ({
      clause: clause.clause,
      text: clause.text,
      verdict: VERDICTS[clause.verdict],
      evidence: clause.evidence
        .toSorted((p, q) => WORST_FIRST.indexOf(p.verdict) - WORST_FIRST.indexOf(q.verdict))
        .map(({ text }) => text),
      wantsPhoto: clause.isPhotoWanted,
      lines: [...new Set(clause.evidence.flatMap(({ line }) => line ?? []))],
    })),
  }));
}

const WORST_FIRST: readonly RuleVerdict[] = ['does not meet', 'not measured: look', 'meets the entered rule'];
