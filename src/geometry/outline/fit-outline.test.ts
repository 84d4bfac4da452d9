import { describe, expect, it } from 'vitest';
import { fittedOutline } from './fit-outline.ts';
import { type Outline, outlineArea, outlinePoints, type Point2, roundOutline, sideArc } from './outline.ts';

/** Places every `step` mm round an outline, each moved across it by a repeatable scatter. */
function chain(outline: Outline, step: number, scatter: number): Point2[] {
  const dense = outlinePoints(outline, 0.0005);
  const out: Point2[] = [];
  let [left, k] = [0, 0];
  dense.forEach((p, i) => {
    const q = dense[(i + 1) % dense.length]!;
    const length = Math.hypot(q[0] - p[0], q[1] - p[1]);
    for (; left < length; left += step) {
      const off = scatter * Math.sin(12.9898 * k * k + 78.233 * k) * Math.SQRT2;
      const [x, y] = [(q[0] - p[0]) / length, (q[1] - p[1]) / length];
      out.push([p[0] + left * x - off * y, p[1] + left * y + off * x]);
      k++;
    }
    left -= length;
  });
  return out;
}

const quarter = Math.tan(Math.PI / 8);
const panel: Outline = [
  { at: [0, 0] },
  { at: [150, 0], bulge: -0.5 },
  { at: [230, 0] },
  { at: [560, 0], bulge: quarter },
  { at: [600, 40] },
  { at: [590, 300] },
  { at: [500, 380] },
  { at: [20, 360] },
];
const wish = { scatterMm: 0.12, bowMm: 0.2, cornerMm: 1 };

// hand: the chain is made from the outline, which is what must come back
describe('lines and arcs through a chain', () => {
  it('finds the sides of a panel through 0.1 mm of scatter', () => {
    const { outline, rmsMm } = fittedOutline(chain(panel, 1.5, 0.1), wish);
    expect(outline).toHaveLength(panel.length);
    const first = outline.findIndex(({ at }) => Math.hypot(at[0], at[1]) < 2);
    panel.forEach((corner, i) => {
      const found = outline[(first + i) % outline.length]!;
      // a tangent joint is where the sides hardly part: it may slide along them
      const within = i === 3 || i === 4 ? 2.5 : 0.35;
      expect(Math.hypot(found.at[0] - corner.at[0], found.at[1] - corner.at[1])).toBeLessThan(within);
      expect(found.bulge ?? 0).toBeCloseTo(corner.bulge ?? 0, 1);
    });
    expect(Math.abs(outlineArea(outline) / outlineArea(panel) - 1)).toBeLessThan(2e-4);
    expect(rmsMm).toBeLessThan(0.13);
  });

  it('a hole is a circle, and its way round is kept', () => {
    const hole = [...roundOutline([40, 30], 24)].reverse().map(({ at }) => ({ at, bulge: -1 }));
    const { outline } = fittedOutline(chain(hole, 1.2, 0.1), wish);
    expect(outline).toHaveLength(2);
    expect(sideArc(outline, 0)!.radius).toBeCloseTo(24, 1);
    expect(sideArc(outline, 0)!.centre[0]).toBeCloseTo(40, 1);
    expect(outlineArea(outline)).toBeLessThan(0);
  });

  it('a bow that the lens may have left is not followed, one that it cannot have left is', () => {
    const bowed = (bow: number): Outline => [
      { at: [0, 0], bulge: (2 * bow) / 600 },
      { at: [600, 0] },
      { at: [600, 200] },
      { at: [0, 200] },
    ];
    expect(fittedOutline(chain(bowed(0.4), 1.5, 0.1), wish).outline.every(({ bulge }) => bulge === undefined)).toBe(
      true,
    );
    const arc = fittedOutline(chain(bowed(6), 1.5, 0.1), wish).outline.find(({ bulge }) => bulge !== undefined);
    expect(300 * arc!.bulge!).toBeCloseTo(6, 0);
  });

  it('refuses too few places', () => {
    expect(() =>
      fittedOutline(
        [
          [0, 0],
          [1, 0],
          [0, 1],
        ],
        wish,
      ),
    ).toThrow(/3 places; allowed: 12/);
  });
});
