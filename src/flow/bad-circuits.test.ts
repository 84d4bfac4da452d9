import { describe, expect, it } from 'vitest';
import { type Car, readCar } from '#car';
import { boxCar, findingsIn, flowIn } from './dry-sump/box-car.fixture.ts';
import { numberFaults } from './planted/answer-faults.ts';

/** What must be named, located and refused; each car file is changed as a builder would mistype it. */
const changed = (change: (car: Car) => void) => {
  const car = boxCar();
  change(car);
  return readCar(JSON.stringify(car));
};
const line = (car: Car, id: string) => car.lines.find((row) => row.id === id)!;
const gallery = (row: object) => (car: Car) =>
  void (car.circuits![0]!.passages = [{ id: 'gallery', from: 'block.gallery', to: 'pan', ...row }]);
const pressure = (row: object) => (car: Car) =>
  void (car.circuits![0]!.pumps![0] = { id: 'pressure', from: 'pump.in', to: 'pump.out', ...row });

describe('a bore of nothing, a curve that is not there', () => {
  it.each<[string, (car: Car) => void, string, RegExp]>([
    [
      'a line',
      (car) => void Object.assign(line(car, 'F'), { dash: undefined, boreMm: 0 }),
      'lines[0].boreMm',
      /above 0/u,
    ],
    [
      'a hose of the own list',
      (car) =>
        void Object.assign(car, {
          catalogue: { hoses: [{ id: 'h', dash: 16, boreMm: 0, odMm: 30, minBendRadiusMm: 140 }] },
        }),
      'catalogue.hoses[0].boreMm',
      /above 0/u,
    ],
    [
      'a tube all wall',
      (car) => void (line(car, 'F').pieces = [{ tube: { odMm: 20, wallMm: 10, bendRadiusMm: 60 } }]),
      'lines[0].pieces[0].tube',
      /less than half the outside diameter/u,
    ],
    ['a drilling', gallery({ boreMm: 0, lengthMm: 100 }), 'circuits[0].passages[0].boreMm', /above 0/u],
    ['a restrictor', gallery({ restrictorMm: 0 }), 'circuits[0].passages[0].restrictorMm', /above 0/u],
    [
      'a passage of which nothing is said',
      gallery({}),
      'circuits[0].passages[0]',
      /exactly one of open, curveLMinKpa/u,
    ],
    ['a pump without a curve', pressure({}), 'circuits[0].pumps[0]', /one of: displacementCcRev with driveRatio/u],
    [
      'a pump that sweeps nothing',
      pressure({ displacementCcRev: 0, driveRatio: 1 }),
      'circuits[0].pumps[0].displacementCcRev',
      /above 0/u,
    ],
  ])('%s is refused by the reader, with its place and what is allowed', (_, change, place, allowed) => {
    const reading = changed(change);
    expect(reading.ok ? [] : reading.faults.map((fault) => fault.place)).toEqual([place]);
    expect(reading.ok ? '' : reading.faults[0]!.allowed).toMatch(allowed);
  });

  it.each<[string, (car: Car) => void, RegExp]>([
    [
      'a curve without points',
      gallery({ curveLMinKpa: [] }),
      /passage gallery: its curve has 0 points; two or more are wanted/u,
    ],
    [
      'a curve that loses nothing',
      gallery({
        curveLMinKpa: [
          [0, 0],
          [10, 0],
        ],
      }),
      /passage gallery: a point of its curve loses nothing/u,
    ],
    [
      'a pump with one point',
      pressure({ atRpm: 6000, curveLMinKpa: [[10, 100]] }),
      /pump pressure: its curve has 1 point/u,
    ],
    [
      'a circuit that is open',
      (car) => void (car.circuits![0]!.lines = ['F', 'S', 'R']),
      /block\.gallery: what flows in there has no way on/u,
    ],
    [
      'two free surfaces joined from port to port',
      (car) => void car.circuits![0]!.passages!.push({ id: 'x', from: 'tank.back', to: 'pan.top', open: true }),
      /passage x joins tank and pan without loss: two free surfaces cannot be at odds/u,
    ],
    ...[1e-2, 1e-4, 1e-6].map((boreMm): [string, (car: Car) => void, RegExp] => [
      `a bore of ${boreMm} mm`,
      (car) => void Object.assign(line(car, 'F'), { dash: undefined, boreMm }),
      /F, hose, roughness over bore: .*; allowed: 0 to 0\.1/u,
    ]),
  ])('%s is named among the findings, and no number is none', (_, change, words) => {
    const reading = changed(change);
    if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
    const [found] = findingsIn(reading.car, 'cases').filter(({ text }) => words.test(text));
    expect(found).toMatchObject({ level: 'stop', code: 'circuit' });
    expect(found!.part ?? found!.line).toBeDefined();
    expect(numberFaults(flowIn(reading.car, 'cases'), 'flow')).toEqual([]);
  });

  it('a feed that would have to be drawn below nothing is told so', () => {
    const reading = changed((car) => void Object.assign(line(car, 'F'), { dash: undefined, boreMm: 1 }));
    if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
    const { text } = findingsIn(reading.car, 'cases').find(({ code }) => code === 'feed-draws-air')!;
    expect(text).toMatch(/would have to stand at -\d+\.\d+ bar, below nothing at all: it does not fill/u);
  });
});
