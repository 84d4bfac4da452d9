import { rayModule } from './ray-module.ts';
import type { RayScene } from './ray-scene-layout.ts';
import { compiledModule, type WasmMemory } from './wasm-memory.ts';

/** The compiled search over one scene. */
export interface CompiledRays {
  /** The item met, or -1; `distance` and `what` then hold how far, the kind of leaf and the place in its array. */
  first(x: number, y: number, z: number, dx: number, dy: number, dz: number, mostMm: number): number;
  readonly distance: Float64Array;
  readonly what: Int32Array;
}

interface Exports {
  readonly first: CompiledRays['first'];
  lay(...at: number[]): void;
}

/** Bytes of the search's stack (as deep as the plain one's) and of what it puts out. */
const STACK_BYTES = 4096;
const OUT_BYTES = 64;
const LINE = 64;

const rays = compiledModule(rayModule);

/** One scene at a time lies in the search's memory, one memory a thread. */
let loaded: RayScene | null = null;
let search: CompiledRays | null = null;
let held: { readonly memory: WasmMemory; readonly exports: Exports; readonly bytes: number } | null = null;

/** The compiled search, with this scene in its memory; null where it cannot run. */
export function compiledRays(scene: RayScene): CompiledRays | null {
  if (scene === loaded) return search;
  search = load(scene);
  loaded = scene;
  return search;
}

function load(scene: RayScene): CompiledRays | null {
  const { nodes, triangles, triangleItems, rounds, roundItems, boxes, boxItems } = scene;
  const arrays = [nodes, triangles, triangleItems, rounds, roundItems, boxes, boxItems];
  let bytes = LINE;
  const at = [...arrays.map(({ byteLength }) => byteLength), STACK_BYTES, OUT_BYTES].map((length) => {
    const from = bytes;
    bytes += Math.ceil(length / LINE) * LINE;
    return from;
  });
  if (held === null || held.bytes < bytes) {
    // Twice what is wanted: the next scene is often this one and a little more.
    const memory = rays.memory(bytes * 2);
    if (memory === null) return null;
    held = { memory, exports: rays.instance(memory) as Exports, bytes: bytes * 2 };
  }
  const { memory, exports } = held;
  arrays.forEach((array, i) =>
    new Uint8Array(memory.buffer, at[i]!).set(new Uint8Array(array.buffer, array.byteOffset, array.byteLength)),
  );
  exports.lay(...at);
  const out = at.at(-1)!;
  return {
    first: exports.first,
    distance: new Float64Array(memory.buffer, out, 1),
    what: new Int32Array(memory.buffer, out + 8, 2),
  };
}
