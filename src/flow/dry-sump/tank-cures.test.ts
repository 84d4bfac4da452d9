import { describe, expect, it } from 'vitest';
import type { Car } from '#car';
import { catalogue } from '#standards';
import type { FlowFinding } from '../finding.ts';
import { boxTankDamping } from '../tank/slosh-formulas.ts';
import {
  boxCar,
  boxCircuit,
  type CarChange,
  changedBox,
  cureLike,
  findingsIn,
  flowIn,
  portAs,
} from './box-car.fixture.ts';
import { feedMouths } from './mouths.ts';
import { swungPickUp } from './swung-pick-up.ts';

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

describe('returns along the wall of a round tank', () => {
  it('turn the oil as their moment and its friction at the wall have it, and bring bubbles in by hand', () => {
    const wish = { tankL: 6, cases: [{ id: 'full', engineRpm: 7000, oilC: 90 }] };
    const car = changedBox(wish, (row) => {
      const tank = row.parts.find(({ id }) => id === 'tank')!;
      tank.shapes = [{ cylinder: { fromMm: [2100, 0, 0], toMm: [2100, 0, 400], radiusMm: 100 } }];
    });
    const state = flowIn(car, 'cases').states[0]!;
    const back = state.lines.find(({ line }) => line === 'R')!;
    const [, rpm, g, rim, mm] = cureOf(
      car,
      'bubbles',
      /^R led in along the wall, .*: the oil turns at (\d+) rpm .*, ([\d.]+) g at the wall, where it stands (\d+) mm higher .* bubbles from ([\d.]+) mm up/mu,
    ).map(Number) as [number, number, number, number, number];
    const { densityKgM3: rho, viscosityPaS: mu } = state.fluid!;
    const [turning, radius, depth] = [(rpm * 2 * Math.PI) / 60, 0.1, 0.006 / (Math.PI * 0.01)];
    const oil = back.flowM3S * (1 - back.voidShare!);
    const across = (4 * Math.PI * radius ** 2 * depth) / (2 * Math.PI * radius * depth + Math.PI * radius ** 2);
    const reynolds = (rho * turning * radius * across) / mu;
    expect(reynolds).toBeGreaterThan(4000);
    const friction = 0.3164 / reynolds ** 0.25;
    const brought = oil * rho * (back.velocityMS - turning * radius) * radius;
    // hand: shear f rho v^2/8, summed over wall and floor in rings; Blasius for the smooth wall.
    let drag = ((friction * rho) / 8) * (turning * radius) ** 2 * 2 * Math.PI * radius ** 2 * depth;
    for (let i = 0; i < 1000; i++) {
      const r = (radius * (i + 0.5)) / 1000;
      drag += ((friction * rho) / 8) * (turning * r) ** 2 * 2 * Math.PI * r * r * (radius / 1000);
    }
    expect(brought / drag).toBeGreaterThan(0.93);
    expect(brought / drag).toBeLessThan(1.07);
    expect(g).toBeCloseTo((turning ** 2 * radius) / 9.80665, 0.7);
    expect(rim / 1000).toBeCloseTo((turning * radius) ** 2 / (2 * 9.80665), 2);
    // hand: inward at d^2 rho w^2 r/(18 mu) from the wall to half of it, in small steps, while the oil stays V/Q.
    const feed = state.lines.find(({ line }) => line === 'F')!.flowM3S;
    let [r, t] = [radius, 0];
    while (r > radius / 2) {
      r -= (((mm / 1000) ** 2 * rho * turning ** 2 * r) / (18 * mu)) * 1e-3;
      t += 1e-3;
    }
    expect(t / (0.006 / feed)).toBeGreaterThan(0.9);
    expect(t / (0.006 / feed)).toBeLessThan(1.1);
  });
});

describe('a wall across the middle of a box tank', () => {
  it('leaves the wave half as far to run, by hand', () => {
    const wish = { tankL: 1.8, cases: [{ id: 'turn', engineRpm: 6000, oilC: 100, g: { rightG: -0.35 } }] };
    const car = changedBox(wish, portAs('tank', 'out', { atMm: [2100, -60, 0], faces: [0, 0, -1] }));
    const [, told, mm] = cureOf(
      car,
      'outlet-wave',
      /^a wall across the tank's middle, floor to roof, along the car, .*: (bare|covered) by (\d+) mm/mu,
    ) as unknown as [string, string, string];
    const { viscosityPaS, densityKgM3 } = flowIn(car, 'cases').states[0]!.fluid!;
    const z = boxTankDamping(0.2, 0.1, 0.045, 9.80665, viscosityPaS / densityKgM3);
    const tilt = Math.atan(0.35) * (1 + Math.exp((-Math.PI * z) / Math.sqrt(1 - z * z)));
    // 0.9 L on 200 x 100 mm stand 45 mm deep and turn about the middle of that half, 10 mm from the bore, which faces down.
    const bore = 0.9 * catalogue().hoses.find(({ dash }) => dash === 16)!.boreMm;
    const head = (45 - 10 * Math.tan(tilt)) * Math.cos(tilt) - (bore / 2) * Math.sin(tilt);
    expect((told === 'bare' ? -1 : 1) * Number(mm)).toBeCloseTo(head, -0.3);
    // A wall through the bore is none.
    const middle = found(changedBox(wish, portAs('tank', 'out', { atMm: [2100, 0, 0] })), 'outlet-wave');
    expect(middle?.cures.join() ?? '').not.toContain('a wall across');
  });
});

describe('a pick-up that swings', () => {
  const g = (lateralG: number) => ({ longitudinalG: 0, lateralG, verticalG: 1 });

  it('needs what stands under its mouth on the level and in a corner, by hand, and clears the walls', () => {
    const [mouth] = feedMouths(boxCircuit());
    const swung = swungPickUp(mouth!, [g(0), g(1.5), g(-1.5)])!;
    const { armMm, pivotOverFloorMm, leastM3 } = swung;
    const radius = mouth!.outlet.boreMm / 2;
    const [sin, cos] = [1.5 / Math.hypot(1, 1.5), 1 / Math.hypot(1, 1.5)];
    expect(armMm * sin).toBeLessThan(100 - radius + 0.01);
    expect(armMm).toBeLessThan(pivotOverFloorMm - radius + 0.01);
    // As long as one of both lets it be.
    expect(Math.max(armMm * sin + radius - 100, armMm + radius - pivotOverFloorMm)).toBeGreaterThan(-0.01);
    const level = 0.04 * (pivotOverFloorMm - armMm);
    // hand: a wedge with a slope of 1.5 through the mouth, 200 mm long.
    const top = pivotOverFloorMm - armMm * cos + 1.5 * (100 - armMm * sin);
    const wedge = (0.2 * top ** 2) / (2 * 1.5) / 1000;
    expect(leastM3 * 1000).toBeCloseTo(Math.max(level, wedge), 3);
  });

  it('is told where a fixed one asks for a brimful tank, with its least fill', () => {
    const cases = [1.6, -1.6].map((rightG, i) => ({ id: `c${i}`, engineRpm: 6000, oilC: 100, g: { rightG } }));
    const high = changedBox({ cases }, portAs('tank', 'out', { atMm: [2100, -100, 385], faces: [0, -1, 0] }));
    const least = found(high, 'least-fill');
    // A tank of 16 L: only to the brim.
    expect(least.text).toMatch(/^16\.0 L in tank is the least/u);
    const [, litres] = cureLike(
      least,
      /^a pick-up that swings, on an arm of \d+ mm .*: ([\d.]+) L keeps it covered in every case/mu,
    );
    expect(Number(litres)).toBeLessThan(1);
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
