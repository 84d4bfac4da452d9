import type { Vec } from './vec.ts';
import type { WasmMemory } from './wasm-memory.ts';

/**
 * A tree of boxes over a mesh, four children a node, and its triangles four a leaf, made for closest-point queries: small, because
 * a query waits for memory more than for sums.
 *
 * A node is one cache line: middle x of its four children, then y, z (twelve int16), half width x, y, z (twelve uint16), all in
 * `unitMm` from `origin`, let out so that nothing is lost; then four links. A link >= 0 is the word offset of a child node in
 * `links`; a link < 0 is a leaf: ~link = its block, or NO_CHILD.
 *
 * A block is the corners of its up to four triangles as float32: a x of each of the four, a y, a z, b x and so on (nine times four; the
 * last triangle again where there are fewer); then first slot * 4 + number of triangles - 1, and three words of padding. The slots have
 * the same once more, triangle by triangle: `corners` nine floats a slot, `cornersLow` what float32 left of them (empty where nothing is
 * left), `order` the triangle's index in the mesh.
 *
 * All arrays lie in one buffer, shared between threads where the engine has shared memory: posted to another thread, they are the
 * same memory there. `wasmMemory` is that memory for the compiled search, or null.
 */
export interface MeshBvh {
  readonly origin: Vec;
  /** Half the longest side of the bounds [mm]. */
  readonly halfSizeMm: number;
  readonly unitMm: number;
  /** No corner lies further than this from where float32 puts it [mm]. */
  readonly roundingMm: number;
  readonly middles: Int16Array;
  readonly halves: Uint16Array;
  readonly links: Int32Array;
  /** The nodes again, their boxes turned, for the compiled search alone: empty where it cannot run. See `fillTurned`. */
  readonly turned: Int32Array;
  readonly blocks: Float32Array;
  readonly blockSlots: Int32Array;
  readonly corners: Float32Array;
  readonly cornersLow: Float32Array;
  readonly order: Uint32Array;
  readonly wasmMemory: WasmMemory | null;
}

/** Words of 4 bytes a node; its shorts begin at twice the word offset. */
export const NODE_WORDS = 16;
export const HALVES_AT = 12;
export const LINKS_AT = 12;
export const NO_CHILD = -2147483648;
export const BLOCK_WORDS = 40;
export const BLOCK_SLOTS_AT = 36;
