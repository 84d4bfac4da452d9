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
 * A block is 48 int16: of its up to four triangles corner a, b, c (nine times four), from the middle of the leaf's box in units of its
 * own; then three words: that middle x, y, z as float32, the unit, and first slot * 4 + number of triangles - 1 (six int16 of
 * padding between). That is only good enough to tell which triangles may be closest; the slots have them to the last bit: `corners`
 * nine floats a slot, `cornersLow` what float32 left of them (empty where nothing is left), `order` the triangle's index in the mesh.
 *
 * All arrays lie in one buffer, shared between threads where the engine has shared memory: posted to another thread, they are the
 * same memory there. `wasmMemory` is that memory for the compiled search, or null.
 */
export interface MeshBvh {
  readonly origin: Vec;
  /** Half the longest side of the bounds [mm]. */
  readonly halfSizeMm: number;
  readonly unitMm: number;
  /** The largest unit of a block [mm]. */
  readonly blockUnitMm: number;
  readonly middles: Int16Array;
  readonly halves: Uint16Array;
  readonly links: Int32Array;
  /** The nodes again, their boxes turned, for the compiled search alone: empty where it cannot run. See `fillTurned`. */
  readonly turned: Int32Array;
  readonly blocks: Int16Array;
  readonly blockFloats: Float32Array;
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
export const BLOCK_WORDS = 24;
export const BLOCK_MIDDLE_AT = 18;
export const BLOCK_UNIT_AT = 21;
export const BLOCK_SLOTS_AT = 22;
