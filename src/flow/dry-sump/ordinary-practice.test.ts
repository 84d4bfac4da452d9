import { describe, expect, it } from 'vitest';
import type { Car, Part } from '#car';
import { boxCar, type CarChange, changedBox, findingsIn, flowIn, portAs } from './box-car.fixture.ts';

/** Ordinary practice that the model agrees with (common practice, no source): each told where it is not kept, silent where it is. */
const codes = (car: Car): string[] => findingsIn(car).map(({ code }) => code);
const told = (car: Car, code: string) => findingsIn(car).find((row) => row.code === code)!;
const plain = { through: [], pieces: [], state: 'planned' as const };
const port = (id: string, atMm: [number, number, number], faces: [number, number, number]) => ({
  id,
  atMm,
  faces,
  end: { type: 'orb' as const, dash: 12 },
});
const partOf = (car: Car, id: string): Part => car.parts.find((row) => row.id === id)! as Part;

/** One scavenge stage more, from the pan or a pot to a place of its own. */
const oneMoreStage =
  (n: number, from: string, to: string): CarChange =>
  (car) => {
    partOf(car, 'pump').ports.push(
      port(`suck-${n}`, [1500, 10 * n, 60], [-1, 0, 0]),
      port(`give-${n}`, [1550, -50, 60 + n], [0, -1, 0]),
    );
    car.lines.push(
      { ...plain, id: `S${n}`, from, to: `pump.suck-${n}`, duty: 'oil-scavenge', dash: 12 },
      { ...plain, id: `R${n}`, from: `pump.give-${n}`, to, duty: 'oil-return', dash: 12 },
    );
    const circuit = car.circuits![0]!;
    circuit.lines.push(`S${n}`, `R${n}`);
    circuit.pumps!.push({
      id: `scavenge-${n}`,
      from: `pump.suck-${n}`,
      to: `pump.give-${n}`,
      displacementCcRev: 10,
      driveRatio: 0.5,
    });
  };

const pick =
  (n: number): CarChange =>
  (car) => {
    partOf(car, 'pan').ports.push(port(`pick-${n}`, [1200 + 50 * n, 0, 0], [0, 0, -1]));
    partOf(car, 'tank').ports.push(port(`back-${n}`, [2100 + 20 * n, 50, 400], [0, 0, 1]));
    oneMoreStage(n, `pan.pick-${n}`, `tank.back-${n}`)(car);
  };

