import { describe, expect, it } from 'vitest';
import type { Car } from '#car';
import type { FlowFinding } from '../finding.ts';
import { boxCar, type BoxCarWish, changedBox as changed, findingsIn as asked } from './box-car.fixture.ts';

/** Every figure that a cure names is put into the car file here, and the car asked again: the cure must have said what then comes. */
const found = (car: Car, code: string): FlowFinding | undefined => asked(car).find((row) => row.code === code);

const withPump = (wish: BoxCarWish, id: string, displacementCcRev: number): Car =>
  changed(wish, (car) => {
    Object.assign(car.circuits![0]!.pumps!.find((row) => row.id === id)!, { displacementCcRev });
  });

describe('a cure of a pump', () => {
  it('names the smallest pressure stage that lifts the gallery, and what it reads then', () => {
    const low = found(boxCar(), 'gallery-pressure')!;
    const cure = low.cures.find((words) => words.startsWith('pressure of'))!;
    const [, cc, gain, reads] =
      /of ([\d.]+) cc\/rev instead of 12 cc\/rev: \+([\d.]+) bar, ([\d.]+) bar, which is enough/u
        .exec(cure)!
        .map(Number) as [number, number, number, number];
    expect(found(withPump({}, 'pressure', cc), 'gallery-pressure')).toBeUndefined();
    const less = found(withPump({}, 'pressure', cc - 0.5), 'gallery-pressure')!;
    expect(less.value).toBeLessThan(reads);
    expect(less.value! - low.value!).toBeLessThan(gain);
    expect(low.value! + gain).toBeCloseTo(reads, 1);
    // 4.2 bar at 6000 rpm; half a cc of 36 L/min more gives a good tenth of a bar.
    expect(reads - 4.2).toBeLessThan(0.3);
  });

  it('names the scavenge stage that carries all the oil', () => {
    const flooded = found(boxCar({ scavengeCc: 8 }), 'pan-floods')!;
    const cc = Number(/of ([\d.]+) cc\/rev instead of 8 cc\/rev: all the oil is carried/u.exec(flooded.cures[0]!)![1]);
    expect(found(boxCar({ scavengeCc: cc }), 'pan-floods')).toBeUndefined();
    expect(found(boxCar({ scavengeCc: cc - 0.5 }), 'pan-floods')).toBeDefined();
  });

  it('names stages that sweep the usual ratio', () => {
    const short = found(boxCar({ scavengeCc: 20 }), 'scavenge-ratio')!;
    expect(short).toMatchObject({ level: 'fix', cures: ['scavenge stages of scavenge 24.0 cc/rev: 2.00 times'] });
    expect(found(boxCar({ scavengeCc: 24 }), 'scavenge-ratio')!.level).toBe('note');
  });
});

describe('a vent that is named as a cure', () => {
  const vented = (more?: { dash: number }): Car =>
    changed({ cases: [{ id: 'full', engineRpm: 6000, oilC: 100, blowByLMin: 0 }] }, (car) => {
      const at = (id: string, atMm: [number, number, number]) => ({
        id,
        atMm,
        faces: [0, 0, 1] as [number, number, number],
        end: { type: 'orb' as const, dash: 12 },
      });
      const tank = car.parts.find(({ id }) => id === 'tank')!;
      tank.ports.push(at('vent', [2150, -50, 399]));
      car.parts.push({
        ...structuredClone(tank),
        id: 'catch',
        shapes: [{ box: { minMm: [2300, -50, 300], maxMm: [2400, 50, 400] } }],
        ports: [at('in', [2350, 0, 400])],
      });
      const plain = { through: [], pieces: [], state: 'planned' as const, duty: 'oil-vent' as const };
      car.lines.push({ ...plain, id: 'V', from: 'tank.vent', to: 'catch.in', dash: 12 });
      if (more !== undefined) car.lines.push({ ...plain, id: 'N', from: 'pan.top', to: 'tank.back', dash: more.dash });
      car.circuits![0]!.lines.push('V', ...(more === undefined ? [] : ['N']));
      car.circuits![0]!.vessels!.push({ part: 'catch', kind: 'catch-tank', volumeL: 1, fillL: 0 });
    });

  it('lets the gas through at the speed it says, and a size less is too fast', () => {
    const shut = found(vented(), 'no-vent')!;
    const cure = shut.cures.find((words) => words.includes('between pan and tank'))!;
    const [, dash, flow, speed] = /a vent of -(\d+) between pan and tank: ([\d.]+) L\/min go from .* at ([\d.]+) m\/s/u
      .exec(cure)!
      .map(Number) as [number, number, number, number];
    const car = vented({ dash });
    expect(found(car, 'no-vent')).toBeUndefined();
    const way = asked(car).find(({ code, line }) => code === 'vent-way' && line === 'N')!;
    expect(Math.abs(way.value!)).toBeCloseTo(flow, 0);
    expect(Number(/at ([\d.]+) m\/s/u.exec(way.text)![1])).toBeCloseTo(speed, 0);
    expect(asked(vented({ dash: dash - 2 })).some(({ code, line }) => code === 'vent-speed' && line === 'N')).toBe(
      true,
    );
  });
});

