import { add, movedDirection, movedPoint, rotationFromDeg, type Vec } from '#geometry';
import fc from 'fast-check';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { describe, expect, it } from 'vitest';
import { carNotes } from '../car-notes.ts';
import { faultLine } from '../fault.ts';
import { readCar } from '../read-car.ts';
import type { Car } from '../schema/car.ts';
import { portTolerance } from '../tolerance.ts';
import { bestTurn } from './best-turn.ts';
import { resolveOrigins } from './resolve-origins.ts';
import { solvePoints } from './solve-points.ts';
import { turnAnglesDeg } from './turn-angles.ts';
import { upInCar } from './up-in-car.ts';

const end = { type: 'orb', dash: 12 };

/** A car of one port, measured, and the origins it was measured from. */
function measuredCar(origins: readonly object[], measured: readonly object[], shapes: readonly object[] = []): Car {
  const reading = readCar(
    JSON.stringify({
      fairlead: 1,
      parts: [{ id: 'tank', class: 'fixed', shapes, ports: [{ id: 'out', faces: [1, 0, 0], end, measured }] }],
      origins,
    }),
  );
  if (!reading.ok) throw new RangeError(reading.faults.map(faultLine).join('\n'));
  return reading.car;
}
const portOf = (car: Car): Vec => car.parts[0]!.ports[0]!.atMm;
function expectNear(got: Vec, wanted: Vec, withinMm = 1e-6): void {
  got.forEach((value, i) =>
    expect(Math.abs(value - wanted[i]!), `${got.join()} for ${wanted.join()}`).toBeLessThan(withinMm),
  );
}

/** Gaussian noise by the sum of twelve uniform numbers less six (its variance is 1 exactly). */
function noise(seed: number): () => number {
  const random = xoroshiro128plus(seed);
  return () =>
    Array.from({ length: 12 }, () => uniformInt(random, 0, 1_000_000) / 1_000_000).reduce((a, b) => a + b, 0) - 6;
}

