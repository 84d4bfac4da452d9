import type { Car } from '#car';
import type { TriangleMesh } from '#geometry';
import { linesWorld, type LinesWorld } from '#lines';

/** A car with its meshes, as it is handed from thread to thread. */
export interface CarInput {
  /** Tells one reading of a car from another within a run of the program; the same for cars that differ in their lines only. */
  readonly space: string;
  readonly car: Car;
  readonly meshes: ReadonlyMap<string, TriangleMesh>;
}

let read = 0;

/** A car made ready to be handed on: meshes go into memory that all threads share, so that they are there once. */
export function carInput(car: Car, meshes: ReadonlyMap<string, TriangleMesh>): CarInput {
  const inShared = [...meshes].map(
    ([file, mesh]) =>
      [file, { positions: sharedPositions(mesh.positions), indices: sharedIndices(mesh.indices) }] as const,
  );
  return { space: String(++read), car, meshes: new Map(inShared) };
}

/** A mesh in memory that all threads share. */
export const sharedMesh = ({ positions, indices }: TriangleMesh): TriangleMesh => ({
  positions: sharedPositions(positions),
  indices: sharedIndices(indices),
});

/** The same car with its lines otherwise. */
export const withLines = (input: CarInput, car: Car): CarInput => ({ ...input, car });

function sharedPositions(values: TriangleMesh['positions']): TriangleMesh['positions'] {
  const memory = new SharedArrayBuffer(values.byteLength);
  const copy = values instanceof Float64Array ? new Float64Array(memory) : new Float32Array(memory);
  copy.set(values);
  return copy;
}

function sharedIndices(values: Uint32Array): Uint32Array {
  const copy = new Uint32Array(new SharedArrayBuffer(values.byteLength));
  copy.set(values);
  return copy;
}

const spaces = new Map<string, LinesWorld>();

/** The car as solid space, built once a thread. */
export function worldOf({ space, car, meshes }: CarInput): LinesWorld {
  const world = spaces.get(space) ?? linesWorld(car, meshes);
  spaces.set(space, world);
  return { ...world, car };
}
