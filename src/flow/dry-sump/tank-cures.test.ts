import { describe, expect, it } from 'vitest';
import type { Car } from '#car';
import { catalogue } from '#standards';
import type { FlowFinding } from '../finding.ts';
import { boxCar, type CarChange, changedBox, cureLike, findingsIn, flowIn, portAs } from './box-car.fixture.ts';

/** What a cure says of a tank or a pan is put into the car file and the car worked out anew, or reckoned by hand in closed form. */
const found = (car: Car, code: string): FlowFinding => findingsIn(car).find((row) => row.code === code)!;
const cureOf = (car: Car, code: string, like: RegExp): RegExpExecArray => cureLike(found(car, code), like);

describe('an outlet moved', () => {
  const wish = { tankL: 4, cases: [{ id: 'c', engineRpm: 6000, oilC: 100, g: { rightG: 0.4 } }] };
  /** On the left wall of a tank 200 mm across, 60 mm over its floor: bare in a right-hander's opposite. */
  const onWall = portAs('tank', 'out', { atMm: [2100, -100, 60], faces: [0, -1, 0] });
  const worstG = (change: CarChange): number => found(changedBox(wish, change), 'outlet-g').value!;

  it.each([
    [
      'lower',
      /the outlet (50) mm lower, its bore at the floor: \+([\d.]+) g, ([\d.]+) in/u,
      { atMm: [2100, -100, 10] },
    ],
    ['to the middle', /draws (100) mm nearer .*: \+([\d.]+) g, ([\d.]+) in/u, { atMm: [2100, 0, 60] }],
  ] as const)('%s stands the g that the cure says', (_, like, change) => {
    const [, , gains, stands] = cureOf(changedBox(wish, onWall), 'outlet-g', like).map(Number) as [
      number,
      number,
      number,
      number,
    ];
    const moved = worstG((car) => {
      onWall(car);
      portAs('tank', 'out', change)(car);
    });
    expect(moved).toBeCloseTo(stands, 1.7);
    expect(moved - worstG(onWall)).toBeCloseTo(gains, 1.7);
  });
});

describe('a ring baffle', () => {
  /** A round tank of 200 mm, 80 mm of oil, its outlet on the wall that the oil leaves, 45 mm over the floor. */
  const wish = {
    tankL: 0.08 * Math.PI * 10,
    cases: [{ id: 'turn', engineRpm: 6000, oilC: 100, g: { rightG: 0.2 } }],
  };
  const round: CarChange = (car) => {
    const tank = car.parts.find(({ id }) => id === 'tank')!;
    tank.shapes = [{ cylinder: { fromMm: [2100, 0, 0], toMm: [2100, 0, 400], radiusMm: 100 } }];
    portAs('tank', 'out', { atMm: [2100, 100, 45], faces: [0, 1, 0] })(car);
  };

  it('calms the wave as Miles has it, the wave that is left agreeing with its ring', () => {
    const car = changedBox(wish, round);
    const { wave, outlet } = flowIn(car, 'cases').states[0]!.tanks![0]!;
    expect(outlet).toBe('tank.out');
    const rest = Math.atan(0.2);
    const overshoot = (damping: number): number =>
      rest * Math.exp((-Math.PI * damping) / Math.sqrt(1 - damping * damping));
    const cures = found(car, 'outlet-wave').cures.flatMap((words) => {
      const row = /a ring baffle (\d+) mm wide, 10 mm under the oil at rest: (bare|covered) by (\d+) mm/u.exec(words);
      return row === null ? [] : [{ share: Number(row[1]) / 100, mm: (row[2] === 'bare' ? -1 : 1) * Number(row[3]) }];
    });
    expect(cures.length).toBeGreaterThan(0);
    for (const { share, mm } of cures) {
      // hand: z = 2.83 exp(-4.6 d/R) a^1.5 sqrt(h/R), d/R = 0.1, a = 1 - (1 - w/R)^2, h the overshoot at the wall; halved until it agrees.
      const added = (over: number): number =>
        2.83 * Math.exp(-0.46) * (1 - (1 - share) ** 2) ** 1.5 * Math.sqrt(Math.tan(over));
      let [low, high] = [0, rest];
      for (let i = 0; i < 60; i++) {
        const middle = (low + high) / 2;
        if (overshoot(wave!.wave.damping + added(middle)) > middle) low = middle;
        else high = middle;
      }
      const tilt = rest + low;
      // The surface turns about the middle, 80 mm up: at the wall 100 tan(tilt) lower; the bore of 20 mm reaches 10 mm cos(tilt) up.
      const bore = 0.9 * catalogue().hoses.find(({ dash }) => dash === 16)!.boreMm;
      const head = (80 - 100 * Math.tan(tilt) - 45) * Math.cos(tilt) - (bore / 2) * Math.cos(tilt);
      expect(mm).toBeCloseTo(head, -0.3);
    }
  });
});

describe('oil in a tank and a pan', () => {
  it('less of it leaves the air that the cure says', () => {
    const less = Number(cureOf(boxCar({ tankL: 15 }), 'tank-air', /^([\d.]+) L less oil/mu)[1]);
    expect(findingsIn(boxCar({ tankL: 15 - less })).map(({ code }) => code)).not.toContain('tank-air');
    expect(findingsIn(boxCar({ tankL: 15.1 - less })).map(({ code }) => code)).toContain('tank-air');
  });

  it('a lower pick-up keeps back less, by hand', () => {
    const high = changedBox({}, portAs('pan', 'pick-up', { atMm: [1200, 0, 30], faces: [0, 0, 1] }));
    const keeps = cureOf(
      high,
      'pan-keeps',
      /pick-ups (\d+) mm lower, at the floor: pan keeps ([\d.]+) L, ([\d.]+) L more/u,
    );
    // 0.4 m x 0.2 m x 30 mm = 2.4 L, 0.2 of which are stated.
    expect(keeps.slice(1).map(Number)).toEqual([30, 0, 2.2]);
    expect(findingsIn(boxCar()).map(({ code }) => code)).not.toContain('pan-keeps');
  });

  it('a feed above the floor and a return below the top are told what moving them is worth, by hand', () => {
    const odd = changedBox({ tankL: 8 }, (car) => {
      portAs('tank', 'out', { atMm: [2100, -100, 70], faces: [0, -1, 0] })(car);
      portAs('tank', 'back', { atMm: [2100, 100, 150], faces: [0, 1, 0] })(car);
    });
    // The bore of 20 mm begins at 60 mm: 0.2 m x 0.2 m x 60 mm = 2.4 L.
    expect(found(odd, 'feed-height').cures).toEqual([
      '60 mm lower, its bore at the floor: 2.40 L more of the oil can be used',
    ]);
    // A quarter under the top of 400 mm is 300; 8 L stand 200 mm deep.
    expect(found(odd, 'return-height').cures).toEqual([
      '150 mm higher: in the top quarter, 100 mm over the oil as it runs, standing on the level',
    ]);
  });

  it('stages more are told with the ratio that they make: (30 + 2 x 30)/12 = 7.50', () => {
    expect(found(boxCar(), 'pan-pick-ups').cures).toEqual([
      '2 stages more like scavenge: the scavenge sweeps 7.50 times the pressure stage instead of 2.50 times',
    ]);
  });
});
