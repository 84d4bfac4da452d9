import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import { planarWays, type Word } from './dubins.ts';
import { type EndPose, fixedPose, tailPose } from './end-pose.ts';
import { endsOfTurns, growthByRadius, type PlanarCase, shortestRefined, threeTurnCase } from './planar-ways.fixture.ts';
import { refined, type SlackField } from './refine.ts';
import { addScaled, cross, distance, norm, perpendicular, sub, type Vec } from './vec.ts';

const RADIUS = 100;

describe('refined, against shortest planar ways by circle geometry (second: dubins.ts, which shares nothing with the kernel)', () => {
  const random = xoroshiro128plus(20261125);
  const uniform = (): number => (random.next() >>> 0) / 4294967296;
  const met = new Map<Word, number>();
  for (const spread of [0.7, 1.5, 3, 6]) {
    it(`finds the shortest of all six words within 0.1 % on 55 cases within ${spread} R`, () => {
      for (let k = 0; k < 55; k++) {
        const from = { x: 0, y: 0, headingRad: 2 * Math.PI * uniform() };
        const aside = spread * RADIUS * (2 * uniform() - 1);
        const to = { x: aside, y: spread * RADIUS * (2 * uniform() - 1), headingRad: 2 * Math.PI * uniform() };
        const best = planarWays(from, to, RADIUS)[0]!;
        met.set(best.word, (met.get(best.word) ?? 0) + 1);
        const ratio = shortestRefined({ from, to }, RADIUS, 5) / best.lengthMm;
        expect(Math.abs(ratio - 1), `case ${k}: ${best.word} ${ratio}`).toBeLessThan(1e-3);
      }
    });
  }

  it('met each of the six words often enough to count', () => {
    expect([...met.keys()].sort()).toEqual(['LRL', 'LSL', 'LSR', 'RLR', 'RSL', 'RSR']);
    expect(Math.min(...met.values())).toBeGreaterThanOrEqual(10);
  });

  it('turns about on the spot in 7/3 pi R (hand: three circles whose centres make an equilateral triangle)', () => {
    const from = { x: 0, y: 0, headingRad: 0 };
    const to = { x: 0, y: 0, headingRad: Math.PI };
    expect(shortestRefined({ from, to }, RADIUS, 5) / ((7 / 3) * Math.PI * RADIUS)).toBeCloseTo(1, 3);
  });
});

describe('refined, against three turns of which the first or last is short (second: dubins.ts)', () => {
  const ratioOf = (one: PlanarCase): number =>
    shortestRefined(one, RADIUS, 2.5) / planarWays(one.from, one.to, RADIUS)[0]!.lengthMm;

  // Each was missed: the refinement left its seed for a curve a hair tighter than allowed, or the seed's near-full circle was taken for none.
  const MISSED = [
    [0.204, 3.386, 0.287],
    [1.107, 3.387, 0.178],
    [0.089, 3.271, 0.199],
    [2.742, 3.478, 0.261],
    [0.247, 6.208, 0.261],
    [0.258, 6.1, 0.213],
    [0.862, 6.192, 0.62],
  ];
  for (const turns of MISSED) {
    it(`finds turns of ${turns.join(', ')} rad within 0.1 %`, () => {
      for (const hand of [1, -1]) expect(Math.abs(ratioOf(endsOfTurns(turns, hand, RADIUS)) - 1)).toBeLessThan(1e-3);
    });
  }

  it('finds the shortest within 0.1 % on 30 seeded cases; `npm run prove -- planar` tries thousands', () => {
    const random = xoroshiro128plus(31);
    const uniform = (): number => (random.next() >>> 0) / 4294967296;
    let tried = 0;
    while (tried < 30) {
      const one = threeTurnCase(uniform, RADIUS);
      if (growthByRadius(one, RADIUS) > 1e-3) continue;
      expect(Math.abs(ratioOf(one) - 1), `case ${tried++}`).toBeLessThan(1e-3);
    }
  });
});