describe('an origin of reference points', () => {
  // Hand: read axes turned a quarter about Z: read X runs along car Y, read Y along car -X; its zero at (1000, -700, 50).
  const inCar = ([x, y, z]: Vec): Vec => [1000 - y, -700 + x, 50 + z];
  const point = (name: string, readMm: Vec, knownToMm = 3) => ({ name, readMm, atMm: inCar(readMm), knownToMm });
  const sill = {
    id: 'sill',
    kind: 'points',
    points: [point('a', [0, 0, 0]), point('b', [900, 0, 0]), point('c', [0, 500, 0]), point('d', [100, 100, 400])],
  };

  it('brings a reading into car axes', () => {
    expectNear(portOf(measuredCar([sill], [{ from: 'sill', readMm: [100, 200, 300] }])), [800, -600, 350]);
  });

  it('turns and moves a solid that was read in its axes', () => {
    const shape = measuredCar(
      [sill],
      [{ from: 'sill', readMm: [1, 2, 3] }],
      [{ from: 'sill', box: { minMm: [0, 0, 0], maxMm: [10, 20, 30] } }],
    ).parts[0]!.shapes[0]!;
    const corner = add(movedPoint(rotationFromDeg(shape.turnDeg!), shape.box!.maxMm), shape.atMm!);
    expectNear(corner, inCar([10, 20, 30]));
  });

  it('sets a wrong point apart, says which, and places by the others', () => {
    const wrong = {
      ...sill,
      points: [...sill.points.slice(0, 3), { ...point('d', [100, 100, 400]), readMm: [130, 100, 400] }],
    };
    const car = measuredCar([wrong], [{ from: 'sill', readMm: [100, 200, 300] }]);
    expectNear(portOf(car), [800, -600, 350]);
    const { report } = resolveOrigins(car);
    expect(report.origins[0]!.readings.map((reading) => reading.disagrees)).toEqual([false, false, false, true]);
    expect(report.origins[0]!.readings[3]!.residualMm).toBeCloseTo(30, 6);
    expect(carNotes(car).map((note) => note.text)).toContain(
      'sill.d reads 30 mm from where the others put it (known to 3 mm): measure it again; it is left out',
    );
  });

  it('says that three points quarrel without blaming one', () => {
    const three = {
      ...sill,
      points: [point('a', [0, 0, 0]), { ...point('b', [900, 0, 0]), readMm: [940, 0, 0] }, point('c', [0, 500, 0])],
    };
    const { report } = resolveOrigins(measuredCar([three], [{ from: 'sill', readMm: [100, 200, 300] }]));
    expect(report.origins[0]!.readings.some((reading) => reading.disagrees)).toBe(false);
    expect(report.origins[0]!.remarks.join()).toMatch(/do not agree .* too few to tell/);
  });

  it('warns where the third axis comes out pointing down', () => {
    const down = {
      ...sill,
      points: sill.points.slice(0, 3).map((p) => ({ ...p, readMm: [p.readMm[0], -p.readMm[1], p.readMm[2]] })),
    };
    expect(
      resolveOrigins(measuredCar([down], [{ from: 'sill', readMm: [1, 2, 3] }])).report.origins[0]!.remarks.join(),
    ).toMatch(/pointing down/);
  });

  it('carries its tolerance: at the middle of n points it is known to one over root n', () => {
    // Hand: four points known to 6 give 6 / 2 = 3 at their middle; with a reading known to 4 that is 5.
    const square = {
      id: 'sill',
      kind: 'points',
      points: [
        point('a', [0, 0, 0], 6),
        point('b', [800, 0, 0], 6),
        point('c', [800, 600, 0], 6),
        point('d', [0, 600, 0], 6),
      ],
    };
    const car = measuredCar([square], [{ from: 'sill', readMm: [400, 300, 0], knownToMm: 4 }]);
    expect(portTolerance(car, 'tank.out')!.knownToMm).toBeCloseTo(5, 9);
  });

  it('finds turn and shift of 300 random cars exactly, seed 20260201', () => {
    const angle = fc.double({ min: -180, max: 180, noNaN: true });
    const far = fc.double({ min: -3000, max: 3000, noNaN: true });
    fc.assert(
      fc.property(fc.tuple(angle, angle, angle), fc.tuple(far, far, far), (turn, shift) => {
        const rotation = rotationFromDeg(turn);
        const read: Vec[] = [
          [0, 0, 0],
          [700, 30, 0],
          [50, 900, 10],
          [20, 40, 500],
        ];
        const best = bestTurn(read.map((p) => ({ from: p, to: add(movedPoint(rotation, p), shift), knownToMm: 5 })));
        const probe: Vec = [321, -654, 987];
        expectNear(
          add(movedPoint(rotationFromDeg(turnAnglesDeg(best.rows)), probe), best.shift),
          add(movedPoint(rotation, probe), shift),
          1e-5,
        );
        expect(best.rmsMm).toBeLessThan(1e-8);
      }),
      { seed: 20260201, numRuns: 300 },
    );
  });

  it('gives residuals and a carried tolerance as the statistics of least squares want them, seed 20260202', () => {
    // Hand: with noise of 1 tolerance in each coordinate, the sum of squared residuals over tolerance squared has the mean 3 n - 6;
    // and the scatter of a carried point over many trials is the variance that the fit states.
    const gauss = noise(20260202);
    const read: readonly Vec[] = [
      [0, 0, 0],
      [900, 0, 50],
      [0, 600, 0],
      [900, 600, 0],
      [100, 100, 400],
      [500, -50, 200],
    ];
    const rotation = rotationFromDeg([2, -3, 40]);
    const shift: Vec = [1200, -300, 80];
    const probe: Vec = [1500, 200, 300];
    const truth = add(movedPoint(rotation, probe), shift);
    const along = movedDirection(rotation, [0, 1, 0]);
    const trials = 400;
    let squares = 0;
    let scatter = 0;
    let stated = 0;
    for (let trial = 0; trial < trials; trial++) {
      const points = read.map((p, i) => ({
        name: `p${i}`,
        readMm: p.map((v) => v + 4 * gauss()) as [number, number, number],
        atMm: [...add(movedPoint(rotation, p), shift)] as [number, number, number],
        knownToMm: 4,
      }));
      const solved = solvePoints({ id: 'o', kind: 'points', points }, 'origins[0]');
      if ('allowed' in solved) throw new RangeError(faultLine(solved));
      squares += solved.report.readings.reduce((sum, reading) => sum + (reading.residualMm / 4) ** 2, 0);
      const { rows, shift: moved } = solved.frame!;
      const got = add(
        [0, 1, 2].map(
          (i) => rows[i]![0] * probe[0] + rows[i]![1] * probe[1] + rows[i]![2] * probe[2],
        ) as unknown as Vec,
        moved,
      );
      scatter +=
        ((got[0] - truth[0]) * along[0] + (got[1] - truth[1]) * along[1] + (got[2] - truth[2]) * along[2]) ** 2;
      stated += solved.variance(truth, along);
    }
    expect(squares / trials / (3 * read.length - 6)).toBeGreaterThan(0.93);
    expect(squares / trials / (3 * read.length - 6)).toBeLessThan(1.07);
    expect(stated / scatter).toBeGreaterThan(0.8);
    // It is stated on the large side: residuals above the tolerance widen it, residuals below do not narrow it.
    expect(stated / scatter).toBeLessThan(1.45);
  });
});

