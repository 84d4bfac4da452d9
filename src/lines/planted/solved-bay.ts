import { carFrom } from '#car';
import { type TriangleMesh, triangleMesh } from '#geometry';
import { catalogue } from '#standards';
import { lineWays } from '../line-ways.ts';
import type { Way } from '../way.ts';
import { type LinesWorld, linesWorld } from '../world.ts';
import type { PlantedBay } from './planted-bay.ts';
import type { ReadCar, ReadWay } from './read-way.ts';
import { wayFaults } from './way-faults.ts';

const shelf = catalogue();
const insertsMm = new Map(shelf.hoses.flatMap((hose) => shelf.hoseEndsFor(hose)).map((end) => [end.id, end.insertMm]));

/** The bay as the planner is handed it: its file read, its meshes checked. */
export function worldOfBay({ car, meshes }: Pick<PlantedBay, 'car' | 'meshes'>): LinesWorld {
  const reading = carFrom(JSON.parse(JSON.stringify(car)));
  if (!reading.ok) throw new Error(`${car.name}: ${JSON.stringify(reading.faults.slice(0, 2))}`);
  const checked = new Map<string, TriangleMesh>(
    [...meshes].map(([file, mesh]) => [file, triangleMesh(mesh.positions, mesh.indices)]),
  );
  return linesWorld(reading.car, checked);
}

/** The planner's best ways of a line of the bay. */
export function waysInBay(bay: PlantedBay, count = 1, line = 0): readonly Way[] {
  const world = worldOfBay(bay);
  return lineWays(world, world.car.lines[line]!, null, count);
}

/** What is wrong with a feasible way, by the checks of this folder, as it is written down. */
export const faultsInBay = ({ car, meshes }: Pick<PlantedBay, 'car' | 'meshes'>, way: Way): string[] =>
  wayFaults(
    car as unknown as ReadCar,
    meshes,
    JSON.parse(JSON.stringify(way)) as ReadWay,
    (id) => insertsMm.get(id) ?? 0,
  );