describe('a pick-up that stands bare', () => {
  const cases = [{ id: 'left', engineRpm: 6000, oilC: 100, g: { rightG: -1 }, lastsS: 4 }];

  it('moved as its cure says, the pan keeps back what the cure says', () => {
    const bare = found(boxCar({ cases }), 'pan-bare')!;
    const cure = bare.cures.find((words) => words.startsWith('the pick-up of scavenge'))!;
    const [, right, higher, keeps] = /(\d+) mm to the right and (\d+) mm higher: pan keeps ([\d.]+) L/u
      .exec(cure)!
      .map(Number) as [number, number, number, number];
    // hand: thrown to the right wall of a pan 200 mm across; half a bore off it, a quarter of it over the floor.
    expect(right).toBeGreaterThan(85);
    expect(right).toBeLessThan(100);
    const moved = changed({ cases }, (car) => {
      const pickUp = car.parts.find(({ id }) => id === 'pan')!.ports.find(({ id }) => id === 'pick-up')!;
      Object.assign(pickUp, { atMm: [1200, right, higher], faces: [0, 0, 1] });
    });
    expect(keeps).toBeLessThan(bare.value! / 10);
    // It is bare no longer, or until as little as was said.
    expect(found(moved, 'pan-bare')?.value ?? 0).toBeLessThanOrEqual(keeps + 0.02);
  });
});

describe('a tank that more oil helps', () => {
  const cases = [{ id: 'brake', engineRpm: 6000, oilC: 100, g: { forwardG: -1.2, rightG: 1.2 }, lastsS: 8 }];

  it('stays covered as long as the cure says', () => {
    const runs = found(boxCar({ cases, tankL: 6, scavengeCc: 8 }), 'runs-bare')!;
    const [, more, seconds] = /^([\d.]+) L more oil: covered for ([\d.]+) s/u.exec(runs.cures[0]!)!.map(Number) as [
      number,
      number,
      number,
    ];
    const fuller = found(boxCar({ cases, tankL: 6 + more, scavengeCc: 8 }), 'runs-bare')!;
    expect(fuller.value).toBeCloseTo(seconds, 1);
    expect(seconds).toBeGreaterThan(runs.value!);
  });
});

describe('a tank in which bubbles stay', () => {
  it('is told the plan that lets them rise, as the slow law asks for by hand', () => {
    const small = found(boxCar(), 'bubbles')!;
    const plan = Number(/as much oil in a tank of ([\d.]+) m² plan/u.exec(small.cures.join(' | '))![1]);
    // hand: d^2 goes with depth over dwell, and depth with 1 over the plan of 0.2 x 0.2 m.
    expect(plan).toBeCloseTo(0.04 * (small.value! / 0.5) ** 2, 2);
    // Oil turns in a round tank only.
    expect(small.cures.join()).not.toContain('along the wall');
  });
});

describe('an outlet that a wave bares', () => {
  const cases = [{ id: 'turn', engineRpm: 6000, oilC: 100, g: { rightG: 0.6 } }];
  it('is kept covered by the oil that its cure names, and not by a good deal less', () => {
    const bared = found(boxCar({ cases, tankL: 1.8 }), 'outlet-wave')!;
    const cure = bared.cures.find((words) => words.includes('more oil'))!;
    const more = Number(/^([\d.]+) L more oil: covered by \d mm/u.exec(cure)![1]);
    expect(found(boxCar({ cases, tankL: 1.8 + more }), 'outlet-wave')).toBeUndefined();
    expect(found(boxCar({ cases, tankL: 1.8 + 0.8 * more }), 'outlet-wave')).toBeDefined();
    // A box has no published law of rings, and this outlet stands where a wall would: no such cures.
    expect(bared.cures.some((words) => words.includes('ring'))).toBe(false);
    expect(bared.cures.join()).not.toContain('a wall across');
  });
});

describe('a fluid that a circuit is not worked with', () => {
  it.each([
    [{ air: {} }, /circuit oil is of kind dry-sump and holds oil, which is air; allowed: oil/u],
    [{ water: {} }, /which is water; allowed: oil/u],
  ])('%j is named with what is allowed, and no number is given', (fluid, says) => {
    const car = changed({}, (row) => {
      row.fluids = [{ id: 'oil', ...fluid } as NonNullable<Car['fluids']>[number]];
    });
    const told = asked(car);
    expect(told.find(({ code }) => code === 'circuit')!.text).toMatch(says);
    expect(told.filter(({ value }) => value !== undefined && !Number.isFinite(value))).toEqual([]);
  });
});
