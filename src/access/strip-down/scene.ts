import type { Line } from '#car';
import { type Body, type Bounds, grown, joined, unit, type Vec } from '#geometry';
import type { AccessWorld } from '../access-world.ts';
import { pullDirections } from '../removal/directions.ts';
import { type Mover, moverOf, sheetMover } from '../removal/mover.ts';
import { type Obstacle, obstacle, pieceLess, pieceOfBody, pieceOfSolid } from '../removal/obstacle.ts';
import { type PanelInWay, panelsInWay, SHEET_PITCH_MM } from './panels-in-way.ts';

/** What stands in the way, with whose it is. */
export interface SceneObstacle extends Obstacle {
  readonly owner: string;
  readonly kind: 'part' | 'panel' | 'line';
  /** Of a line: a hose, which gives way to a hand and swings aside once an end is loose, or what is rigid. */
  readonly isHose: boolean;
  /** Of a line: ends that let this stretch swing aside once undone. */
  readonly loosenedBy: readonly string[];
}

/** The car as things that come off and things in the way. */
export interface Scene {
  readonly world: AccessWorld;
  readonly panels: ReadonlyMap<string, PanelInWay>;
  readonly obstacles: readonly SceneObstacle[];
  /** Round all of it [mm]. */
  readonly bounds: Bounds;
  /** What is tried of every part, in order. */
  readonly common: readonly Vec[];
  /** By id: a part or panel as what comes out; undefined: nothing solid. */
  readonly moverFor: (id: string) => Mover | undefined;
}

/** An end of a line, as strip-down names it. */
export const endId = (line: string, which: 'from' | 'to'): string => `${line}@${which}`;

export function sceneOf(world: AccessWorld): Scene {
  const panels = new Map(panelsInWay(world).map((row) => [row.panel.id, row]));
  const obstacles = [
    ...partObstacles(world, panels),
    ...[...panels.values()].flatMap(({ panel, solids }) => named(panel.id, 'panel', solids.map(pieceOfSolid))),
    ...world.car.lines.flatMap((line) => lineObstacles(line, world.bodies.get(line.id) ?? [])),
  ];
  const kept = new Map<string, Mover | undefined>();
  const made = (id: string): Mover | undefined => {
    const panel = panels.get(id);
    if (panel === undefined) return moverOf(world.bay.partById.get(id)?.solids ?? []);
    return sheetMover(panel.places, SHEET_PITCH_MM, panel.solids.map(({ bounds }) => bounds).reduce(joined));
  };
  return {
    world,
    panels,
    obstacles,
    bounds: grown(obstacles.map(({ bounds }) => bounds).reduce(joined, { min: [0, 0, 0], max: [0, 0, 0] }), 1),
    common: pullDirections([]),
    moverFor: (id) => {
      if (!kept.has(id)) kept.set(id, made(id));
      return kept.get(id);
    },
  };
}

function named(id: string, kind: 'part' | 'panel', pieces: Parameters<typeof obstacle>[1]): readonly SceneObstacle[] {
  const found = obstacle(id, pieces);
  return found === undefined ? [] : [{ ...found, owner: id, kind, isHose: false, loosenedBy: [] }];
}

function partObstacles({ car, bay }: AccessWorld, panels: ReadonlyMap<string, PanelInWay>): readonly SceneObstacle[] {
  return car.parts.flatMap((part) => {
    const openings = [...panels.values()].flatMap(({ panel, opening }) =>
      panel.on === part.id && opening !== null ? [opening] : [],
    );
    return named(
      part.id,
      'part',
      (bay.partById.get(part.id)?.solids ?? []).map((solid) => pieceLess(pieceOfSolid(solid), openings)),
    );
  });
}

/** What divides a line: hose up to it swings aside once its end is loose. */
const isSoft = (body: Body): boolean => !['tube', 'bulkhead-fitting', 'grommet', 'tee'].includes(body.part);

/** A line in up to three stretches: what swings aside with its start, what is held, what swings aside with its end. */
function lineObstacles(line: Line, bodies: readonly Body[]): readonly SceneObstacle[] {
  const first = bodies.findIndex((body) => !isSoft(body));
  const last = bodies.findLastIndex((body) => !isSoft(body));
  const [from, to] = [endId(line.id, 'from'), endId(line.id, 'to')];
  const stretches: readonly (readonly [string, readonly Body[], readonly string[]])[] =
    first < 0
      ? [['', bodies, [from, to]]]
      : [
          [' from', bodies.slice(0, first), [from]],
          [' held', bodies.slice(first, last + 1), []],
          [' to', bodies.slice(last + 1), [to]],
        ];
  return stretches.flatMap(([word, list, loosenedBy]): SceneObstacle[] => {
    const found = obstacle(`${line.id}${word}`, list.map(pieceOfBody));
    return found === undefined
      ? []
      : [{ ...found, owner: line.id, kind: 'line', isHose: loosenedBy.length > 0, loosenedBy }];
  });
}

/** Ways to try of one part: its own first. */
export function ownDirections(scene: Scene, id: string): readonly Vec[] {
  const part = scene.world.bay.partById.get(id)?.part;
  const out = scene.panels.get(id)?.out;
  if (out !== undefined) return [out, [-out[0], -out[1], -out[2]]];
  if (part === undefined) return [];
  const away = (v: Vec): Vec => [-v[0], -v[1], -v[2]];
  return [
    ...(part.pulls ?? []),
    ...unique((part.fasteners ?? []).map(({ faces }) => unit(faces))),
    ...unique(part.ports.map(({ faces }) => away(unit(faces)))),
  ];
}

const unique = (list: readonly Vec[]): readonly Vec[] => [
  ...new Map(list.map((v) => [v.map((c) => c.toFixed(2)).join(), v])).values(),
];
