import type { Car } from '#car';
import type { TriangleMesh } from '#geometry';
import { linesWorld, type LinesWorld } from '#lines';

/** A car with its meshes, as it is handed from thread to thread. */
export interface CarInput {
  /** Tells one reading of a car from another within a run of the program. */
  readonly key: string;
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
  return { key: String(++read), car, meshes: new Map(inShared) };
}

/** A mesh in memory that all threads share. */
export const sharedMesh = ({ positions, indices }: TriangleMesh): TriangleMesh => ({
  positions: sharedPositions(positions),
  indices: sharedIndices(indices),
});

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

const worlds = new Map<string, LinesWorld>();

/** The car as solid space, built once a thread. */
export function worldOf(input: CarInput): LinesWorld {
  const world = worlds.get(input.key) ?? linesWorld(input.car, input.meshes);
  worlds.set(input.key, world);
  return world;
}