describe('a straightedge', () => {
  it('across the car: along to the right, out to the rear, down', () => {
    // Hand: from (0, -500, 600) 100 to the right, 20 forward of it, 300 down.
    const edge = {
      id: 'edge',
      kind: 'straightedge',
      points: [
        { name: 'l', atMm: [0, -500, 600], knownToMm: 3 },
        { name: 'r', atMm: [0, 500, 600], knownToMm: 3 },
      ],
    };
    expectNear(
      portOf(measuredCar([edge], [{ from: 'edge', alongMm: 100, outMm: -20, downMm: 300 }])),
      [-20, -400, 300],
    );
    // Hand: half way each end counts by half, so 3 / sqrt(2); with a reading known to 4 that is sqrt(16 + 4.5).
    const middle = measuredCar([edge], [{ from: 'edge', alongMm: 500, outMm: 0, downMm: 300, knownToMm: 4 }]);
    expect(portTolerance(middle, 'tank.out')!.knownToMm).toBeCloseTo(Math.sqrt(20.5), 9);
  });

  it('that slopes: down is square to it', () => {
    // Hand: along (0.6, 0, 0.8), so down is (0.8, 0, -0.6) and out the car's right.
    const edge = {
      id: 'edge',
      kind: 'straightedge',
      points: [
        { name: 'f', atMm: [0, 0, 0] },
        { name: 'r', atMm: [300, 0, 400] },
      ],
    };
    expectNear(portOf(measuredCar([edge], [{ from: 'edge', alongMm: 500, outMm: 50, downMm: 100 }])), [380, 50, 340]);
    expectNear(
      portOf(measuredCar([{ ...edge, out: [0, -1, 0] }], [{ from: 'edge', alongMm: 500, outMm: 50, downMm: 100 }])),
      [380, -50, 340],
    );
  });
});

describe('a level line', () => {
  it('read at three points gives the lean of the shell', () => {
    // Hand: two metres back the car stands 20 mm lower below the line, so sin(pitch) = 0.01, nose up.
    const line = {
      id: 'line',
      kind: 'level',
      points: [
        { name: 'fl', atMm: [0, -500, 0], downMm: 100 },
        { name: 'fr', atMm: [0, 500, 0], downMm: 100 },
        { name: 'r', atMm: [2000, 0, 0], downMm: 120 },
      ],
    };
    const car = measuredCar([line], [{ from: 'line', downMm: 350 }, { xMm: 1000 }, { yMm: 0 }]);
    expectNear(portOf(car), [1000, 0, -240 / Math.sqrt(1 - 0.01 ** 2)], 1e-5);
    expect(resolveOrigins(car).report.origins[0]!.remarks).toEqual([
      'by line the shell stands nose up 0.6 deg, right side down 0.0 deg',
    ]);
  });

  it('with the lean stated needs one point', () => {
    // Hand: right side down by arcsin 0.6; up in car axes is (0, -0.6, 0.8); the line passes 100 over the floor datum.
    const rollDeg = (Math.asin(0.6) * 180) / Math.PI;
    const line = { id: 'line', kind: 'level', rollDeg, points: [{ name: 'p', atMm: [0, 0, 0], downMm: 100 }] };
    // up . p = 100 - 60 = 40 at y = 200: 0.8 z = 40 + 120.
    expectNear(
      portOf(measuredCar([line], [{ from: 'line', downMm: 60 }, { xMm: 0 }, { yMm: 200 }])),
      [0, 200, 200],
      1e-6,
    );
  });

  it('up leans forward with the nose up, and left with the right side down', () => {
    expectNear(upInCar(90, 0), [-1, 0, 0], 1e-12);
    expectNear(upInCar(0, 90), [0, -1, 0], 1e-12);
    expectNear(upInCar(0, 0), [0, 0, 1], 1e-12);
  });
});

