import { type Bay, type BayPort, bay as bayOf } from '#bay';
import { type Car, type Line, keepOffs } from '#car';
import type { TriangleMesh } from '#geometry';
import { type Catalogue, catalogue } from '#standards';
import { BrickShelf } from './ways/bricks.ts';
import type { LineConditions } from './make-up/hose-fitness.ts';

/** All that the lines of one car are worked out from. */
export interface LinesWorld {
  readonly car: Car;
  readonly bay: Bay;
  /** By file name as the car names it [mm], in the file's own axes. */
  readonly meshes: ReadonlyMap<string, TriangleMesh>;
  readonly shelf: Catalogue;
  /** Ids that lie on the shelf already. */
  readonly box: ReadonlySet<string>;
  readonly lineKeepOffMm: number;
  /** Slack readings shared by lines that keep off the same things. */
  readonly bricks: BrickShelf;
}

/**
 * The car as solid space with everything its lines can be made of.
 *
 * @param before - the same car before a change: what was read in it away from what changed is not read again
 */
export function linesWorld(car: Car, meshes: ReadonlyMap<string, TriangleMesh>, before?: LinesWorld): LinesWorld {
  return {
    car,
    bay: bayOf(car, meshes),
    meshes,
    shelf: catalogue(car.catalogue),
    box: new Set((car.box ?? []).filter((row) => row.qty > 0).map((row) => row.id)),
    lineKeepOffMm: keepOffs(car).line,
    bricks: new BrickShelf(before && { shelf: before.bricks, changed: changedParts(before.car, car) }),
  };
}

/** Parts that do not stand, move or look the same in both cars, or that only one of them has. */
function changedParts(a: Car, b: Car): ReadonlySet<string> {
  const seen = (car: Car): Map<string, string> => {
    const movers = new Map(car.movers.map((mover) => [mover.id, mover]));
    const stands = (id: string, shape: unknown, movesWith = ''): [string, string] => [
      id,
      JSON.stringify([shape, movesWith, movers.get(movesWith)]),
    ];
    return new Map([
      ...car.parts.map((part) => stands(part.id, part.shapes, part.movesWith)),
      ...(car.panels ?? []).map((panel) => stands(panel.id, panel, panel.movesWith)),
    ]);
  };
  const [before, after] = [seen(a), seen(b)];
  return new Set([...before.keys(), ...after.keys()].filter((id) => before.get(id) !== after.get(id)));
}

export const conditionsOf = (line: Line): LineConditions => ({
  duty: line.duty,
  dash: line.dash,
  boreMm: line.dash === undefined ? line.boreMm : undefined,
  pressureBar: line.pressureBar,
  vacuumBar: line.vacuumBar,
  temperatureC: line.temperatureC,
  sleeve: line.sleeve,
});

export const portOf = (world: LinesWorld, ref: string): BayPort => {
  const port = world.bay.ports.get(ref);
  if (port === undefined) throw new LinesError(`no port "${ref}" in the car; its file was not checked`);
  return port;
};

/** The lines room was handed something that the car file's checks should have refused. */
export class LinesError extends Error {
  constructor(what: string) {
    super(`lines: ${what}`);
    this.name = 'LinesError';
  }
}
