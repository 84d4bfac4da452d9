import { box, cylinder, shifted, type Solid } from '#geometry';
import { describe, expect, it } from 'vitest';
import { seededSolid } from '../../../test/geometry/seeded-bodies.ts';
import { chance } from '../../../test/geometry/seeded-meshes.ts';
import { type ExchangeAsk, exchangeFactors } from './exchange-factors.ts';
import { partPatch } from './part-patch.ts';
import { exchangeAgain, tracedExchange } from './traced-exchange.ts';

/** Thirty solids about a bay's size, one patch each. */
function seededBay(seed: number): readonly Solid[] {
  const draw = chance(700 + seed);
  return Array.from({ length: 30 }, () =>
    seededSolid(Math.floor(draw(0, 5)), draw, [draw(-600, 600), draw(-400, 400), draw(-300, 300)]),
  );
}

function askOf(solids: readonly Solid[], names = solids.map((_, i) => `part ${i}`)): ExchangeAsk {
  const surfaces = solids.map((solid, i) => ({
    id: names[i]!,
    kind: 'part' as const,
    solids: [solid],
    emissivity: 0.1 + 0.1 * (Number(names[i]!.split(' ')[1]) % 9),
  }));
  const patches = surfaces.map(({ solids: own, emissivity }, i) => partPatch(i, emissivity, own));
  return { surfaces, patches, raysPerPatch: 128, seed: 9 };
}

const names = Array.from({ length: 30 }, (_, i) => `part ${i}`);

describe('exchange factors after a change', () => {
  const seeds = [1, 2, 3, 4];

  it.each(seeds)('of one moved part are those of tracing anew, to the last bit (seed %i)', (seed) => {
    const solids = seededBay(seed);
    const draw = chance(seed);
    const which = Math.floor(draw(0, solids.length));
    const by = shifted([draw(-80, 80), draw(-80, 80), draw(-80, 80)]);
    const before = tracedExchange(askOf(solids));
    expect(before.exchange).toEqual(exchangeFactors(askOf(solids)));
    // Everything made anew, as after an edit; one part elsewhere.
    const moved = seededBay(seed).map((solid, i) => (i === which ? solid.moved(by) : solid));
    const again = exchangeAgain(before, askOf(moved));
    expect(again.exchange).toEqual(exchangeFactors(askOf(moved)));
    expect(again.exchange.share).not.toEqual(before.exchange.share);
    expect(again.raysTraced).toBeLessThan(0.4 * again.exchange.raysShot);
    // And back: what is kept of the rays holds for a second change too.
    const back = exchangeAgain(again, askOf(solids));
    expect(back.exchange).toEqual(before.exchange);
    expect(back.raysTraced).toBeLessThan(0.4 * again.exchange.raysShot);
  });

  it.each(seeds)('of a part that comes or goes are those of tracing anew (seed %i)', (seed) => {
    const solids = seededBay(seed);
    const before = tracedExchange(askOf(solids));
    const place = seed * 3;
    const gone = askOf(solids.toSpliced(place, 1), names.toSpliced(place, 1));
    const without = exchangeAgain(before, gone);
    expect(without.exchange).toEqual(exchangeFactors(gone));
    const shield = box([-100, 0, -100], [100, 2, 100]);
    const come = askOf([...solids.toSpliced(place, 1), shield], [...names.toSpliced(place, 1), 'shield 4']);
    const shielded = exchangeAgain(without, come);
    expect(shielded.exchange).toEqual(exchangeFactors(come));
    expect(without.raysTraced + shielded.raysTraced).toBeLessThan(0.6 * before.exchange.raysShot);
  });

  it('of another finish are those of tracing anew', () => {
    const before = tracedExchange(askOf(seededBay(1)));
    const ask = askOf(seededBay(1));
    const painted = { ...ask, surfaces: ask.surfaces.map((s, i) => (i === 3 ? { ...s, emissivity: 0.95 } : s)) };
    expect(exchangeAgain(before, painted).exchange).toEqual(exchangeFactors(painted));
  });

  it('trace nothing where nothing has changed', () => {
    const before = tracedExchange(askOf(seededBay(2)));
    expect(exchangeAgain(before, askOf(seededBay(2))).raysTraced).toBe(0);
  });

  it('of some of the patches hang on their places, not on which others are asked for beside them', () => {
    const [body] = seededBay(1);
    const surfaces = [{ id: 'part 0', kind: 'part' as const, solids: [body!], emissivity: 0.5 }];
    const all = Array.from({ length: 6 }, () => partPatch(0, 0.5, [body!]));
    const asked = (at: readonly number[]): ExchangeAsk => ({
      surfaces,
      patches: at.map((p) => all[p]!),
      places: Int32Array.from(at),
      raysPerPatch: 64,
      seed: 9,
    });
    const before = tracedExchange(asked([0, 2, 4, 5]));
    const again = exchangeAgain(before, asked([0, 1, 2, 4, 5]));
    expect(again.exchange).toEqual(exchangeFactors(asked([0, 1, 2, 4, 5])));
    // Only the one that came is new.
    expect(again.raysTraced).toBe(again.exchange.raysShot / 5);
  });

  it('trace all where surfaces stand in another order, other rays are asked, or a part has left the room', () => {
    const solids = seededBay(3);
    const before = tracedExchange(askOf(solids));
    const turned = askOf(solids.toReversed(), names.toReversed());
    const far = askOf(solids.map((solid, i) => (i === 0 ? cylinder([9000, 0, 0], [9000, 0, 50], 20) : solid)));
    for (const ask of [turned, { ...askOf(solids), raysPerPatch: 64 }, { ...askOf(solids), seed: 2 }, far]) {
      const again = exchangeAgain(before, ask);
      expect(again.raysTraced).toBe(again.exchange.raysShot);
      expect(again.exchange).toEqual(exchangeFactors(ask));
    }
  });
});
