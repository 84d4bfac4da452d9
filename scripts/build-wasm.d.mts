/** The bytes of a compiled module, made anew from wasm/SOURCE.kernel.ts. */
export function moduleBytes(source: 'closest' | 'rays'): Promise<Uint8Array>;
