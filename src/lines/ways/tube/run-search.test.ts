import { describe, expect, it } from 'vitest';
import type { Vec } from '#geometry';
import { type FallRule, fallFault } from '../fall.ts';
import type { SpanEnd } from '../span.ts';
import { legsApart, runCost } from './run-cost.ts';
import type { RunProblem } from './run-problem.ts';
import { tubeRuns } from './run-search.ts';
import { squareRuns } from './run-seeds.ts';
import type { TubeClear } from './tube-clear.ts';
import { tubePath, tubeRun } from './tube-run.ts';

/** Slack round upright round posts, in a bay without a ceiling. */
function posts(all: readonly { x: number; y: number; radiusMm: number }[], tubeRadiusMm: number): TubeClear {
  const slack = (x: number, y: number): number =>
    Math.min(120, ...all.map((p) => Math.hypot(x - p.x, y - p.y) - p.radiusMm - tubeRadiusMm));
  return { slack, coarse: slack };
}

const end = (at: Vec, faces: Vec): SpanEnd => ({
  label: 'end',
  at,
  faces,
  partId: null,
  moverId: null,
  makeUps: [],
  nearItems: [],
  nearMm: 0,
});

function found(wish: Partial<RunProblem> & Pick<RunProblem, 'start' | 'end'>, count = 1) {
  const problem: RunProblem = {
    radiusMm: 76,
    odMm: 38,
    mostBendDeg: 150,
    startMm: 76,
    betweenMm: 38,
    endMm: 38,
    clear: posts([], 19),
    marginMm: 2,
    stout: { startMm: 0, endMm: 0, byMm: 0 },
    fall: null,
    ...wish,
  };
  const { start, end: to } = problem;
  const span = {
    a: end(start.at, start.along),
    b: end(to.at, [-to.along[0], -to.along[1], -to.along[2]]),
    odMm: 38,
    minBendRadiusMm: problem.radiusMm,
    far: {
      slackAndGradient: () => undefined,
      closely: () => undefined,
      coarse: (x: number, y: number, z: number) => problem.clear.coarse(x, y, z) + 19,
    },
  };
  return { problem, ...tubeRuns(problem, span, count) };
}

describe('tubes from pose to pose', () => {
  it('in line: one straight, no bend', () => {
    const { runs } = found({ start: { at: [0, 0, 0], along: [1, 0, 0] }, end: { at: [400, 0, 0], along: [1, 0, 0] } });
    expect(runs[0]!.corners).toEqual([
      [0, 0, 0],
      [400, 0, 0],
    ]);
  });

  it('hand: in line with less room than two bends turned back on themselves take: numbers all through, the straight first', () => {
    // A spigot 140 mm short of the middle of a grommet on its own axis: straights of 76 and 30 with two bends of 76 between pass each other.
    const { problem, runs } = found(
      {
        start: { at: [1190, 100, 500], along: [-1, 0, 0] },
        end: { at: [1050, 100, 500], along: [-1, 0, 0] },
        endMm: 30,
      },
      4,
    );
    expect(runs[0]!.cost.lengthMm).toBe(140);
    for (const corners of squareRuns(problem)) {
      const { total, lacks } = runCost(problem, corners);
      expect([total, ...lacks.leastAt].every(Number.isFinite)).toBe(true);
    }
  });

  it('axes that cross: one bend of the angle between them', () => {
    const { runs } = found({
      start: { at: [0, 0, 0], along: [1, 0, 0] },
      end: { at: [400, 300, 0], along: [0, 1, 0] },
    });
    const run = tubeRun(runs[0]!.corners, 76);
    expect(run.bendsRad).toHaveLength(1);
    // hand: straights of 400 - 76 and 300 - 76, and a quarter turn of 76.
    expect(run.lengthMm).toBeCloseTo(324 + 224 + 38 * Math.PI, 9);
  });

  it('an offset: two equal bends as shallow as the straights at the ends let them be', () => {
    const [D, h] = [600, 120];
    const { runs } = found({ start: { at: [0, 0, 0], along: [1, 0, 0] }, end: { at: [D, h, 0], along: [1, 0, 0] } });
    // hand: (D - 76 - 38 - 2 R tan(a/2)) tan a = h, halved until it holds; the legs' lengths follow.
    let [low, high] = [0.01, 1.2];
    for (let n = 0; n < 60; n++) {
      const a = (low + high) / 2;
      if ((D - 76 - 38 - 2 * 76 * Math.tan(a / 2)) * Math.tan(a) < h) low = a;
      else high = a;
    }
    const a = (low + high) / 2;
    const t = 76 * Math.tan(a / 2);
    const lengthMm = 76 + 38 + (h / Math.sin(a) - 2 * t) + 2 * 76 * a;
    expect(runs[0]!.cost.ok).toBe(true);
    expect(runs[0]!.corners).toHaveLength(4);
    expect(Math.abs(runs[0]!.cost.lengthMm - lengthMm)).toBeLessThan(0.3);
  });

  it('goes round posts, keeping its straights, its radius and its room', () => {
    const clear = posts(
      [
        { x: 350, y: 0, radiusMm: 90 },
        { x: 650, y: 160, radiusMm: 70 },
      ],
      19,
    );
    const { runs, problem } = found(
      { start: { at: [0, 0, 0], along: [1, 0, 0] }, end: { at: [1000, 60, 40], along: [1, 0, 0] }, clear },
      2,
    );
    expect(runs.length).toBeGreaterThan(0);
    for (const { corners } of runs) {
      const { straightsMm } = tubeRun(corners, 76);
      expect(Math.min(...straightsMm.slice(1, -1))).toBeGreaterThanOrEqual(problem.betweenMm);
      expect(straightsMm[0]).toBeGreaterThan(problem.startMm - 0.01);
      const path = tubePath(corners, 76);
      let least = Number.POSITIVE_INFINITY;
      // Brute force: every drawn point against the posts themselves.
      for (let i = 0; i + 2 < path.length; i += 3)
        least = Math.min(least, clear.slack(path[i]!, path[i + 1]!, path[i + 2]!));
      expect(least).toBeGreaterThan(0.2);
    }
  });

  it('says how it misses where there is no room for its bends', () => {
    const slack = (x: number, y: number, z: number): number =>
      Math.min(x + 40, 190 - x, y + 40, 130 - y, 40 - Math.abs(z)) - 19;
    const { runs, leastBad } = found({
      start: { at: [0, 0, 0], along: [1, 0, 0] },
      end: { at: [150, 90, 0], along: [1, 0, 0] },
      clear: { slack, coarse: slack },
    });
    // hand: 76 + 38 of straight leave 36 mm of length for an offset of 90 on radius 76 in a box that leaves no way round: two bends
    // of b step 2 R (1 - cos b) aside in 2 R sin b of length, 36 mm of length allow 13.7 degrees, which is 4 mm.
    expect(runs).toHaveLength(0);
    expect(leastBad === null || !leastBad.cost.ok).toBe(true);
  });

  it('keeps off itself: distance of two legs against a brute force over both', () => {
    const legs: [Vec, Vec, Vec, Vec][] = [
      [
        [0, 0, 0],
        [100, 0, 0],
        [50, 30, -50],
        [50, 30, 50],
      ],
      [
        [0, 0, 0],
        [100, 0, 0],
        [150, 40, 0],
        [250, 90, 20],
      ],
      [
        [0, 0, 0],
        [100, 0, 0],
        [20, 25, 0],
        [90, 25, 0],
      ],
      [
        [0, 0, 0],
        [0, 0, 80],
        [30, 10, 200],
        [10, 60, 120],
      ],
    ];
    for (const [a, b, c, d] of legs) {
      let least = Number.POSITIVE_INFINITY;
      for (let i = 0; i <= 200; i++)
        for (let j = 0; j <= 200; j++) {
          const at = (p: Vec, q: Vec, t: number, k: number): number => p[k]! + (q[k]! - p[k]!) * t;
          least = Math.min(least, Math.hypot(...[0, 1, 2].map((k) => at(a, b, i / 200, k) - at(c, d, j / 200, k))));
        }
      expect(Math.abs(legsApart(a, b, c, d) - least)).toBeLessThan(0.3);
    }
  });

  it('comes out the same every time', () => {
    const wish = {
      start: { at: [0, 0, 0] as Vec, along: [1, 0, 0] as Vec },
      end: { at: [700, 150, 90] as Vec, along: [0, 1, 0] as Vec },
      clear: posts([{ x: 300, y: 0, radiusMm: 60 }], 19),
    };
    expect(found(wish).runs).toEqual(found(wish).runs);
  });
});

