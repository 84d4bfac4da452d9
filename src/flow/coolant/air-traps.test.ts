import { describe, expect, it } from 'vitest';
import type { Vec } from '#geometry';
import { seeded } from '../../../test/flow/fluids-for-tests.ts';
import type { DrawnCircuit } from '../circuit/drawn-circuit.ts';
import { Joints } from '../circuit/joints.ts';
import { pullG } from '../circuit/pull.ts';
import { airTraps } from './air-traps.ts';

interface Web {
  readonly spots: ReadonlyMap<string, Vec>;
  readonly runs: readonly {
    readonly line: string;
    readonly from: string;
    readonly to: string;
    readonly pathMm: readonly Vec[];
  }[];
  readonly passages: readonly { readonly from: string; readonly to: string }[];
  readonly vessel: string;
}

/** A web of parts with ports, lines that wander up and down between them, ways through parts, and one vessel. */
function randomWeb(seed: number): Web {
  const draw = seeded(seed);
  const place = (): Vec => [draw(0, 2000), draw(-500, 500), draw(0, 800)];
  const parts = 3 + Math.floor(draw(0, 5));
  const spots = new Map<string, Vec>();
  for (let part = 0; part < parts; part++) for (const port of ['a', 'b', 'c']) spots.set(`p${part}.${port}`, place());
  const names = [...spots.keys()];
  const pick = (): string => names[Math.floor(draw(0, names.length))]!;
  const lines = 3 + Math.floor(draw(0, 9));
  const runs: Web['runs'][number][] = [];
  for (let i = 0; i < lines; i++) {
    const [from, to] = [pick(), pick()];
    if (from === to) continue;
    const between = [...Array(Math.floor(draw(0, 6))).keys()].map(place);
    runs.push({ line: `L${i}`, from, to, pathMm: [spots.get(from)!, ...between, spots.get(to)!] });
  }
  const used = runs.flatMap(({ from, to }) => [from, to]);
  const anUsed = (): string => used[Math.floor(draw(0, used.length))]!;
  const passages = [...Array(Math.floor(draw(0, 5))).keys()].flatMap(() => {
    const [from, to] = [anUsed(), anUsed()];
    return from === to ? [] : [{ from, to }];
  });
  return { spots, runs, passages, vessel: 'p0' };
}

const drawn = (web: Web): DrawnCircuit =>
  ({
    runs: web.runs.map((run) => ({
      ...run,
      boreMm: 10,
      lengthMm: 1,
      assumed: [],
      stretches: [{ what: 'hose', boreMm: 10, lengthMm: 1, pathMm: run.pathMm }],
    })),
    passages: web.passages,
    pumps: [],
    vessels: [{ vessel: { part: web.vessel, kind: 'header' } }],
    joints: new Joints(),
    piped: new Set(),
  }) as unknown as DrawnCircuit;

/**
 * Brute force: the water is let down step by step to the height of every point; at each level, what hangs together above it
 * is found anew by walking. A point's depth is how far the level falls before it hangs together with a higher one or a way out.
 */
function floodOracle(web: Web, up: (at: Vec) => number): { readonly heightMm: number; readonly depthMm: number }[] {
  const points: { height: number; out: boolean }[] = [];
  const near: number[][] = [];
  const add = (at: Vec, out: boolean): number => {
    near.push([]);
    return points.push({ height: up(at), out }) - 1;
  };
  const bySpot = new Map<string, number>();
  const used = new Set(web.runs.flatMap(({ from, to }) => [from, to]));
  for (const spot of used) bySpot.set(spot, add(web.spots.get(spot)!, spot.startsWith(`${web.vessel}.`)));
  const link = (a: number, b: number) => {
    near[a]!.push(b);
    near[b]!.push(a);
  };
  for (const { from, to, pathMm } of web.runs) {
    const inner = pathMm.slice(1, -1).map((at) => add(at, false));
    const chain = [bySpot.get(from)!, ...inner, bySpot.get(to)!];
    for (let i = 1; i < chain.length; i++) link(chain[i - 1]!, chain[i]!);
  }
  for (const { from, to } of web.passages) {
    const [a, b] = [bySpot.get(from), bySpot.get(to)];
    if (a !== undefined && b !== undefined) link(a, b);
  }
  const levels = [...new Set(points.map(({ height }) => height))].sort((a, b) => b - a);
  const reaches = (start: number, level: number, height: number): boolean => {
    const seen = new Uint8Array(points.length);
    const queue = [start];
    seen[start] = 1;
    while (queue.length > 0) {
      const here = queue.pop()!;
      if (points[here]!.out || points[here]!.height > height) return true;
      for (const next of near[here]!)
        if (seen[next] === 0 && points[next]!.height >= level) {
          seen[next] = 1;
          queue.push(next);
        }
    }
    return false;
  };
  return points.flatMap(({ height, out }, start) => {
    if (out) return [];
    const level = levels.find((mm) => mm <= height && reaches(start, mm, height));
    if (level === undefined) return [{ heightMm: height, depthMm: Number.POSITIVE_INFINITY }];
    return level < height ? [{ heightMm: height, depthMm: height - level }] : [];
  });
}

describe('where air stays', () => {
  it('in 300 random webs, each stood four ways, is where a flood by brute force leaves it', () => {
    let traps = 0;
    for (let seed = 1; seed <= 300; seed++) {
      const web = randomWeb(seed);
      for (const stand of [{}, { pitchDeg: 3 }, { rollDeg: -3 }, { pitchDeg: -20, rollDeg: 170 }]) {
        const pull = pullG(stand);
        const up = (at: Vec): number => -(pull[0] * at[0] + pull[1] * at[1] + pull[2] * at[2]);
        const found = airTraps(drawn(web), pull, 10)
          .map(({ atMm, depthMm }) => ({ heightMm: up(atMm), depthMm }))
          .sort((a, b) => a.heightMm - b.heightMm);
        const wanted = floodOracle(web, up)
          .filter(({ depthMm }) => depthMm >= 10)
          .sort((a, b) => a.heightMm - b.heightMm);
        expect(found.length, `seed ${seed}`).toBe(wanted.length);
        found.forEach((trap, i) => {
          expect(trap.heightMm).toBeCloseTo(wanted[i]!.heightMm, 6);
          if (Number.isFinite(wanted[i]!.depthMm)) expect(trap.depthMm).toBeCloseTo(wanted[i]!.depthMm, 6);
          else expect(trap.depthMm).toBe(Number.POSITIVE_INFINITY);
        });
        traps += found.length;
      }
    }
    expect(traps).toBeGreaterThan(1000);
  });
});
