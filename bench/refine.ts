import { type EndPose, fixedPose } from '../src/geometry/end-pose.ts';
import { refined, type RefineProblem, type SlackField } from '../src/geometry/refine.ts';
import { type RodProblem, rodShape } from '../src/geometry/rod.ts';
import { rodShapes } from '../src/geometry/rod-shapes.ts';

const title = 'curve kernels: refinement and the hose as it hangs';
const ROUNDS = 7;

/** A round column of 100 mm radius along z, as a field. */
const column: SlackField = {
  slackAndGradient(x, y, _z, out) {
    const r = Math.sqrt(x * x + y * y) || 1e-9;
    out[0] = r - 100;
    out[1] = x / r;
    out[2] = y / r;
    out[3] = 0;
  },
};

const elbow: EndPose = {
  origin: [-300, 0, 0],
  axis: [0.6, 0.8, 0],
  up: [0, 0, 1],
  right: [0.8, -0.6, 0],
  riseMm: 40,
  offsetMm: 35,
  angleRad: Math.PI / 4,
  phiRad: 2,
  free: true,
  straightMm: 30,
};

const round: RefineProblem = {
  a: elbow,
  b: fixedPose([300, 0, 0], [-0.96, 0.28, 0], 30),
  minBendRadiusMm: 60,
  seed: [-300, 0, 0, -150, 60, 40, 0, 120, 0, 150, 90, 0, 300, 0, 0],
  field: column,
  marginMm: 12,
};

const hose: RodProblem = {
  a: { point: [0, 0, 0], direction: [1, 0, 0] },
  b: { point: [300, 120, 80], direction: [0, 0.6, 0.8] },
  lengthMm: 420,
  start: [0, 0, 0, 150, 0, 0, 300, 120, 80],
  weightPerStiffness: [0, 0, -1e-7],
};

const cpuUs = (): number => process.cpuUsage().user;

/** Median processor time of one call [us]. */
function medianUs(call: () => void, times: number): number {
  for (let k = 0; k < 2 * times; k++) call();
  const all: number[] = [];
  for (let r = 0; r < ROUNDS; r++) {
    const from = cpuUs();
    for (let k = 0; k < times; k++) call();
    all.push((cpuUs() - from) / times);
  }
  return all.sort((a, b) => a - b)[ROUNDS >> 1]!;
}

async function run(): Promise<{ headers: string[]; rows: string[][]; goal: string }> {
  const rows: string[][] = [];
  const cases: readonly (readonly [string, RefineProblem])[] = [
    ['refine, clear space', { ...round, field: { slackAndGradient: (_x, _y, _z, out) => void (out[0] = 1e3) } }],
    ['refine, round a column, h 10 mm', round],
    ['refine, round a column, h 3 mm', { ...round, stepMm: 3 }],
  ];
  for (const [name, problem] of cases) {
    const { iterations, points } = refined(problem);
    const us = medianUs(() => void refined(problem), 60);
    rows.push([
      name,
      String(points.length / 3),
      String(iterations),
      (us / iterations).toFixed(0),
      (us / 1000).toFixed(2),
    ]);
  }
  const { iterations, points } = rodShape(hose);
  const us = medianUs(() => void rodShape(hose), 100);
  rows.push([
    'rod, one shape',
    String(points.length / 3),
    String(iterations),
    (us / iterations).toFixed(0),
    (us / 1000).toFixed(2),
  ]);
  const all = medianUs(() => void rodShapes(hose), 10);
  rows.push([
    `rod, all shapes (${rodShapes(hose).length})`,
    String(points.length / 3),
    '',
    '',
    (all / 1000).toFixed(2),
  ]);
  return {
    headers: ['what', 'points', 'iterations', 'us an iteration', 'ms'],
    rows,
    goal: '87 us an iteration at 60 points, 2.7 ms an easy refinement, 1 to 3 ms a rod',
  };
}

export default { title, run };
