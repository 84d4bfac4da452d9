import { describe, expect, it } from 'vitest';
import { ballMesh, chance } from '../../../test/geometry/seeded-meshes.ts';
import { humpedPan } from './humped-pan.fixture.ts';
import { tankOfBox, tankOfCylinder, tankOfMesh } from './tank.ts';
import { sectionArea, tankSection } from './tank-section.ts';

const rest = { longitudinalG: 0, lateralG: 0, verticalG: 1 };
const out = { id: 'out', atMm: [1690, -600, 120], axis: [-1, 0, 0], boreMm: 22 } as const;
const tank = tankOfCylinder([1780, -600, 90], [1780, -600, 570], 90);

describe('the section of a tank', () => {
  it('of a cylinder through its axis is its rectangle, with oil and level where they are by hand', () => {
    const section = tankSection(tank, [out], { ...rest, longitudinalG: 1.5 }, 0.006);
    expect(section.rightWords).toBe('rearward');
    expect(sectionArea(section.insideMm)).toBeCloseTo(180 * 480, -2);
    const depth = 0.006 / (Math.PI * 0.09 ** 2) / 1e-3;
    // The plane cuts the axis at the level at rest, so that the oil in the middle section is as at rest.
    expect(sectionArea(section.oilMm) / (180 * depth)).toBeCloseTo(1, 3);
    expect(section.levelMm).toHaveLength(1);
    const [low, high] = [...section.levelMm[0]!].sort((s, t) => s[0] - t[0]);
    expect([low![1], high![1]]).toEqual([expect.closeTo(90 + depth - 135, 0), expect.closeTo(90 + depth + 135, 0)]);
    expect(section.restMm[0]!.map(([, z]) => z)).toEqual([
      expect.closeTo(90 + depth, 6),
      expect.closeTo(90 + depth, 6),
    ]);
    expect(section.pull).toEqual([
      expect.closeTo(1.5 / Math.hypot(1, 1.5), 9),
      expect.closeTo(-1 / Math.hypot(1, 1.5), 9),
    ]);
    expect(section.outlets[0]).toMatchObject({
      id: 'out',
      offMm: expect.closeTo(0, 9),
      cover: { covering: 'covered' },
    });
    const rim = section.outlets[0]!.rimMm.map(([, z]) => z);
    expect([Math.min(...rim), Math.max(...rim)]).toEqual([expect.closeTo(109, 9), expect.closeTo(131, 9)]);
  });

  it('shows an outlet beside the section as it stands to the oil', () => {
    const section = tankSection(tank, [out], { ...rest, lateralG: -0.8 }, 0.006);
    const [shown] = section.outlets;
    expect(shown!.offMm).toBeCloseTo(90, 0);
    const { surface } = section;
    if (surface.kind === 'none') throw new Error(surface.why);
    const heads = shown!.rimMm.map(
      ([s, z]) => surface.heightMm - (s * (surface.up[1] * section.right[1]) + z * surface.up[2]),
    );
    expect(Math.min(...heads)).toBeCloseTo(shown!.cover!.headMm, 0);
    expect(sectionArea(section.insideMm)).toBeCloseTo(180 * 480, -2);
  });

  it('looks along the pull: words for its right hand', () => {
    const words = (longitudinalG: number, lateralG: number) =>
      tankSection(tank, [out], { ...rest, longitudinalG, lateralG }, 0.006).rightWords;
    expect(words(1, 0)).toBe('rearward');
    expect(words(-1, 0)).toBe('forward');
    expect(words(0, 1)).toBe("to the car's left");
    expect(words(0, -1)).toBe("to the car's right");
    expect(words(1, -1)).toBe("rearward and to the car's right");
    expect(words(-1, 1)).toBe("forward and to the car's left");
  });

  it('of a humped pan low on oil is two pools with their own stretch of the level (hand)', () => {
    const pan = tankOfMesh(humpedPan(240));
    const section = tankSection(pan, [{ ...out, atMm: [75, 120, 10], axis: [1, 0, 0] }], rest, 0.0035);
    const height = section.surface.kind === 'surface' ? section.surface.heightMm : Number.NaN;
    expect(height).toBeLessThan(90);
    expect(section.levelMm).toHaveLength(2);
    expect(sectionArea(section.oilMm) * 240).toBeCloseTo(3.5e6, 3);
    expect(sectionArea(section.insideMm) * 240).toBeCloseTo(pan.volumeM3 * 1e9, 3);
    for (const [s, t] of section.levelMm)
      expect([s[1], t[1]]).toEqual([expect.closeTo(height, 9), expect.closeTo(height, 9)]);
  });

  it('agrees with the volume: sections side by side add up to tank and oil (second: trapezia; seed 6)', () => {
    const draw = chance(6);
    const ball = tankOfMesh(ballMesh(3, 120, 25, 5));
    for (let k = 0; k < 3; k++) {
      const g = { ...rest, longitudinalG: draw(-2, 2), lateralG: draw(-2, 2) };
      const oilM3 = ball.volumeM3 * draw(0.1, 0.9);
      const probe = tankSection(ball, [], g, oilM3);
      const away = [probe.right[1], -probe.right[0]];
      let [inside, oil] = [0, 0];
      for (let i = -150; i <= 150; i++) {
        const cut = tankSection(ball, [], g, oilM3, [away[0]! * i, away[1]! * i, 0]);
        inside += sectionArea(cut.insideMm);
        oil += sectionArea(cut.oilMm);
      }
      expect(inside / 1e9 / ball.volumeM3).toBeCloseTo(1, 3);
      expect(oil / inside).toBeCloseTo(oilM3 / ball.volumeM3, 3);
    }
  });

  it('without pull has a tank, no oil drawn, and says why', () => {
    const section = tankSection(tankOfBox([0, 0, 0], [100, 100, 100]), [], { ...rest, verticalG: 0 }, 0.0005);
    expect(section).toMatchObject({ oilMm: [], levelMm: [], pull: undefined, surface: { kind: 'none' } });
    expect(sectionArea(section.insideMm)).toBeCloseTo(10000, 6);
  });

  it('full and empty: all oil and none', () => {
    const section = (oilM3: number) => tankSection(tank, [out], { ...rest, lateralG: 0.7 }, oilM3);
    expect(sectionArea(section(tank.volumeM3).oilMm)).toBeCloseTo(sectionArea(section(0).insideMm), 6);
    expect(sectionArea(section(0).oilMm)).toBeCloseTo(0, 6);
  });
});
