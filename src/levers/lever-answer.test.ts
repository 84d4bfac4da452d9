import { readFileSync } from 'node:fs';
import { type Lever, readCar } from '#car';
import { box } from '#geometry';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../test/flow/fluids-for-tests.ts';
import { cableGapFindings, cableGaps, type Obstacle, sweepFindings, sweepGaps } from './clearance.ts';
import { leverAnswer } from './lever-answer.ts';

const reading = readCar(readFileSync(new URL('../../demo/fellside.json', import.meta.url), 'utf8'));
if (!reading.ok) throw new Error('the demo car is no car');
const { car } = reading;
const leverOfDemo = (id: string): Lever => structuredClone(car.levers!.find((row) => row.id === id)!);
const codes = (lever: Lever): string[] => leverAnswer(car, lever).findings.map(({ code }) => code);

/** A lever of the demo with something of it changed. */
function changed(id: string, change: (lever: Lever) => void): Lever {
  const lever = leverOfDemo(id);
  change(lever);
  return lever;
}

describe('findings of a lever', () => {
  it('tell a cylinder that bottoms, one that is not reached, one that has no pressure', () => {
    expect(codes(leverOfDemo('K2'))).not.toContain('cylinder-bottoms');
    expect(codes(changed('K2', (k) => (k.cylinders![0]!.strokeMm = 10)))).toContain('cylinder-bottoms');
    expect(codes(changed('K2', (k) => (k.cylinders![0]!.needsMl = 4)))).toContain('cylinder-short');
    const weak = leverAnswer(
      car,
      changed('K2', (k) => (k.cylinders![0]!.boreMm = 25.4)),
    );
    const finding = weak.findings.find(({ code }) => code === 'cylinder-pressure')!;
    expect(finding.level).toBe('stop');
    expect(finding.limit).toBe(50);
    // Its cure holds: that bore gives the middle of the band.
    const bore = Number(/a bore of ([\d.]+) mm/.exec(finding.cures[0]!)![1]);
    const cured = leverAnswer(
      car,
      changed('K2', (k) => (k.cylinders![0]!.boreMm = bore)),
    );
    expect(cured.findings.map(({ code }) => code)).not.toContain('cylinder-pressure');
  });

  it('tell a selector that is turned too little, and by which arm it would not be', () => {
    const short = changed('K1', (k) => (k.turnDeg = [-14, 14]));
    const finding = leverAnswer(car, short).findings.find(({ code }) => code === 'lever-short-travel')!;
    expect(finding.level).toBe('stop');
    const mm = Number(/([\d.]+) mm instead of/.exec(finding.cures[0]!)![1]);
    const [at] = short.arms;
    const cured = { ...short, arms: [{ ...at!, atMm: [600, 350, 350 - mm] as [number, number, number] }] };
    expect(codes(cured)).not.toContain('lever-short-travel');
  });

  it('tell bends, lead-in, stroke, core, holes, stops and forces', () => {
    const cable = (change: (row: NonNullable<Lever['cables']>[number]) => void) =>
      codes(changed('K1', (k) => change(k.cables![0]!)));
    expect(cable(() => undefined)).toContain('cable-bends');
    expect(cable((row) => (row.mostBendDeg = 600))).not.toContain('cable-bends');
    expect(cable((row) => (row.leastRadiusMm = 400))).toContain('cable-radius');
    expect(cable((row) => (row.strokeMm = 20))).toContain('cable-stroke');
    expect(cable((row) => (row.coreLimitN = 100))).toContain('cable-core');
    expect(cable((row) => (row.leadInDeg = 1))).toContain('cable-lead-in');
    expect(cable((row) => (row.crossing![0]!.holeMm = 11))).toContain('cable-hole');
    expect(cable((row) => (row.crossing![0]!.atMm = [1350, -250, 150]))).toContain('cable-off-hole');
    expect(cable((row) => delete row.sealDragN)).toContain('cable-seals');
    expect(cable((row) => (row.slackMm = 6))).toContain('cable-slack');
    expect(codes(changed('K1', (k) => delete k.stopsDeg))).toContain('lever-no-stops');
    expect(codes(changed('K1', (k) => (k.stopsDeg = [-10, 23])))).toContain('lever-stops-early');
    expect(codes(changed('K2', (k) => (k.force = { usualN: 500 })))).toContain('lever-usual-force');
    // Swung the wrong way its arm leaves the cylinder; as drawn it does not.
    expect(codes(changed('K2', (k) => (k.turnDeg = [-24.6, 0])))).toContain('cylinder-not-pushed');
    expect(codes(leverOfDemo('K2'))).not.toContain('cylinder-not-pushed');
  });

  it('tell that a lever now works the other way round, and how much heavier', () => {
    const above = changed('K1', (k) => (k.was = { arms: [{ id: 'shift', atMm: [600, 350, 394] }] }));
    above.cables![0]!.pathMm[0] = [720, 350, 306];
    const { moved, findings } = leverAnswer(car, above);
    expect([moved!.outputs[0]!.wasDirection, moved!.outputs[0]!.isDirection]).toEqual(['kept', 'reversed']);
    expect(findings.map(({ code }) => code)).toContain('lever-turned-round');
    // Hand: 280 over 40 was 7, 220 over 44 is 5: 1.4 times the force, seals a little more.
    expect(leverAnswer(car, leverOfDemo('K1')).moved!.outputs[0]!.forceTimes).toBeCloseTo(1.4, 1);
  });

  it('split the force of two cylinders as the balance bar stands (hand)', () => {
    const two = changed('K2', (k) => Object.assign(k.cylinders![0]!, { secondBoreMm: 17.8, firstShare: 0.6 }));
    const [a, b] = leverAnswer(car, two).outputs[0]!.cylinder!.bores;
    expect(a!.pressureBar[1] / b!.pressureBar[1]).toBeCloseTo(0.6 / 0.4, 9);
    const one = leverAnswer(car, leverOfDemo('K2')).outputs[0]!.cylinder!.bores[0]!;
    expect(a!.pressureBar[1] + b!.pressureBar[1]).toBeCloseTo(one.pressureBar[1], 6);
  });

  it('have at every turn the ratio that handle and output have between the turns beside it', () => {
    for (const id of ['K1', 'K2']) {
      const { curve } = leverAnswer(car, leverOfDemo(id)).outputs[0]!;
      for (const [i, row] of curve.slice(1, -1).entries()) {
        const [before, after] = [curve[i]!, curve[i + 2]!];
        const slope = Math.abs((after.handleMm - before.handleMm) / (after.outputMm - before.outputMm));
        expect(row.leverRatio! / slope, `${id} at ${row.turnDeg}`).toBeCloseTo(1, 2);
      }
    }
  });

  it('load the pivot with hand and cylinder as they point (hand: 2100 - 300 N)', () => {
    expect(leverAnswer(car, leverOfDemo('K2')).outputs[0]!.pivotN).toBeCloseTo(1800, 6);
  });
});

