import { type NutRoom, toolWords } from '#access';
import type { BookInput, OffNut } from '#book';
import { findLine } from '#car';
import type { FlowAnswer } from '#flow';
import type { LinesWorld, Way } from '#lines';
import { compareDecided } from './compare-decided.ts';
import { flowOf } from './flow-of.ts';
import { panelsOf } from './panels-of.ts';
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
