import { bodyGap, LineObstacles, pathsGap, type Solid } from '#geometry';
import { DenseBody } from '../test/geometry/dense-body.ts';
import { seededBody, seededSolid } from '../test/geometry/seeded-bodies.ts';
import { chance } from '../test/geometry/seeded-meshes.ts';

const title = 'exact gaps: bodies against solids and against each other, beside dense sampling';
const KINDS = ['capsule', 'cylinder', 'turned box', 'noisy ball mesh', 'box mesh'];
const PAIRS = 60;
const ROUNDS = 5;

const cpuMs = (): number => process.cpuUsage().user / 1000;

function medianMs(call: () => void): number {
  call();
  const all = Array.from({ length: ROUNDS }, () => {
    const from = cpuMs();
    call();
    return cpuMs() - from;
  }).sort((a, b) => a - b);
  return all[ROUNDS >> 1]!;
}

/** Bodies beside solids, apart and overlapping as the seeds have it. */
function pairs(
  kind: number,
): { readonly body: ReturnType<typeof seededBody>; readonly solid: Solid; readonly dense: DenseBody }[] {
  return Array.from({ length: PAIRS }, (_, i) => {
    const draw = chance(5000 + 1000 * kind + i);
    const body = seededBody(i % 5, draw);
    return {
      body,
      solid: seededSolid(kind, draw, [draw(-150, 150), draw(-150, 150), draw(-150, 150)]),
      dense: new DenseBody(body),
    };
  });
}

function solidRow(kind: number, apart: boolean): (string | number)[] {
  const all = pairs(kind).filter((p) => bodyGap(p.body, p.solid).gapMm > 0 === apart);
  const exact = medianMs(() => all.forEach((p) => bodyGap(p.body, p.solid)));
  const from = cpuMs();
  const sampled = all.map((p) => p.dense.least((x, y, z) => p.solid.distance(x, y, z), 3, 8));
  const dense = cpuMs() - from;
  // Sampling never goes below the truth, so a positive difference is ours being too generous.
  const worst = Math.max(...all.map((p, i) => bodyGap(p.body, p.solid).gapMm - sampled[i]!));
  return [
    `${KINDS[kind]}, ${apart ? 'apart' : 'overlapping'}`,
    all.length,
    Math.round((all.length / Math.max(0.01, exact)) * 1000),
    Math.round((all.length / Math.max(0.01, dense)) * 1000),
    `${Math.round(dense / Math.max(0.01, exact))}x`,
    worst.toFixed(3),
  ];
}

/** Thirty lines of one long space curve and one hose end each, all against all. */
function linesRow(): (string | number)[] {
  const draw = chance(30);
  const by = (): number[] => [draw(-500, 500), draw(-500, 500), draw(-300, 300)];
  const lines = Array.from({ length: 30 }, () => {
    const at = by();
    return [3, 2].map((kind) => {
      const body = seededBody(kind, draw);
      return { ...body, path: body.path.map((v, i) => v + at[i % 3]!) };
    });
  });
  const obstacles = new LineObstacles();
  lines.forEach((bodies, i) => obstacles.add(`L${i}`, bodies));
  const exact = medianMs(() => lines.forEach((bodies, i) => obstacles.gaps(bodies, 150, new Set([`L${i}`]))));
  const near = lines.flatMap((a, i) => lines.slice(i + 1).filter((b) => pathsGap(a, b, 150).gapMm < 150)).length;
  return [
    `30 lines x 30 lines (${near} pairs within 150 mm): ${exact.toFixed(0)} ms in all`,
    870,
    Math.round((870 / exact) * 1000),
    '-',
    '-',
    '-',
  ];
}

async function run(): Promise<{ headers: string[]; rows: (string | number)[][]; goal: string }> {
  const rows = [0, 1, 2, 3, 4].flatMap((kind) => [solidRow(kind, true), solidRow(kind, false)]);
  return {
    headers: ['body against', 'pairs', 'exact, bodies/s', 'dense, bodies/s', 'ratio', 'over dense [mm]'],
    rows: [...rows, linesRow()],
    goal: 'within 0.1 mm of dense sampling, at least 20 times as fast where apart; 30 lines x 30 lines well under 1 s',
  };
}

export default { title, run };
