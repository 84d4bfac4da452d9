/** The bytes of the compiled closest-point search, made anew from wasm/closest.kernel.ts. */
export function closestModuleBytes(): Promise<Uint8Array>;
