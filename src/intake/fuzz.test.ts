import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type MeshKind, readMesh } from './read-mesh.ts';
import { glbOf, objText, plyBinary, plyText, stlOf, stlText, tetraGlbJson } from './test-files.ts';
import { pipeMesh } from './test-shapes.ts';

const SEED = 4711;
const RUNS = 250;
/** The files here are a few kilobytes; a reader that asks for more than this at once has believed a count in the file. */
const MOST_BYTES = 4 * 1024 * 1024;

const PIPE = {
  positions: Float32Array.from(pipeMesh(20, 14, 60, 10, 2).positions),
  indices: pipeMesh(20, 14, 60, 10, 2).indices,
};
const text = (words: string): Uint8Array => new TextEncoder().encode(words);
const FILES: readonly (readonly [name: string, kind: MeshKind, bytes: Uint8Array])[] = [
  ['binary STL', 'stl', stlOf(PIPE)],
  ['ASCII STL', 'stl', text(stlText(PIPE))],
  ['ASCII PLY', 'ply', text(plyText(PIPE))],
  ['little-endian PLY', 'ply', plyBinary(PIPE, true)],
  ['big-endian PLY', 'ply', plyBinary(PIPE, false)],
  ['OBJ', 'obj', text(objText(PIPE))],
  ['GLB', 'glb', glbOf(tetraGlbJson(PIPE), PIPE)],
];

/** One damage: where (as a share of the length) and what. The places lean to the front, where the counts stand. */
const damage = fc.record({
  at: fc.oneof(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 0.1, noNaN: true })),
  what: fc.oneof(
    fc.record({ byte: fc.integer({ min: 0, max: 255 }) }),
    fc.record({ word: fc.constantFrom(0, 1, 0x7fffffff, 0x80000000, 0xffffffff, 0x7f800000, 0x7fc00000, 0x7f7fffff) }),
    fc.record({
      words: fc.constantFrom(
        'nan',
        '-1',
        '1e999',
        '999999999999',
        ' ',
        '\n',
        '[',
        '"',
        '\\\n',
        'f 1 2 3\n',
        'element face 4294967295\n',
      ),
    }),
    fc.record({ cut: fc.boolean() }),
    fc.record({ again: fc.integer({ min: 1, max: 200 }) }),
  ),
});

function damaged(bytes: Uint8Array, hits: readonly { at: number; what: object }[]): Uint8Array {
  let out = bytes.slice();
  for (const { at, what } of hits) {
    const place = Math.min(Math.floor(at * out.length), Math.max(0, out.length - 4));
    if ('byte' in what && out.length > 0) out[place] = what.byte as number;
    else if ('word' in what && out.length >= 4) new DataView(out.buffer).setUint32(place, what.word as number, true);
    else if ('words' in what)
      out = Uint8Array.from([...out.subarray(0, place), ...text(what.words as string), ...out.subarray(place)]);
    else if ('cut' in what)
      out =
        what.cut === true
          ? out.slice(0, place)
          : Uint8Array.from([...out.subarray(0, place), ...out.subarray(place + 1)]);
    else if ('again' in what)
      out = Uint8Array.from([...out.subarray(0, place + (what.again as number)), ...out.subarray(place)]);
  }
  return out;
}

/** While these tests run, a typed array larger than `MOST_BYTES` throws, which no reader catches. */
const REAL = { Float64Array, Uint32Array, Uint8Array, Float32Array };
function guarded<T extends typeof Float64Array | typeof Uint32Array | typeof Uint8Array | typeof Float32Array>(
  real: T,
): T {
  return new Proxy(real, {
    construct(target, args: unknown[], asked) {
      const bytes = typeof args[0] === 'number' ? args[0] * target.BYTES_PER_ELEMENT : 0;
      if (bytes > MOST_BYTES) throw new RangeError(`${bytes} bytes asked for`);
      return Reflect.construct(target, args, asked) as object;
    },
  });
}

describe('readers of damaged files', () => {
  beforeAll(() => {
    for (const [name, real] of Object.entries(REAL)) Object.assign(globalThis, { [name]: guarded(real) });
  });
  afterAll(() => {
    Object.assign(globalThis, REAL);
  });

  it('the guard on allocations bites', () => {
    expect(() => new Uint32Array(2 ** 21)).toThrow('bytes asked for');
  });

  it.each(FILES)(`%s: a mesh that holds together or one line, seed ${SEED}`, async (_, kind, bytes) => {
    expect(await readMesh(bytes, kind, { unit: 'mm' })).toMatchObject({ ok: true, notes: { closed: true } });
    await fc.assert(
      fc.asyncProperty(fc.array(damage, { minLength: 1, maxLength: 4 }), async (hits) => {
        const reading = await readMesh(damaged(bytes, hits), kind, { unit: 'mm' });
        if (!reading.ok) {
          expect(reading.fault).toMatch(/^[^\n]{10,400}; allowed: [^\n]+$/);
          return;
        }
        const { positions, indices } = reading.mesh;
        expect(positions.every(Number.isFinite)).toBe(true);
        expect(indices.length % 3).toBe(0);
        expect(indices.every((i) => i < positions.length / 3)).toBe(true);
      }),
      { seed: SEED, numRuns: RUNS },
    );
  });
});
