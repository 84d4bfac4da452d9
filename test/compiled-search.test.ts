import { expect, it } from 'vitest';
import { closestModuleBytes } from '../scripts/build-wasm.mjs';
import { closestModule } from '../src/geometry/closest-module.ts';

it('the compiled closest-point search is what wasm/closest.kernel.ts compiles to', async () => {
  const bytes = await closestModuleBytes();
  expect(Buffer.from(bytes).toString('base64')).toBe(closestModule);
});