const RAD = Math.PI / 180;
/** Down as a car sees it that is pitched nose down by 12 degrees and nose up, rolled by 8 either way: hand, by components. */
const leaned: FallRule = {
  sense: 1,
  withinPlumbDeg: 15,
  downs: [
    [0, 0, -1],
    ...[-12, 12].flatMap((pitch) =>
      [-8, 8].map(
        (roll): Vec => [
          Math.sin(pitch * RAD),
          Math.sin(roll * RAD) * Math.cos(pitch * RAD),
          -Math.cos(pitch * RAD) * Math.cos(roll * RAD),
        ],
      ),
    ),
  ],
};

describe('a drain on a leaned car', () => {
  const leg = (slopeDeg: number): Vec[] => [
    [0, 0, 300],
    [0, 0, 150],
    [300 * Math.cos(slopeDeg * RAD), 0, 150 - 300 * Math.sin(slopeDeg * RAD)],
  ];
  const problem = (corners: readonly Vec[]): RunProblem => ({
    start: { at: corners[0]!, along: [0, 0, -1] },
    end: { at: corners.at(-1)!, along: [1, 0, 0] },
    radiusMm: 30,
    odMm: 18,
    mostBendDeg: 150,
    startMm: 20,
    betweenMm: 10,
    endMm: 10,
    clear: posts([], 9),
    marginMm: 2,
    stout: { startMm: 0, endMm: 0, byMm: 0 },
    fall: leaned,
  });

  it('a leg that falls 10 degrees rises with the car pitched by 12; one that falls 16 does not', () => {
    // hand: along X a leg that falls s rises by sin(12) cos(s) - cos(12) cos(8) sin(s) per mm with the car pitched and rolled:
    // above 0 at s = 10 degrees (0.0366), below at 16 (-0.0672).
    for (const [slopeDeg, rises] of [
      [10, true],
      [16, false],
    ] as const) {
      const corners = leg(slopeDeg);
      const fault = fallFault([{ part: 'tube', path: tubePath(corners, 30), radiusMm: 9 }], leaned);
      expect(fault !== null).toBe(rises);
      expect(runCost(problem(corners), corners).lacks.fallMm > 0).toBe(rises);
    }
  });

  it('is led so that it falls all the way', () => {
    const { runs } = found({
      start: { at: [0, 0, 400], along: [0, 0, -1] },
      end: { at: [220, 40, 100], along: [0, 0, -1] },
      radiusMm: 57,
      startMm: 30,
      betweenMm: 19,
      endMm: 19,
      fall: leaned,
    });
    expect(runs[0]!.cost.ok).toBe(true);
    expect(fallFault([{ part: 'tube', path: tubePath(runs[0]!.corners, 57), radiusMm: 9.5 }], leaned)).toBeNull();
  });
});
