import type { Panel } from '#car';
import { outlineArea, outlinePoints, type Point2 } from '#geometry';
import { expect, it } from 'vitest';
import { laidOut } from '../laid-out.ts';
import { NOWHERE } from '../nowhere.fixture.ts';

const crosses = (a: Point2, b: Point2, c: Point2, d: Point2) => {
  const turn = (p: Point2, q: Point2, r: Point2) => (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  return turn(a, b, c) * turn(a, b, d) < -1e-9 && turn(c, d, a) * turn(c, d, b) < -1e-9;
};

it('a box of four flanges: its outline never crosses itself, and its area is that of web, flanges, less notches and holes (hand)', () => {
  const corners = [
    [0, 0],
    [400, 0],
    [400, 300],
    [0, 300],
  ].map(([x, y], i) => ({ id: 'ABCD'[i]!, atMm: [x!, y!, 0] as [number, number, number] }));
  const panel: Panel = {
    id: 'box',
    thicknessMm: 1,
    kFactor: 0.447,
    bendRadiusMm: 1,
    outside: [0, 0, 1],
    corners,
    edges: corners.map(({ id }, i) => ({
      from: id,
      to: 'BCDA'[i]!,
      flange: { heightMm: 20, turnDeg: 90, towards: 'inside' as const },
    })),
  };
  const flat = laidOut(panel, NOWHERE)[0]!.flats[0]!;
  const points = outlinePoints(flat.outline, 0.1);
  let crossed = 0;
  for (let i = 0; i < points.length; i++)
    for (let j = i + 2; j < points.length; j++)
      if (
        !(i === 0 && j === points.length - 1) &&
        crosses(points[i]!, points[(i + 1) % points.length]!, points[j]!, points[(j + 1) % points.length]!)
      )
        crossed++;
  expect(crossed).toBe(0);
  // SB = 2, BA = pi/2 (1 + 0.447) = 2.273; web 396 x 296; each flange 18 wide beyond its bend, its ends 1.25 (thickness and half
  // a gap of 0.5) from the corner; bend zones run from there to the corner of the web.
  const [sb, ba] = [2, (Math.PI / 2) * 1.447];
  const web = (400 - 2 * sb) * (300 - 2 * sb);
  const flanges = 2 * (400 - 2.5) * 18 + 2 * (300 - 2.5) * 18;
  const bends = [400, 300].reduce((sum, l) => sum + ba * (l - 2 * sb + (l - 2.5)), 0);
  // Eight free corners rounded by 3 lose (4 - pi)/4 r2 each; a relief hole of 3.18 takes three quarters of itself and a little.
  const round = 8 * ((4 - Math.PI) / 4) * 9;
  const relief = 4 * Math.PI * 1.59 ** 2;
  const area = outlineArea(flat.outline);
  expect(area).toBeLessThan(web + flanges + bends - round - 0.75 * relief + 0.5);
  expect(area).toBeGreaterThan(web + flanges + bends - round - relief - 0.5);
});
