import { closestModule } from './closest-module.ts';

/** Memory that a compiled module works in. */
export interface WasmMemory {
  readonly buffer: ArrayBufferLike;
}

/**
 * The little of WebAssembly that is used here. The language's library has no types for it, but every engine has it; a module of 4 kB
 * compiles at once and touches nothing outside its memory, so that a core room stays values in, values out.
 */
interface Engine {
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (module: object, imports: object) => { readonly exports: unknown };
  readonly Memory: new (size: { initial: number; maximum: number; shared: boolean }) => WasmMemory;
  validate(bytes: Uint8Array): boolean;
}
const engine = (globalThis as { WebAssembly?: Engine }).WebAssembly;

const PAGE = 65536;

/** A compiled search: its module is compiled on first use. */
export interface CompiledModule {
  /** What it exports, over this memory; null where the engine lacks it, or vectors, or shared memory. */
  instance(memory: WasmMemory): unknown;
  /** Memory of at least so many bytes for it; null where it cannot run. */
  memory(bytes: number): WasmMemory | null;
  canRun(): boolean;
}

/** @param text - the module in base 64 */
export function compiledModule(text: string): CompiledModule {
  let compiled: object | null | undefined;
  const module = (): object | null => {
    if (compiled === undefined) {
      const able = engine !== undefined && typeof SharedArrayBuffer !== 'undefined';
      const bytes = able ? bytesOf(text) : new Uint8Array();
      compiled = able && engine.validate(bytes) ? new engine.Module(bytes) : null;
    }
    return compiled;
  };
  return {
    canRun: () => module() !== null,
    memory: (bytes) => {
      if (module() === null) return null;
      const pages = Math.ceil(bytes / PAGE);
      return new engine!.Memory({ initial: pages, maximum: pages, shared: true });
    },
    instance: (memory) => {
      const code = module();
      return code === null ? null : new engine!.Instance(code, { env: { memory } }).exports;
    },
  };
}

const closest = compiledModule(closestModule);

/** Whether compiled closest-point searches run here. */
export const canCompile = (): boolean => closest.canRun();

/** Memory of at least so many bytes for the closest-point search; null where that cannot run. */
export const newWasmMemory = (bytes: number): WasmMemory | null => closest.memory(bytes);

/** What the closest-point search exports, over this memory; null where that cannot run. */
export const newClosestInstance = (memory: WasmMemory): unknown => closest.instance(memory);

const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** Base 64, four digits to three bytes. */
function bytesOf(text: string): Uint8Array {
  const digits = text.replace(/=+$/, '');
  const bytes = new Uint8Array(Math.floor((digits.length * 3) / 4));
  let held = 0;
  let bits = 0;
  let n = 0;
  for (const digit of digits) {
    held = (held << 6) | DIGITS.indexOf(digit);
    bits += 6;
    if (bits >= 8) {
      bits -= 8;
      bytes[n++] = (held >> bits) & 255;
      held &= (1 << bits) - 1;
    }
  }
  return bytes;
}
