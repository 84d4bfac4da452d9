import { describe, expect, it } from 'vitest';
import { planCar, snagsOf } from '#answers';
import { type Car, carFrom } from '#car';
import { type Way, linesWorld } from '#lines';

/** A port that looks straight at an exhaust: no fitting at all keeps 100 mm off it (common practice, bare hot parts). */
const barn = (gallery: object = {}, header: object = {}): Car => {
  const part = { class: 'fixed', knownToMm: 6 };
  const read = carFrom({
    fairlead: 1,
    parts: [
      {
        ...part,
        id: 'cooler',
        shapes: [{ box: { minMm: [200, -300, 300], maxMm: [260, 0, 520] } }],
        ports: [{ id: 'out', atMm: [260, -60, 480], faces: [1, 0, 0], end: { type: 'orb', dash: 10 } }],
      },
      {
        ...part,
        id: 'engine',
        shapes: [{ box: { minMm: [700, -150, 200], maxMm: [1200, 150, 600] } }],
        ports: [
          {
            id: 'gallery',
            atMm: [900, -150, 400],
            faces: [0, -1, 0],
            end: { type: 'npt-female', pipe: '3/8' },
            ...gallery,
          },
        ],
      },
      {
        id: 'header',
        class: 'hot',
        shapes: [
          {
            tube: {
              pointsMm: [
                [720, -230, 520],
                [1000, -260, 470],
                [1150, -260, 300],
              ],
              radiusMm: 22,
            },
          },
        ],
        ...header,
      },
    ],
    lines: [
      {
        id: 'L1',
        from: 'cooler.out',
        to: 'engine.gallery',
        duty: 'oil-pressure',
        dash: 10,
        temperatureC: 110,
        state: 'planned',
      },
    ],
  });
  if (!read.ok) throw new Error(read.faults.map((fault) => `${fault.place}: ${fault.allowed}`).join('; '));
  return read.car;
};

function planned(car: Car): { way: Way; cures: readonly string[] } {
  const world = linesWorld(car, new Map());
  const answer = planCar(world);
  const cures = snagsOf(world, answer).flatMap((snag) => (snag.id.startsWith('L1-keep-off') ? snag.cures : []));
  return { way: answer.lines[0]!.best, cures };
}

describe('a port where nothing fits', () => {
  const { way, cures } = planned(barn());

  it('is refused with the part, the gap and the place, and nothing else', () => {
    expect(way.feasible).toBe(false);
    expect(way.fails.map((fail) => [fail.limit, fail.part, fail.limitMm])).toEqual([['keep-off', 'header', 100]]);
    const { valueMm, atMm } = way.fails[0]!;
    // hand: the port face itself is 110 - 22 = 88 mm from the header's skin, and every fitting leads nearer
    expect(valueMm).toBeGreaterThan(40);
    expect(valueMm).toBeLessThan(88);
    expect(Math.hypot(atMm![0] - 900, atMm![1] + 150, atMm![2] - 400)).toBeLessThan(120);
  });

  it('the near setting that it advises lets the line through', () => {
    const advised = cures.map((cure) => /"near": (\{.*\})/.exec(cure)?.[1]).find((text) => text !== undefined);
    expect(planned(barn({ near: JSON.parse(advised!) as object })).way.fails).toEqual([]);
  });

  it('so does the shield', () => {
    expect(cures.some((cure) => cure.includes('"shielded": true'))).toBe(true);
    expect(planned(barn({}, { shielded: true })).way.fails).toEqual([]);
  });
});
