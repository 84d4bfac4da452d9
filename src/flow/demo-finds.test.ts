import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { readCar } from '#car';
import { linesWorld, standingWay } from '#lines';
import { flowOfCar } from './flow-of-car.ts';

const taken = fileURLToPath(new URL('../../test/screen/fellside-taken.json.gz', import.meta.url));

describe('what the demo car finds on its own, whatever the case', () => {
  const reading = readCar(gunzipSync(readFileSync(taken)).toString());
  if (!reading.ok) throw new Error('the demo with its taken ways does not read');
  const { car } = reading;
  const world = linesWorld(car, new Map());
  const ways = new Map(
    car.lines.flatMap((line) => (line.taken ? [[line.id, standingWay(world, line, line.taken)] as const] : [])),
  );
  const answer = flowOfCar({ car, shelf: world.shelf, ways, meshes: new Map(), part: 'circuits' });
  const circuit = (id: string) => answer.circuits.find((row) => row.circuit === id)!;

  it('its water has a place where air stays, which stands on the ladder of heights and among the bleeds to be', () => {
    const { findings, heights } = circuit('water');
    const trap = findings.find(({ code, line }) => code === 'air-trap' && line === 'C1')!;
    expect(trap.place).toHaveLength(3);
    expect(trap.cures[0]).toMatch(/^a -4 bleed there, rising all the way to the header/u);
    const [rung] = heights!.ladder.filter(({ kind, words }) => kind === 'trap' && words.includes('C1'));
    // It stays only with the car leant: the ladder says how.
    expect(rung!.words).toMatch(/^air stays in C1, nose up 3 degrees$/u);
    expect(rung!.heightMm).toBeCloseTo(trap.place![2], 6);
  });

  it('its tank is bared at 2.17 g with 6 L, as worked by hand of a cylinder, and at no g with 8 L', () => {
    const tank = circuit('oil').tanks![0]!;
    const six = tank.greatest.find(({ oilM3 }) => Math.abs(oilM3 - 0.006) < 1e-9)!;
    const ahead = six.rows.find(({ directionDeg }) => directionDeg === 0)!;
    // 6 L in a cylinder of 90 mm radius stand 235.8 mm deep; the bore of 20 to 22.2 mm lies 30 mm up in the front wall, 90 mm before the
    // middle: speeding up, the surface there falls by 90 mm for each g. (235.8 - 30 - 10 to 11.1)/90.
    const depth = 6e6 / (Math.PI * 90 ** 2);
    expect(ahead.g).toBeLessThanOrEqual((depth - 30 - 10) / 90);
    expect(ahead.g).toBeGreaterThanOrEqual((depth - 30 - 11.1) / 90);
    expect(Math.min(...six.rows.map(({ g }) => g))).toBeCloseTo(ahead.g, 6);
    expect(tank.greatest.find(({ oilM3 }) => Math.abs(oilM3 - 0.008) < 1e-9)!.rows.every(({ isAll }) => isAll)).toBe(
      true,
    );
  });
});