/** A round column along z, as a field. */
function column(x0: number, y0: number, radius: number): SlackField {
  return {
    slackAndGradient(x, y, _z, out) {
      const r = Math.hypot(x - x0, y - y0) || 1e-9;
      out[0] = r - radius;
      out[1] = (x - x0) / r;
      out[2] = (y - y0) / r;
      out[3] = 0;
    },
  };
}

describe('refined between random elbowed ends, from seeds that know nothing of their directions', () => {
  const random = xoroshiro128plus(77);
  const uniform = (): number => (random.next() >>> 0) / 4294967296;
  const anyDirection = (): Vec => {
    const z = 2 * uniform() - 1;
    const a = 2 * Math.PI * uniform();
    return [Math.sqrt(1 - z * z) * Math.cos(a), Math.sqrt(1 - z * z) * Math.sin(a), z];
  };
  const elbowed = (origin: Vec): EndPose => {
    const axis = anyDirection();
    const up = perpendicular(axis);
    const angleRad = [0, 30, 45, 60, 90, 120, 150, 180][Math.floor(8 * uniform())]! * (Math.PI / 180);
    return {
      origin,
      axis,
      up,
      right: cross(axis, up),
      riseMm: 30 + 20 * Math.sin(angleRad),
      offsetMm: 30 * (1 - Math.cos(angleRad)),
      angleRad,
      phiRad: 2 * Math.PI * uniform(),
      free: true,
      straightMm: 25,
    };
  };

  it('keeps every limit on 60 of 60, checked point by point', () => {
    for (let k = 0; k < 60; k++) {
      const a = elbowed([0, 0, 0]);
      const b = elbowed([500 * uniform(), 500 * uniform(), 500 * uniform()]);
      const way = refined({ a, b, minBendRadiusMm: 70, seed: [...a.origin, ...b.origin] });
      expect(way.ok, `case ${k}`).toBe(true);
      const tail = tailPose(a, way.phiA);
      const p = way.points;
      const at = (i: number): Vec => [p[3 * i]!, p[3 * i + 1]!, p[3 * i + 2]!];
      expect(distance(at(0), tail.point)).toBeLessThan(1e-9);
      expect(distance(at(1), addScaled(tail.point, tail.direction, 25))).toBeLessThan(1e-9);
      const last = p.length / 3 - 1;
      const other = tailPose(b, way.phiB);
      expect(distance(at(last), other.point)).toBeLessThan(1e-9);
      expect(distance(at(last - 1), addScaled(other.point, other.direction, 25))).toBeLessThan(1e-9);
      let length = 50;
      for (let i = 1; i < last - 1; i++) {
        length += distance(at(i), at(i + 1));
        if (i === 1) continue;
        const [u, v] = [sub(at(i), at(i - 1)), sub(at(i + 1), at(i))];
        const radius = (norm(u) * norm(v) * distance(at(i - 1), at(i + 1))) / (2 * Math.max(1e-12, norm(cross(u, v))));
        expect(radius, `case ${k}, point ${i}`).toBeGreaterThan(70 * 0.9999);
      }
      expect(way.lengthMm / length).toBeGreaterThanOrEqual(1);
      expect(way.lengthMm / length).toBeLessThan(1.002);
    }
  });
});

