import { expect, it } from 'vitest';
import { moduleBytes } from '../scripts/build-wasm.mjs';
import { closestModule } from '../src/geometry/closest-module.ts';
import { rayModule } from '../src/geometry/ray-module.ts';

it.each([
  ['closest', closestModule],
  ['rays', rayModule],
] as const)('the compiled search "%s" is what its kernel under wasm/ compiles to', async (source, text) => {
  const bytes = await moduleBytes(source);
  expect(Buffer.from(bytes).toString('base64')).toBe(text);
});
