import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { describe, expect, it } from 'vitest';
import { box, capsule, type Vec } from '#geometry';
import { BrickShelf } from './bricks.ts';

const seed = 20261126;
const random = xoroshiro128plus(seed);
const within = (from: number, to: number): number => from + (to - from) * uniformFloat64(random);
const place = (): Vec => [within(0, 900), within(0, 700), within(0, 500)];

type Items = Parameters<BrickShelf['bricks']>[0];

/** Eight parts in a bay of 0.9 x 0.7 x 0.5 m: boxes and capsules, kept off by 6 to 100 mm. */
function bayOf(places: readonly Vec[]): Items {
  return places.map((at, i) => ({
    part: `p${i}`,
    moved: false,
    keepOffMm: [6, 25, 50, 100][i % 4]!,
    solid:
      i % 2 === 0
        ? box(at, [at[0] + 90, at[1] + 60, at[2] + 40])
        : capsule(at, [at[0] + 120, at[1] + 30, at[2] + 10], 22),
  }));
}

describe(`readings taken over after a change, seed ${seed}`, () => {
  it.each([1, 2, 3, 4])('are what they would be if read afresh, to the last bit (bay %d)', () => {
    const before = Array.from({ length: 8 }, place);
    const after = before.map((at, i) => (i === 3 ? place() : at));
    const old = new BrickShelf();
    const out = new Float64Array(4);
    const asked = Array.from({ length: 3000 }, place);
    const oldBricks = old.bricks(bayOf(before));
    for (const at of asked) {
      oldBricks.slackAndGradient(...at, out);
      oldBricks.coarse(...at);
    }
    const fresh = new BrickShelf().bricks(bayOf(after));
    const carried = new BrickShelf({ shelf: old, changed: new Set(['p3']) }).bricks(bayOf(after));
    const wanted = new Float64Array(4);
    let differs = 0;
    for (const at of [...asked, ...Array.from({ length: 500 }, place)]) {
      fresh.slackAndGradient(...at, wanted);
      carried.slackAndGradient(...at, out);
      expect([...out]).toEqual([...wanted]);
      fresh.closely(...at, wanted);
      carried.closely(...at, out);
      expect([...out]).toEqual([...wanted]);
      expect(carried.coarse(...at)).toBe(fresh.coarse(...at));
      oldBricks.slackAndGradient(...at, out);
      if (out[0] !== wanted[0]) differs++;
    }
    // The part did move: what was read before is not what is read now everywhere.
    expect(differs).toBeGreaterThan(10);
  });

  it('are not taken from a bay whose other parts are kept off by something else', () => {
    const places = Array.from({ length: 8 }, place);
    const old = new BrickShelf();
    const out = new Float64Array(4);
    old.bricks(bayOf(places)).slackAndGradient(450, 350, 250, out);
    const others = bayOf(places).map((item) => ({ ...item, keepOffMm: item.keepOffMm + 30 }));
    const carried = new BrickShelf({ shelf: old, changed: new Set(['p3']) }).bricks(others);
    const wanted = new Float64Array(4);
    new BrickShelf().bricks(others).slackAndGradient(450, 350, 250, wanted);
    carried.slackAndGradient(450, 350, 250, out);
    expect([...out]).toEqual([...wanted]);
  });
});
