import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Car, Shape } from '#car';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { main } from '../src/cli/main.ts';
import { shapeDistance } from './shape-distance.ts';
import { root } from './source-files.ts';

// What outside scripts rely on in `ways --json`, read with nothing of the planner's own.

type Point = readonly [number, number, number];
interface Body {
  readonly part: string;
  readonly pathMm: readonly Point[];
  readonly odMm: number;
}
interface Way {
  readonly rank: number;
  readonly feasible: boolean;
  readonly cost: number;
  readonly ends: readonly {
    readonly port: string;
    readonly makeUp: readonly string[];
    readonly angleDeg: number;
    readonly clockDeg: number | null;
    readonly clockFrom?: string;
    readonly adapterClockDeg?: number;
  }[];
  readonly pieces: readonly {
    readonly cutLengthMm: number;
    readonly allowanceMm: readonly number[];
    readonly odMm: number;
    readonly minBendRadiusMm: number;
    readonly tightestBendMm: number;
    readonly endToEndDeg: number | null;
  }[];
  readonly clamps: readonly { readonly alongMm: number; readonly atMm: Point }[];
  readonly bodies: readonly Body[];
  readonly gaps: readonly {
    readonly part: string;
    readonly gapMm: number;
    readonly worstMm: number;
    readonly bestMm: number;
    readonly keepOffMm: number;
    readonly near: boolean;
  }[];
  readonly fails: readonly { readonly limit: string; readonly part?: string }[];
}

const sub = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Point, b: Point): Point => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const along = (a: Point, b: Point, t: number): Point => [a[0] + b[0] * t, a[1] + b[1] * t, a[2] + b[2] * t];
const unit = (a: Point): Point => along([0, 0, 0], a, 1 / Math.hypot(...a));
const apart = (a: Point, b: Point): number => Math.hypot(...sub(a, b));
const angleDeg = (a: Point, b: Point): number =>
  (Math.acos(Math.min(1, Math.max(-1, dot(unit(a), unit(b))))) * 180) / Math.PI;
const lengthOf = (path: readonly Point[]): number => path.slice(1).reduce((sum, p, i) => sum + apart(p, path[i]!), 0);

/** The demo of three ports with something hot, something fixed and a round thing where the line may come by. */
const car = JSON.parse(readFileSync(join(root, 'demo/three-ports.json'), 'utf8')) as {
  parts: Car['parts'];
  lines: Car['lines'];
};
car.parts.push(
  {
    id: 'shelf',
    name: 'Shelf',
    class: 'fixed',
    shapes: [{ box: { minMm: [1300, -520, -60], maxMm: [1700, -380, 40] } }],
    ports: [],
  },
  {
    id: 'pipe',
    name: 'Pipe',
    class: 'hot',
    surfaceC: 500,
    shapes: [
      {
        tube: {
          pointsMm: [
            [1250, -420, 420],
            [1480, -460, 440],
            [1700, -420, 460],
          ],
          radiusMm: 25,
        },
      },
    ],
    ports: [],
  },
  {
    id: 'can',
    name: 'Can',
    class: 'fixed',
    shapes: [{ cylinder: { fromMm: [1600, -330, 150], toMm: [1640, -300, 330], radiusMm: 35 } }],
    ports: [],
  },
);
const portOf = (ref: string) => {
  const [part, port] = ref.split('.');
  return car.parts.find((row) => row.id === part)!.ports.find((row) => row.id === port)!;
};