describe('distances from known points', () => {
  const marks = {
    id: 'm',
    kind: 'marks',
    points: [
      { name: 'a', atMm: [0, 0, 0] },
      { name: 'b', atMm: [300, 0, 0] },
      { name: 'c', atMm: [0, 400, 0] },
      { name: 'd', atMm: [300, 400, 0] },
      { name: 'e', atMm: [0, 0, 900] },
    ],
  };
  // Hand: the point (300, 400, 1200) is 1300 from a, sqrt(400^2 + 1200^2) from b, sqrt(300^2 + 1200^2) from c, 1200 from d, sqrt(340000) from e.
  const far = { a: 1300, b: Math.sqrt(1_600_000), c: Math.sqrt(1_530_000), d: 1200, e: Math.sqrt(340_000) };
  const from = (name: keyof typeof far, more = 0) => ({ from: `m.${name}`, distanceMm: far[name] + more });

  it('three and a rough height place a point', () => {
    expectNear(
      portOf(measuredCar([marks], [from('a'), from('b'), from('c'), { zMm: 1150, knownToMm: 200 }])),
      [300, 400, 1200],
      1,
    );
  });

  it('of six readings the wrong one is named and left out', () => {
    const car = measuredCar([marks], [from('a'), from('b'), from('c', 80), from('d'), from('e'), { xMm: 300 }]);
    const point = resolveOrigins(car).report.points[0]!;
    expect(point.readings.map((reading) => reading.disagrees)).toEqual([false, false, true, false, false, false]);
    expectNear(point.atMm, [300, 400, 1200], 1e-3);
    expect(point.remarks.join()).toMatch(/reading 3 \(distanceMm from m\.c\) is 80 mm from where/);
  });

  it('with one reading to spare the quarrel is told, and no one is blamed', () => {
    const point = resolveOrigins(measuredCar([marks], [from('a'), from('b'), from('c', 80), from('e')])).report
      .points[0]!;
    expect(point.readings.some((reading) => reading.disagrees)).toBe(false);
    expect(point.remarks.join()).toMatch(/do not agree/);
  });

  it('noise of a tape comes out within the tolerance stated, 300 points, seed 20260203', () => {
    // Hand: for a tolerance taken as one standard deviation, the miss in the worst direction has that deviation.
    const gauss = noise(20260203);
    let squares = 0;
    const trials = 300;
    for (let trial = 0; trial < trials; trial++) {
      const truth: Vec = [800 + 100 * gauss(), -200 + 100 * gauss(), 500 + 100 * gauss()];
      const readings = marks.points.map((mark) => ({
        from: `m.${mark.name}`,
        distanceMm:
          Math.hypot(truth[0] - mark.atMm[0]!, truth[1] - mark.atMm[1]!, truth[2] - mark.atMm[2]!) + 3 * gauss(),
        knownToMm: 3,
      }));
      const exact = { ...marks, points: marks.points.map((mark) => ({ ...mark, knownToMm: 0 })) };
      const point = resolveOrigins(measuredCar([exact], readings)).report.points[0]!;
      const missMm = Math.hypot(point.atMm[0] - truth[0], point.atMm[1] - truth[1], point.atMm[2] - truth[2]);
      squares += (missMm / point.knownToMm) ** 2;
    }
    expect(squares / trials).toBeGreaterThan(0.5);
    expect(squares / trials).toBeLessThan(2);
  });
});

it('working the origins out again changes nothing', () => {
  const sill = {
    id: 'sill',
    kind: 'points',
    points: [
      { name: 'a', readMm: [0, 0, 0], atMm: [10, 0, 0] },
      { name: 'b', readMm: [500, 0, 0], atMm: [510, 3, 0] },
      { name: 'c', readMm: [0, 500, 0], atMm: [10, 500, 2] },
    ],
  };
  const car = measuredCar(
    [sill],
    [{ from: 'sill', readMm: [1, 2, 3] }],
    [{ from: 'sill', box: { minMm: [0, 0, 0], maxMm: [1, 1, 1] } }],
  );
  expect(resolveOrigins(car).car).toEqual(car);
});

it('angles about X, Y, Z make the same rotation again, the right angle about Y included, seed 20260204', () => {
  const angle = fc.oneof(fc.double({ min: -180, max: 180, noNaN: true }), fc.constantFrom(0, 90, -90, 180));
  fc.assert(
    fc.property(angle, angle, angle, (x, y, z) => {
      const wanted = rotationFromDeg([x, y, z]);
      const got = rotationFromDeg(turnAnglesDeg(wanted.rows));
      wanted.rows.forEach((row, i) => expectNear(got.rows[i]!, row, 1e-6));
    }),
    { seed: 20260204, numRuns: 500 },
  );
});