describe('what stands in the way', () => {
  const thing = (solids: Obstacle['poses'][number], row: Partial<Obstacle> = {}): Obstacle => ({
    id: 't',
    name: 'Thing',
    class: 'fixed',
    knownToMm: 5,
    poses: [solids],
    wantMm: 25,
    ...row,
  });

  it('is notched where the lever passes, and a stop where it is too near at nominal, a fix at worst case only', () => {
    const lever = leverOfDemo('K2');
    const wall = (x: number) => thing([box([x, 200, 350], [x + 50, 400, 600])]);
    const level = (x: number) => sweepFindings(lever, sweepGaps(lever, [wall(x)]))[0]?.level;
    // The tip of the grip goes to 700 + 250 sin 24.6 + 16 = 820, and lower points less.
    expect(level(840)).toBe('stop');
    expect(level(848)).toBe('fix');
    expect(level(860)).toBeUndefined();
    const [hit] = sweepGaps(lever, [wall(790)]);
    expect(hit!.gapMm).toBeCloseTo(790 - 700 - 250 * Math.sin((24.6 * Math.PI) / 180) - 16, 0);
    expect(hit!.notch!.depthMm).toBeCloseTo(25 - hit!.gapMm, 9);
    expect(hit!.notch!.minMm[1]).toBeCloseTo(340 - 16 - 25, 6);
  });

  it('is told as hot beside the end of a cable, with what a shield would do', () => {
    const lever = leverOfDemo('K1');
    const cable = leverAnswer(car, lever).outputs[0]!.cables[0]!;
    const hot = thing([box([2150, 260, 300], [2250, 320, 400])], { class: 'hot', wantMm: 100, shieldedMm: 50 });
    const gaps = cableGaps(cable, 1, [hot]);
    // Hand: 70 mm across from the conduit's end, less half its 11 mm.
    expect(gaps[0]!.gapMm).toBeCloseTo(70 - 5.5, 1);
    const [finding] = cableGapFindings(lever, cable, gaps, [hot]);
    expect(finding).toMatchObject({ code: 'cable-hot', level: 'stop', part: 't', link: 'K1a' });
    expect(finding!.text).toMatch(/beside its far end/);
    expect(finding!.cures[1]).toMatch(/a shield on Thing: 50 mm are wanted then$/);
    // 20 mm nearer a shield is not enough: 44.5 mm, 6 short when rounded up.
    const nearer = thing([box([2150, 240, 300], [2250, 320, 400])], { class: 'hot', wantMm: 100, shieldedMm: 50 });
    const [still] = cableGapFindings(lever, cable, cableGaps(cable, 1, [nearer]), [nearer]);
    expect(still!.cures[1]).toMatch(/50 mm are wanted then, 6 short still$/);
  });
});