describe('refined round a column', () => {
  // hand: taut string, two tangents and the arc between: 2 sqrt(d^2 - a^2) + a (pi - 2 acos(a / d)), d = 400, a = 100 + 12
  const string = 2 * Math.sqrt(400 ** 2 - 112 ** 2) + 112 * (Math.PI - 2 * Math.acos(112 / 400));
  const tilt = Math.asin(112 / 400);
  const a = fixedPose([-400, 0, 0], [Math.cos(tilt), Math.sin(tilt), 0]);
  const b = fixedPose([400, 0, 0], [-Math.cos(tilt), Math.sin(tilt), 0]);

  it('is the taut string within 0.1 %, from a seed through the column', () => {
    const seed = [-400, 0, 0, -200, -10, 0, 0, 20, 0, 200, -10, 0, 400, 0, 0];
    const way = refined({ a, b, minBendRadiusMm: 60, seed, field: column(0, 0, 100), marginMm: 12 });
    expect(way.ok).toBe(true);
    expect(Math.abs(way.lengthMm / string - 1)).toBeLessThan(1e-3);
    expect(way.worstSlackMm).toBeGreaterThanOrEqual(0);
  });

  it('is the helix on the column (hand: the column unrolled): rising 300 over the arc adds as to a straight line', () => {
    // Start and end on the column's keep-off surface, headed along the helix of slope 300 / (112 * 3).
    const turn = 3;
    const rise = 300;
    const run = 112 * turn;
    const length = Math.hypot(run, rise);
    const at = (t: number): Vec => [112 * Math.cos(t * turn), 112 * Math.sin(t * turn), rise * t];
    const heading = (t: number): Vec => [
      (-run * Math.sin(t * turn)) / length,
      (run * Math.cos(t * turn)) / length,
      rise / length,
    ];
    const back = heading(1);
    const seed = [0, 0.2, 0.4, 0.6, 0.8, 1].flatMap((t) => at(t).map((v, k) => (k < 2 ? 1.2 * v : v)));
    const way = refined({
      a: fixedPose(at(0), heading(0)),
      b: fixedPose(at(1), [-back[0], -back[1], -back[2]]),
      minBendRadiusMm: 40,
      seed,
      field: column(0, 0, 100),
      marginMm: 11.95, // the ends lie on the keep-off surface itself: leave a hair
    });
    expect(way.ok).toBe(true);
    expect(Math.abs(way.lengthMm / length - 1)).toBeLessThan(1e-3);
  });
});

describe('refined with turning ends', () => {
  const elbow: EndPose = {
    origin: [0, 0, 0],
    axis: [0, 0, 1],
    up: [1, 0, 0],
    right: [0, 1, 0],
    riseMm: 40,
    offsetMm: 35,
    angleRad: Math.PI / 2,
    phiRad: 2,
    free: true,
    straightMm: 30,
  };

  it('points two elbows on parallel axes at each other (hand: the distance of the axes less both offsets)', () => {
    const way = refined({
      a: elbow,
      b: { ...elbow, origin: [500, 300, 0], phiRad: -1 },
      minBendRadiusMm: 100,
      seed: [0, 0, 40, 500, 300, 40],
    });
    expect(way.ok).toBe(true);
    expect(way.lengthMm).toBeCloseTo(Math.hypot(500, 300) - 70, 0);
    expect(Math.cos(way.phiA - Math.atan2(300, 500))).toBeGreaterThan(0.9995);
  });

  it('leaves a fixed clock alone, keeps both straights and says where it is worst', () => {
    const way = refined({
      a: { ...elbow, free: false },
      b: { ...elbow, origin: [500, 300, 0], phiRad: -1 },
      minBendRadiusMm: 100,
      seed: [0, 0, 40, 250, 400, 40, 500, 300, 40],
    });
    expect(way.ok).toBe(true);
    expect(way.phiA).toBe(2);
    const p = way.points;
    expect(p[0]).toBeCloseTo(35 * Math.cos(2), 9);
    expect(p[1]).toBeCloseTo(35 * Math.sin(2), 9);
    expect(p[2]).toBeCloseTo(40, 9);
    expect(p[3]).toBeCloseTo(65 * Math.cos(2), 9);
    expect(way.worstCurvature * 100).toBeLessThanOrEqual(1);
  });

  it('turns the clock away from a wall that only the fitting would touch', () => {
    const wall: SlackField = {
      slackAndGradient(_x, y, _z, out) {
        out[0] = 30 - y;
        out[1] = 0;
        out[2] = -1;
        out[3] = 0;
      },
    };
    const bodySamples = Float64Array.from([40, 35, 12, 40, 20, 12]);
    const way = refined({
      a: { ...elbow, phiRad: 1.2, bodySamples },
      b: fixedPose([300, -200, 40], [0, 1, 0], 20),
      minBendRadiusMm: 60,
      seed: [0, 0, 40, 150, 20, 40, 300, -200, 40],
      field: wall,
      marginMm: 8,
    });
    expect(way.ok).toBe(true);
    expect(35 * Math.sin(way.phiA)).toBeLessThan(18.01);
  });
});