const COUNT = 3;
let answer: { readonly line: string; readonly ways: readonly Way[] };
let code = -1;
const said = { out: '', err: '' };
const folder = mkdtempSync(join(tmpdir(), 'fairlead-contract-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
beforeAll(async () => {
  writeFileSync(join(folder, 'car.json'), JSON.stringify(car));
  code = await main(['ways', join(folder, 'car.json'), 'O1', '--count', String(COUNT), '--json'], {
    out: (text) => void (said.out += text),
    err: (text) => void (said.err += text),
    outIsTerminal: false,
    errIsTerminal: false,
    columns: 100,
    env: {},
  });
  answer = JSON.parse(said.out) as typeof answer;
}, 120_000);

/** Points on the skin of a body: rings square to each stretch of its path every millimetre, and its flat ends. */
function skin({ pathMm, odMm }: Body): Point[] {
  const points: Point[] = [];
  const ring = (at: Point, direction: Point, radius: number, n: number): void => {
    const side = unit(cross(direction, Math.abs(direction[0]) < 0.9 ? [1, 0, 0] : [0, 1, 0]));
    const up = cross(direction, side);
    for (let k = 0; k < n; k++)
      points.push(
        along(along(at, side, radius * Math.cos((2 * Math.PI * k) / n)), up, radius * Math.sin((2 * Math.PI * k) / n)),
      );
  };
  for (let i = 0; i + 1 < pathMm.length; i++) {
    const step = sub(pathMm[i + 1]!, pathMm[i]!);
    const length = Math.hypot(...step);
    if (length < 1e-9) continue;
    const n = Math.max(1, Math.ceil(length));
    for (let k = 0; k <= n; k++) ring(along(pathMm[i]!, step, k / n), unit(step), odMm / 2, 96);
    if (i === 0 || i + 2 === pathMm.length)
      for (let r = 0; r < odMm / 2; r += 1) ring(pathMm[i === 0 ? 0 : i + 1]!, unit(step), r, 48);
  }
  return points;
}

const sampledGap = (way: Way, shapes: readonly Shape[]): number => {
  let least = Number.POSITIVE_INFINITY;
  for (const body of way.bodies)
    for (const point of skin(body))
      for (const shape of shapes) least = Math.min(least, shapeDistance(point as [number, number, number], shape));
  return least;
};

describe('ways --json', () => {
  it('is one document about the line asked for, and nothing else on stdout', () => {
    expect(answer.line).toBe('O1');
    expect(said.out.trimEnd().split('\n')).toHaveLength(1);
    expect(answer.ways.length).toBeGreaterThan(0);
    expect(answer.ways.length).toBeLessThanOrEqual(COUNT);
  });

  it('ends with 0 where a way fits, else with 1', () => {
    expect(code).toBe(answer.ways.some((way) => way.feasible) ? 0 : 1);
  });

  it('ranks from 1: those that fit first, then by cost; one that fits breaks no limit', () => {
    expect(answer.ways.map((way) => way.rank)).toEqual(answer.ways.map((_, i) => i + 1));
    const fitting = answer.ways.filter((way) => way.feasible);
    expect(answer.ways.slice(0, fitting.length)).toEqual(fitting);
    expect(fitting.map((way) => way.cost)).toEqual(fitting.map((way) => way.cost).sort((p, q) => p - q));
    for (const way of answer.ways) expect(way.feasible).toBe(way.fails.length === 0);
    const limits = 'keep-off bend straight mating pressure temperature vacuum fluid fall reach self'.split(' ');
    for (const fail of answer.ways.flatMap((way) => way.fails)) expect(limits).toContain(fail.limit);
  });

  it('has bodies from port face to port face, meeting, in steps of 3 mm at most', () => {
    for (const way of answer.ways) {
      const paths = way.bodies.map((body) => body.pathMm);
      for (const path of paths)
        for (let i = 0; i + 1 < path.length; i++) expect(apart(path[i]!, path[i + 1]!)).toBeLessThanOrEqual(3.002);
      for (let i = 0; i + 1 < paths.length; i++) expect(apart(paths[i]!.at(-1)!, paths[i + 1]![0]!)).toBeLessThan(0.01);
      const [from, to] = way.ends.map((end) => portOf(end.port));
      expect(apart(paths[0]![0]!, from!.atMm)).toBeLessThan(0.01);
      expect(apart(paths.at(-1)!.at(-1)!, to!.atMm)).toBeLessThan(0.01);
      expect(angleDeg(sub(paths[0]![1]!, paths[0]![0]!), from!.faces)).toBeLessThan(0.2);
      expect(angleDeg(sub(paths.at(-1)!.at(-2)!, paths.at(-1)!.at(-1)!), to!.faces)).toBeLessThan(0.2);
    }
  });

  it('has ends whose bend and clock are those of the bodies', () => {
    let bent = 0;
    for (const way of answer.ways) {
      const hose = way.bodies.findIndex((body) => body.part === 'hose');
      const path = way.bodies[hose]!.pathMm;
      const tails = [
        { at: path[0]!, out: sub(path[1]!, path[0]!) },
        { at: path.at(-1)!, out: sub(path.at(-2)!, path.at(-1)!) },
      ];
      for (const [i, end] of way.ends.entries()) {
        if (end.adapterClockDeg !== undefined) continue;
        const { atMm, faces } = portOf(end.port);
        const axis = unit(faces);
        expect(angleDeg(tails[i]!.out, axis)).toBeCloseTo(end.angleDeg, -0.2);
        if (end.angleDeg === 0) {
          expect(end.clockDeg).toBeNull();
          continue;
        }
        // By the definition: c the tail's offset from the port's axis, u up (forward for upright ports), r = u x faces.
        const isUpright = Math.abs(axis[2]) >= Math.cos(Math.PI / 6);
        const twelve: Point = isUpright ? [-1, 0, 0] : [0, 0, 1];
        const u = unit(along(twelve, axis, -dot(twelve, axis)));
        const r = cross(u, axis);
        const c = sub(tails[i]!.at, atMm);
        const clock = ((Math.atan2(dot(c, r), dot(c, u)) * 180) / Math.PI + 360) % 360;
        const off = Math.abs(((end.clockDeg! - clock + 540) % 360) - 180);
        expect(off).toBeLessThan(1);
        expect(end.clockFrom).toBe(isUpright ? 'forward' : 'up');
        bent++;
      }
    }
    expect(bent).toBeGreaterThan(0);
  });

  it('has gaps that a dense sampling of the bodies finds too, to 0.1 mm, and leaves none out', () => {
    let compared = 0;
    for (const way of answer.ways)
      for (const part of car.parts) {
        const row = way.gaps.find((gap) => gap.part === part.id);
        const sampled = sampledGap(way, part.shapes);
        if (row === undefined) {
          expect(sampled).toBeGreaterThan(149.9);
          continue;
        }
        // Where they touch, sampled skins go in: the port face lies on the part.
        if (row.gapMm > 0.2) {
          expect(Math.abs(row.gapMm - sampled), `${part.id}: ${row.gapMm} against ${sampled}`).toBeLessThan(0.1);
          compared++;
        } else expect(sampled).toBeLessThan(0.3);
        expect(row.worstMm).toBeLessThanOrEqual(row.gapMm + 0.051);
        expect(row.bestMm).toBeGreaterThanOrEqual(row.gapMm - 0.051);
        if (row.gapMm < row.keepOffMm - 0.05) expect(way.fails.map((fail) => fail.part)).toContain(part.id);
      }
    expect(compared).toBeGreaterThan(0);
  });

  it('has hose cut longer than it shows, bent no tighter than it says, and clamps on its own middle', () => {
    for (const way of answer.ways) {
      const hoses = way.bodies.filter((body) => body.part === 'hose');
      expect(hoses.length).toBe(way.pieces.length);
      for (const [i, piece] of way.pieces.entries()) {
        const path = hoses[i]!.pathMm;
        const shown = lengthOf(path);
        expect(piece.odMm).toBeCloseTo(hoses[i]!.odMm, 2);
        expect(piece.cutLengthMm).toBeGreaterThan(shown);
        expect(piece.cutLengthMm).toBeLessThan(shown + 150);
        expect(piece.allowanceMm[0]).toBeLessThanOrEqual(0);
        expect(piece.allowanceMm[1]).toBeGreaterThanOrEqual(0);
        // Circles through points five steps apart: closer ones drown in the third decimal of the path.
        for (let k = 0; k + 10 < path.length; k++)
          expect(circle(path[k]!, path[k + 5]!, path[k + 10]!)).toBeGreaterThan(piece.tightestBendMm * 0.95);
        if (way.feasible) expect(piece.tightestBendMm).toBeGreaterThanOrEqual(piece.minBendRadiusMm * 0.997);
      }
      const middle = way.bodies.flatMap((body) => body.pathMm);
      for (const clamp of way.clamps)
        expect(Math.min(...middle.map((point) => apart(point, clamp.atMm)))).toBeLessThan(2);
    }
  });

  it('holds no number that is not finite', () => {
    const nulls: string[] = [];
    const look = (value: unknown, path: string): void => {
      if (value === null && !/(clockDeg|endToEndDeg)$/u.test(path)) nulls.push(path);
      if (typeof value === 'object' && value !== null)
        for (const [key, inner] of Object.entries(value)) look(inner, `${path}.${key}`);
    };
    look(answer, '');
    expect(nulls).toEqual([]);
  });
});

/** Radius of the circle through three points [mm]. */
function circle(a: Point, b: Point, c: Point): number {
  const area = Math.hypot(...cross(sub(b, a), sub(c, a))) / 2;
  return area < 1e-6 ? Number.POSITIVE_INFINITY : (apart(a, b) * apart(b, c) * apart(c, a)) / (4 * area);
}