describe('any lever that the car file takes', () => {
  it('is answered without a number that is none (60 levers, seed 909)', () => {
    const rng = seeded(909);
    const num = (low: number, high: number): number => Math.round((low + (high - low) * rng()) * 10) / 10;
    const at = (): [number, number, number] => [num(-50, 50), num(-50, 50), num(-50, 50)];
    let answered = 0;
    for (let n = 0; n < 60; n++) {
      const arms = [
        { id: 'a', atMm: at() },
        { id: 'b', atMm: at() },
      ];
      const maybe = <T>(row: T): T | undefined => (rng() < 0.5 ? row : undefined);
      const rows = [
        {
          id: 'L',
          acts: 'hand',
          pivotMm: [0, 0, 0],
          axis: at(),
          handle: { atMm: at() },
          arms,
          turnDeg: [num(-170, 0), num(0, 170)],
          force: maybe({ usualN: num(0, 500), rangeN: [0, num(0, 1000)] }),
          wheel: maybe({ centreMm: at(), axis: at(), rimRadiusMm: num(1, 300) }),
          rods: maybe([{ id: 'R', arm: 'a', to: { lever: 'M', arm: 'q' } }]),
          cables: maybe([
            {
              id: 'C',
              arm: 'b',
              to: { lever: 'M', arm: 'q' },
              pathMm: [at(), at(), at()],
              odMm: num(1, 20),
              slackMm: maybe(num(0, 5)),
              strokeMm: maybe(num(1, 50)),
              crossing: [{ part: 'nobody', atMm: at() }],
            },
          ]),
          cylinders: maybe([
            {
              id: 'Y',
              arm: 'a',
              farMm: at(),
              boreMm: num(1, 50),
              freeMm: maybe(num(0, 5)),
              needsMl: maybe(num(0, 10)),
              wantedBar: maybe([10, 20]),
              strokeMm: maybe(num(1, 50)),
              secondBoreMm: maybe(num(1, 50)),
            },
          ]),
          was: maybe({ turnDeg: [num(-90, 0), num(0, 90)], handle: { atMm: at() } }),
        },
        { id: 'M', acts: 'link', pivotMm: at(), axis: at(), arms: [{ id: 'q', atMm: at() }], turnDeg: [-60, 60] },
      ];
      const read = readCar(JSON.stringify({ fairlead: 1, parts: [], movers: [], lines: [], levers: rows }));
      if (!read.ok) continue;
      answered++;
      for (const lever of read.car.levers!) {
        const answer = leverAnswer(read.car, lever);
        const told = JSON.stringify(answer, (_, value: unknown) =>
          typeof value === 'number' && !Number.isFinite(value) ? 'NOT-A-NUMBER' : value,
        );
        expect(told).not.toMatch(/NOT-A-NUMBER|NaN|Infinity|undefined|not known/);
      }
    }
    expect(answered).toBeGreaterThan(30);
  });
});