describe('refined near its ends', () => {
  it("reads the end's own field there and the common one elsewhere", () => {
    // A wall at x < 40 that only a line near its own port may stand by; both straight ahead.
    const everywhere: SlackField = {
      slackAndGradient(x, _y, _z, out) {
        out[0] = x - 40;
        out[1] = 1;
        out[2] = 0;
        out[3] = 0;
      },
    };
    const free: SlackField = { slackAndGradient: (_x, _y, _z, out) => void out.set([100, 0, 0, 0]) };
    const problem = {
      a: fixedPose([0, 0, 0], [1, 0, 0] as Vec, 20),
      b: fixedPose([400, 0, 0], [-1, 0, 0] as Vec, 20),
      minBendRadiusMm: 80,
      seed: [0, 0, 0, 400, 0, 0],
      field: everywhere,
      marginMm: 10,
    };
    expect(refined(problem).ok).toBe(false);
    expect(refined({ ...problem, nearA: { field: free, lengthMm: 60 } }).ok).toBe(true);
  });
});

describe('refined against itself', () => {
  it('a loop back to where it began is told and refused (hand: both ends at one point, so the diameter overlaps)', () => {
    const problem = {
      a: fixedPose([0, 0, 0], [1, 0, 0] as Vec),
      b: fixedPose([0, 0, 0], [1, 0, 0] as Vec),
      minBendRadiusMm: 60,
      seed: [0, 0, 0, 80, -20, 0, 160, 40, 0, 120, 160, 0, 0, 160, 0, -40, 60, 0, 0, 0, 0],
    };
    expect(refined(problem).selfGapMm).toBe(Infinity);
    const way = refined({ ...problem, odMm: 20 });
    expect(way.selfGapMm).toBeCloseTo(-20, 6);
    expect(way.ok).toBe(false);
  });
});

describe('refined where there is no way', () => {
  it('says so with what breaks, and ends by its count', () => {
    const sealed = column(0, 0, 100);
    const way = refined({
      a: fixedPose([0, 0, 0], [1, 0, 0]),
      b: fixedPose([400, 0, 0], [-1, 0, 0]),
      minBendRadiusMm: 60,
      seed: [0, 0, 0, 400, 0, 0],
      field: sealed,
      marginMm: 12,
    });
    expect(way.ok).toBe(false);
    expect(way.worstSlackMm).toBeLessThan(-50);
    expect(way.iterations).toBeLessThanOrEqual(240);
    for (const v of way.points) expect(Number.isFinite(v)).toBe(true);
  });

  it('refuses what is not a number, and says which', () => {
    const a = fixedPose([0, 0, 0], [1, 0, 0]);
    const b = fixedPose([Number.NaN, 0, 0], [-1, 0, 0]);
    const seed = [0, 0, 0, 300, 0, 0];
    expect(() => refined({ a, b, minBendRadiusMm: 60, seed })).toThrow(/ends and seed.*NaN/);
    expect(() => refined({ a, b: a, minBendRadiusMm: 0, seed })).toThrow(/least bend radius: 0/);
  });

  it('gives the same answer to the last bit every time', () => {
    const problem = {
      a: fixedPose([0, 0, 0], [1, 0, 0] as Vec),
      b: fixedPose([300, 200, 50], [0, 0, 1] as Vec, 30),
      minBendRadiusMm: 70,
      seed: [0, 0, 0, 100, 200, 0, 300, 200, 50],
    };
    const first = refined(problem);
    refined({ ...problem, stepMm: 3 });
    expect(refined(problem).points).toEqual(first.points);
  });
});
