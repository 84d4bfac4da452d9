import { readFileSync } from 'node:fs';
import { bay, poses } from '#bay';
import { type Car, type Lever, readCar } from '#car';
import { movedPoint, type TriangleMesh } from '#geometry';
import { leverAnswer, leverParts } from '#levers';
import { describe, expect, it } from 'vitest';
import { leverOf, leversOf } from './lever-of.ts';

const reading = readCar(readFileSync(new URL('../../demo/fellside.json', import.meta.url), 'utf8'));
if (!reading.ok) throw new Error('the demo car is no car');
// Without the scanned parts: nothing has to be read beside the car.
const car: Car = {
  ...reading.car,
  parts: reading.car.parts.filter(({ shapes }) => shapes.every(({ mesh }) => mesh === undefined)),
};
const leverOfDemo = (id: string): Lever => car.levers!.find((row) => row.id === id)!;

describe('levers as parts of the car', () => {
  it('stand in the bay with every end of their swing, and leave a car without levers as it is', () => {
    const { levers: _, ...bare } = car;
    expect(bay(bare as Car, new Map()).parts.length).toBe(bay(car, new Map()).parts.length - 2);
    const space = bay(car, new Map());
    const lever = leverOfDemo('K2');
    expect(space.partById.get('K2')?.moverId).toBe('K2');
    const tips = poses(space.movers.get('K2')!).map((pose) => movedPoint(pose, lever.handle!.atMm));
    const far = 210 * Math.sin((24.6 * Math.PI) / 180) + 700;
    expect(Math.max(...tips.map(([x]) => x))).toBeCloseTo(far, 6);
  });

  it('draw cables within a millimetre of their path', () => {
    const tube = leverParts(car).cableParts.find(({ id }) => id === 'K1-K1a')!.shapes[0]!.tube!;
    const path = leverAnswer(car, leverOfDemo('K1')).outputs[0]!.cables[0]!.pathMm;
    expect(tube.pointsMm.length).toBeLessThan(120);
    const off = (p: readonly number[]): number =>
      Math.min(
        ...tube.pointsMm.slice(1).map((b, i) => {
          const a = tube.pointsMm[i]!;
          const w = [0, 1, 2].map((k) => b[k]! - a[k]!);
          const t = [0, 1, 2].reduce((sum, k) => sum + w[k]! * (p[k]! - a[k]!), 0) / w.reduce((s, x) => s + x * x, 0);
          const share = Math.min(1, Math.max(0, t));
          return Math.hypot(...[0, 1, 2].map((k) => p[k]! - a[k]! - w[k]! * share));
        }),
      );
    expect(Math.max(...path.map(off))).toBeLessThan(1);
  });
});

describe('the levers of the demo car', () => {
  it('are found to end in the heat of the turbine, and clear of each other, without being told', () => {
    const meshes = new Map<string, TriangleMesh>();
    const answers = leversOf(car, meshes);
    const stops = answers.flatMap(({ findings }) => findings).filter(({ level }) => level === 'stop');
    const hot = stops.find(({ code }) => code === 'cable-hot')!;
    expect(hot).toMatchObject({ lever: 'K1', link: 'K1a', part: 'turbine', limit: 150 });
    expect(hot.text).toMatch(/beside its far end/);
    // K2 stands more than the 50 mm from it within which gaps are listed.
    expect(answers.find(({ lever }) => lever === 'K1')!.sweep.map(({ part }) => part)).not.toContain('K2');
    expect(leverOf(car, meshes, leverOfDemo('K1')).findings).toEqual(answers[0]!.findings);
    // 100 mm nearer, the gear lever would hit the handbrake in the middle of its swing.
    const moved = { ...leverOfDemo('K1'), id: 'K9' };
    const shifted = {
      ...moved,
      shapes: moved.shapes!.map((tube) => ({
        ...tube,
        pointsMm: tube.pointsMm.map(([x, y, z]): [number, number, number] => [x, y + 100, z]),
      })),
    };
    const hit = leverOf({ ...car, levers: [shifted, leverOfDemo('K2'), leverOfDemo('gate-arm')] }, meshes, shifted);
    expect(hit.findings.find(({ code, part }) => code === 'lever-sweep' && part === 'K2')?.level).toBe('stop');
  });
});