describe('ordinary practice', () => {
  it('the feed leaves the tank at its lowest point: a feed in the wall is told how much it leaves, one in the floor is not', () => {
    expect(codes(boxCar())).not.toContain('feed-height');
    expect(codes(changedBox({}, portAs('tank', 'out', { atMm: [2100, -100, 70], faces: [0, -1, 0] })))).toContain(
      'feed-height',
    );
  });

  it('each return comes in at the top on its own: one in the oil, and two that come together on the way, are told', () => {
    expect(codes(boxCar())).not.toContain('return-height');
    expect(codes(changedBox({}, portAs('tank', 'back', { atMm: [2100, 100, 150], faces: [0, 1, 0] })))).toContain(
      'return-height',
    );
    const own = changedBox({}, pick(1));
    expect(codes(own)).not.toContain('returns-joined');
    const joined = changedBox({}, (car) => {
      pick(1)(car);
      const tank = partOf(car, 'tank');
      car.parts.push({
        ...structuredClone(tank),
        id: 'tee',
        shapes: [{ box: { minMm: [1900, -20, 380], maxMm: [1940, 20, 420] } }],
        ports: [
          port('a', [1900, 0, 400], [-1, 0, 0]),
          port('b', [1920, -20, 400], [0, -1, 0]),
          port('c', [1940, 0, 400], [1, 0, 0]),
        ],
      });
      for (const [id, to] of [
        ['R', 'tee.a'],
        ['R1', 'tee.b'],
      ] as const)
        car.lines.find((row) => row.id === id)!.to = to;
      car.lines.push({ ...plain, id: 'T', from: 'tee.c', to: 'tank.back', duty: 'oil-return', dash: 16 });
      const circuit = car.circuits![0]!;
      circuit.lines.push('T');
      circuit.passages!.push(
        { id: 'ab', from: 'tee.a', to: 'tee.b', open: true },
        { id: 'ac', from: 'tee.a', to: 'tee.c', open: true },
      );
    });
    expect(told(joined, 'returns-joined').text).toMatch(
      /^R and R1 come together at tee\.[abc] before they reach the tank/u,
    );
    const [, own1, both1, own2, both2] =
      /^R1 to a port of its own in the top of tank: scavenge pushes against ([\d.]+) kPa instead of ([\d.]+) kPa, scavenge-1 pushes against ([\d.]+) kPa instead of ([\d.]+) kPa at full$/u
        .exec(told(joined, 'returns-joined').cures[0]!)!
        .map(Number) as [number, number, number, number, number];
    const pushes = (car: Car) => flowIn(car, 'cases').states[0]!.stages!.map(({ outletPa }) => outletPa / 1000);
    expect(pushes(joined)[0]!).toBeCloseTo(both1, 0.8);
    expect(pushes(joined)[1]!).toBeCloseTo(both2, 0.8);
    // The car whose returns were never joined, R1 a little shorter.
    expect(own1).toBeLessThan(both1);
    expect(pushes(own)[1]! / own2).toBeGreaterThan(0.6);
    expect(pushes(own)[1]! / own2).toBeLessThan(1.35);
  });

  it('an air separator sits in a scavenge return: told where none does', () => {
    expect(told(boxCar(), 'no-separator').level).toBe('note');
    const vented = changedBox({}, (car) => {
      partOf(car, 'tank').ports.push(port('vent', [2150, 0, 400], [0, 0, 1]));
      partOf(car, 'pan').ports.push(port('vent', [1100, 0, 100], [0, 0, 1]));
      car.parts.push({
        ...structuredClone(partOf(car, 'pan')),
        id: 'can',
        shapes: [{ box: { minMm: [2300, -50, 400], maxMm: [2400, 50, 500] } }],
        ports: [port('a', [2300, 0, 450], [-1, 0, 0]), port('b', [2350, 50, 450], [0, 1, 0])],
      });
      car.lines.push(
        { ...plain, id: 'V', from: 'tank.vent', to: 'can.a', duty: 'oil-vent', dash: 12 },
        { ...plain, id: 'W', from: 'pan.vent', to: 'can.b', duty: 'oil-vent', dash: 12 },
      );
      const circuit = car.circuits![0]!;
      circuit.lines.push('V', 'W');
      circuit.vessels!.push({ part: 'can', kind: 'catch-tank' });
    });
    const [, brings, now, half, tenth] =
      /^an air separator in R, which brings (\d+) L\/min of air at full: (\d+) L\/min go out .* 50 % of it (\d+) L\/min, 90 % of it (\d+) L/u
        .exec(told(vented, 'no-separator').cures[0]!)!
        .map(Number) as [number, number, number, number, number];
    // hand: all that R brings goes out through V, what a separator takes before does not.
    expect(Math.abs(now - brings)).toBeLessThan(0.06 * now);
    expect(Math.abs(half - now / 2)).toBeLessThan(0.06 * now);
    expect(Math.abs(tenth - now / 10)).toBeLessThan(0.06 * now);
    const with_ = changedBox({}, (car) => {
      const tank = partOf(car, 'tank');
      car.parts.push({
        ...structuredClone(tank),
        id: 'separator',
        shapes: [{ box: { minMm: [1900, -40, 300], maxMm: [1960, 40, 420] } }],
        ports: [port('in', [1900, 0, 400], [-1, 0, 0]), port('out', [1960, 0, 320], [1, 0, 0])],
      });
      car.lines.find(({ id }) => id === 'R')!.to = 'separator.in';
      car.lines.push({ ...plain, id: 'R2', from: 'separator.out', to: 'tank.back', duty: 'oil-return', dash: 16 });
      const circuit = car.circuits![0]!;
      circuit.lines.push('R2');
      circuit.passages!.push({
        id: 'separator',
        name: 'Air separator',
        from: 'separator.in',
        to: 'separator.out',
        curveLMinKpa: [
          [20, 2],
          [40, 7],
        ],
      });
    });
    expect(codes(with_)).not.toContain('no-separator');
  });

  it('three pick-ups in the pan are usual: fewer are told, three are not', () => {
    expect(codes(boxCar())).toContain('pan-pick-ups');
    expect(
      codes(
        changedBox({}, (car) => {
          pick(1)(car);
          pick(2)(car);
        }),
      ),
    ).not.toContain('pan-pick-ups');
  });

  it('the drain of a low turbo is pulled by the pump: the stage that takes its foam is worked out, by hand', () => {
    const low = changedBox({}, (car) => {
      const pan = partOf(car, 'pan');
      pan.ports.push(port('drain', [1200, 100, 90], [0, 1, 0]));
      car.parts.push({
        ...structuredClone(pan),
        id: 'turbo',
        shapes: [{ box: { minMm: [1150, 300, 0], maxMm: [1250, 400, 80] } }],
        ports: [port('drain', [1200, 300, 0], [0, -1, 0])],
      });
      car.lines.push({ ...plain, id: 'D', from: 'turbo.drain', to: 'pan.drain', duty: 'oil-drain', dash: 12 });
      const circuit = car.circuits![0]!;
      circuit.lines.push('D');
      circuit.vessels!.push({ part: 'turbo', kind: 'housing' });
      circuit.passages!.push({
        id: 'bearing',
        from: 'block.gallery',
        to: 'turbo',
        curveLMinKpa: [
          [1, 100],
          [2, 300],
        ],
        atC: 100,
      });
    });
    const falls = told(low, 'drain-falls');
    expect(falls.level).toBe('stop');
    const [, cc, sweeps, comes] =
      /a stage of its own that pulls D: ([\d.]+) cc\/rev .* sweep ([\d.]+) L\/min, ([\d.]+) L/u
        .exec(falls.cures.join('\n'))!
        .map(Number) as [number, number, number, number];
    // hand: cc/rev x 0.5 of 6000 rpm; foam of three times the oil; half a cc less would not take it.
    expect(sweeps).toBeCloseTo((cc * 0.5 * 6000) / 1000, 2);
    expect(sweeps).toBeGreaterThanOrEqual(comes);
    expect(((cc - 0.5) * 0.5 * 6000) / 1000).toBeLessThan(comes);
  });
});
