import type { MeshBvh } from './bvh-layout.ts';
import { newClosestInstance, type WasmMemory } from './wasm-memory.ts';

/** Slot of the closest triangle, or -1; its squared distance in out[0]. See `closestSlot`. */
export type ClosestSearch = (
  x: number,
  y: number,
  z: number,
  limitSquared: number,
  hint: number,
  out: Float64Array,
) => number;

interface Compiled {
  lay(nodes: number, blocks: number, corners: number, low: number, order: number): void;
  frame(x: number, y: number, z: number, halfSize: number, rounding: number): void;
  closest(x: number, y: number, z: number, limitSquared: number, hint: number): number;
  squared(): number;
}

const searches = new WeakMap<WasmMemory, ClosestSearch>();

/** The compiled search over a tree that lies in compiled memory, one for each thread; null for any other tree. */
export function compiledSearch(bvh: MeshBvh): ClosestSearch | null {
  const memory = bvh.wasmMemory;
  if (memory === null) return null;
  let search = searches.get(memory);
  if (search === undefined) {
    const exported = newClosestInstance(memory);
    if (exported === null) return null;
    const { lay, frame, closest, squared } = exported as Compiled;
    const low = bvh.cornersLow.length > 0 ? bvh.cornersLow.byteOffset : 0;
    lay(bvh.turned.byteOffset, bvh.blocks.byteOffset, bvh.corners.byteOffset, low, bvh.order.byteOffset);
    frame(...bvh.origin, bvh.halfSizeMm, bvh.roundingMm);
    search = (x, y, z, limitSquared, hint, out) => {
      const slot = closest(x, y, z, limitSquared, hint);
      out[0] = squared();
      return slot;
    };
    searches.set(memory, search);
  }
  return search;
}
