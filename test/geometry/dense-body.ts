import type { Body, Vec } from '#geometry';

/*
 * An oracle for body gaps that shares no code with them: it walks over the discs of a body (and the discs that turn through
 * each corner) on a dense grid, then creeps downhill from the best grid places.
 */

/** A disc of the body: its centre, and two directions that span it. */
interface Disc {
  readonly c: Vec;
  readonly u: Vec;
  readonly v: Vec;
}

const sub = (a: Vec, b: Vec): Vec => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const cross = (a: Vec, b: Vec): Vec => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const size = (a: Vec): number => Math.hypot(...a);
const unit = (a: Vec): Vec => [a[0] / size(a), a[1] / size(a), a[2] / size(a)];

function spanned(t: Vec): { readonly u: Vec; readonly v: Vec } {
  const u = unit(cross(t, Math.abs(t[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  return { u, v: cross(t, u) };
}

/** Where along the body: a whole number is a path point, `k + f` is the fraction f of piece k; corners stand between as turns. */
export class DenseBody {
  private readonly points: Vec[] = [];
  /** Length of each stage: pieces [mm] and, between them, corners [rad]. */
  private readonly stages: { readonly corner: boolean; readonly k: number; readonly length: number }[] = [];
  readonly body: Body;

  constructor(body: Body) {
    this.body = body;
    for (let i = 0; i + 2 < body.path.length; i += 3)
      this.points.push([body.path[i]!, body.path[i + 1]!, body.path[i + 2]!]);
    for (let k = 0; k + 1 < this.points.length; k++) {
      if (k > 0)
        this.stages.push({
          corner: true,
          k,
          length: Math.acos(
            Math.min(
              1,
              this.tangent(k - 1).reduce((s, c, i) => s + c * this.tangent(k)[i]!, 0),
            ),
          ),
        });
      this.stages.push({ corner: false, k, length: size(sub(this.points[k + 1]!, this.points[k]!)) });
    }
  }

  private tangent(k: number): Vec {
    return unit(sub(this.points[k + 1]!, this.points[k]!));
  }

  private disc(stage: number, f: number): Disc {
    const { corner, k, length } = this.stages[stage]!;
    const p = this.points[k]!;
    if (!corner) {
      const q = this.points[k + 1]!;
      return {
        c: [p[0] + (q[0] - p[0]) * f, p[1] + (q[1] - p[1]) * f, p[2] + (q[2] - p[2]) * f],
        ...spanned(this.tangent(k)),
      };
    }
    const [a, b] = [this.tangent(k - 1), this.tangent(k)];
    if (length < 1e-9) return { c: p, ...spanned(a) };
    const sin = Math.sin(length);
    const [wa, wb] = [Math.sin(length * (1 - f)) / sin, Math.sin(length * f) / sin];
    return { c: p, ...spanned(unit([a[0] * wa + b[0] * wb, a[1] * wa + b[1] * wb, a[2] * wa + b[2] * wb])) };
  }

  private place(stage: number, f: number, r: number, angle: number): Vec {
    const { c, u, v } = this.disc(stage, f);
    const [x, y] = [r * Math.cos(angle), r * Math.sin(angle)];
    return [c[0] + u[0] * x + v[0] * y, c[1] + u[1] * x + v[1] * y, c[2] + u[2] * x + v[2] * y];
  }

  /** The least of `distance` over the body, found by dense sampling and creeping [mm]. */
  least(distance: (x: number, y: number, z: number) => number, stepMm = 3, creepFrom = 12): number {
    const R = this.body.radiusMm;
    const seen: {
      readonly stage: number;
      readonly f: number;
      readonly r: number;
      readonly a: number;
      readonly d: number;
    }[] = [];
    this.stages.forEach(({ corner, length }, stage) => {
      const n = Math.max(1, Math.ceil((corner ? length * R : length) / stepMm));
      for (let i = 0; i <= n; i++) {
        for (const r of [0, R / 2, R]) {
          const around = r === 0 ? 1 : Math.max(8, Math.ceil((2 * Math.PI * r) / stepMm));
          for (let j = 0; j < around; j++) {
            const a = (2 * Math.PI * j) / around;
            seen.push({ stage, f: i / n, r, a, d: distance(...this.place(stage, i / n, r, a)) });
          }
        }
      }
    });
    seen.sort((p, q) => p.d - q.d);
    return Math.min(...seen.slice(0, creepFrom).map((s) => this.creep(s.stage, s.f, s.r, s.a, stepMm, distance)));
  }

  private creep(
    stage: number,
    f: number,
    r: number,
    a: number,
    stepMm: number,
    distance: (x: number, y: number, z: number) => number,
  ): number {
    const R = this.body.radiusMm;
    let best = distance(...this.place(stage, f, r, a));
    for (let step = stepMm; step > 0.002; ) {
      const { corner, length } = this.stages[stage]!;
      const df = step / Math.max(1e-9, corner ? length * R : length);
      const da = step / Math.max(1, r);
      let moved = false;
      for (const [ef, er, ea] of [
        [df, 0, 0],
        [-df, 0, 0],
        [0, step, 0],
        [0, -step, 0],
        [0, 0, da],
        [0, 0, -da],
      ] as const) {
        let [s, g] = [stage, f + ef];
        if (g < 0 && s > 0) [s, g] = [s - 1, 1];
        else if (g > 1 && s + 1 < this.stages.length) [s, g] = [s + 1, 0];
        g = Math.min(1, Math.max(0, g));
        const q = Math.min(R, Math.max(0, r + er));
        const d = distance(...this.place(s, g, q, a + ea));
        if (d >= best - 1e-9) continue;
        [best, stage, f, r, a] = [d, s, g, q, a + ea];
        moved = true;
      }
      if (!moved) step /= 2;
    }
    return best;
  }

  /** Whether a place belongs to the body, give or take `slackMm`. */
  holds(x: Vec, slackMm = 1e-6): boolean {
    const R = this.body.radiusMm;
    return this.stages.some(({ corner, k, length }) => {
      const w = sub(x, this.points[k]!);
      const along = (t: Vec): number => w[0] * t[0] + w[1] * t[1] + w[2] * t[2];
      if (corner)
        return size(w) <= R + slackMm && along(this.tangent(k - 1)) >= -slackMm && along(this.tangent(k)) <= slackMm;
      const z = along(this.tangent(k));
      return z >= -slackMm && z <= length + slackMm && Math.sqrt(Math.max(0, size(w) ** 2 - z * z)) <= R + slackMm;
    });
  }
}
