import { LIFTS_MM, ON_SURFACE_MM, type SearchHost, wayOff } from './search-terms.ts';
import { perpendicular, type Vec } from './vec.ts';

/** Corners turned by less than this open a mitre under 4 micrometres wide even on an 80 mm hose [rad]. */
const STRAIGHT_RAD = 1e-4;
/** Sectors to begin with: a sector bulges off its chord by under 2 % of the radius. */
const SECTORS = 8;

/**
 * The mitre at one corner of a path: the outer part of a ball between the two discs, searched in cells of
 * (turned from the first disc [rad], radius [mm], angle on the disc [rad]).
 */
export class MitreCells {
  private readonly c: Vec;
  private readonly t: Vec;
  private readonly b: Vec;
  private readonly o: Vec;
  private readonly turn: number;

  private readonly host: SearchHost;

  constructor(host: SearchHost, m: number) {
    this.host = host;
    const { points: p, tangents: t } = host.shape;
    const [k, l] = [3 * (m - 1), 3 * m];
    const [tx, ty, tz] = [t[k]!, t[k + 1]!, t[k + 2]!];
    const bx = ty * t[l + 2]! - tz * t[l + 1]!;
    const by = tz * t[l]! - tx * t[l + 2]!;
    const bz = tx * t[l + 1]! - ty * t[l]!;
    const size = Math.sqrt(bx * bx + by * by + bz * bz);
    this.turn = Math.atan2(size, tx * t[l]! + ty * t[l + 1]! + tz * t[l + 2]!);
    this.c = [p[l]!, p[l + 1]!, p[l + 2]!];
    this.t = [tx, ty, tz];
    this.b = size > 0 ? [bx / size, by / size, bz / size] : perpendicular(this.t);
    // Outward on the first disc: t x b; turning about b carries it towards t.
    const b = this.b;
    this.o = [ty * b[2] - tz * b[1], tz * b[0] - tx * b[2], tx * b[1] - ty * b[0]];
  }

  search(): void {
    if (this.turn < STRAIGHT_RAD) return;
    this.straightOut();
    for (let s = 0; s < SECTORS; s++) {
      this.cell(
        0,
        this.turn,
        0,
        this.host.shape.radiusMm,
        (Math.PI * s) / SECTORS,
        (Math.PI * (s + 1)) / SECTORS,
        undefined,
      );
    }
  }

  /** The ball's place nearest the solid, where that lies between the two discs: from outside, the answer at once. */
  private straightOut(): void {
    const { c, t, host } = this;
    const near = host.lookClosely(c[0], c[1], c[2]);
    if (near.distance <= 0) return;
    const k = host.shape.radiusMm / near.distance;
    const w: Vec = [(near.point[0] - c[0]) * k, (near.point[1] - c[1]) * k, (near.point[2] - c[2]) * k];
    const { o } = this;
    // The second disc faces t cos(turn) - o sin(turn).
    const alongFirst = w[0] * t[0] + w[1] * t[1] + w[2] * t[2];
    const out = w[0] * o[0] + w[1] * o[1] + w[2] * o[2];
    if (alongFirst < 0 || alongFirst * Math.cos(this.turn) - out * Math.sin(this.turn) > 0) return;
    if (k <= 1) host.lookClosely(c[0] + w[0], c[1] + w[1], c[2] + w[2]);
  }

  private place(turn: number, r: number, a: number): Vec {
    const { c, b, o, t } = this;
    const k = r * Math.cos(a);
    const f = r * Math.sin(a) * Math.cos(turn);
    const g = r * Math.sin(a) * Math.sin(turn);
    return [
      c[0] + b[0] * k + o[0] * f + t[0] * g,
      c[1] + b[1] * k + o[1] * f + t[1] * g,
      c[2] + b[2] * k + o[2] * f + t[2] * g,
    ];
  }

  private cell(f0: number, f1: number, r0: number, r1: number, a0: number, a1: number, open: Vec | undefined): void {
    const s = this.host;
    const q = this.place((f0 + f1) / 2, (r0 + r1) / 2, (a0 + a1) / 2);
    const corners: Vec[] = [];
    for (const f of [f0, f1]) for (const r of [r0, r1]) for (const a of [a0, a1]) corners.push(this.place(f, r, a));
    // Arcs stand off their chords by no more than this; places turn on a circle of r sin(a).
    const circle = r1 * (a0 <= Math.PI / 2 && a1 >= Math.PI / 2 ? 1 : Math.max(Math.sin(a0), Math.sin(a1)));
    const pad = r1 * (1 - Math.cos((a1 - a0) / 2)) + circle * (1 - Math.cos((f1 - f0) / 2));
    const reach = farthest(corners, q) + pad;
    if (s.look(q[0], q[1], q[2], s.cut + reach) - reach >= s.cut) return;
    const near = s.lookClosely(q[0], q[1], q[2]);
    const d = near.distance;
    if (d - reach >= s.cut) return;
    const off = Math.abs(d) > ON_SURFACE_MM ? wayOff(q[0], q[1], q[2], near.point, d) : open;
    if (off !== undefined && this.isBeyond(q, d, off, corners, pad)) return;
    const df = (f1 - f0) * circle;
    const da = (a1 - a0) * r1;
    const dr = r1 - r0;
    if (df >= da && df >= dr) {
      const m = (f0 + f1) / 2;
      this.cell(f0, m, r0, r1, a0, a1, off);
      this.cell(m, f1, r0, r1, a0, a1, off);
    } else if (da >= dr) {
      const m = (a0 + a1) / 2;
      this.cell(f0, f1, r0, r1, a0, m, off);
      this.cell(f0, f1, r0, r1, m, a1, off);
    } else {
      const m = (r0 + r1) / 2;
      this.cell(f0, f1, m, r1, a0, a1, off);
      this.cell(f0, f1, r0, m, a0, a1, off);
    }
  }

  /** By the tangent plane at the centre (convex), else by the empty ball round a place lifted off the surface. */
  private isBeyond(q: Vec, d: number, off: Vec, corners: readonly Vec[], pad: number): boolean {
    const s = this.host;
    if (s.traits.convex && Math.abs(d) > ON_SURFACE_MM) return d + leastAlong(corners, q, off) - pad >= s.cut;
    for (const lift of LIFTS_MM) {
      const x: Vec = [q[0] + lift * off[0], q[1] + lift * off[1], q[2] + lift * off[2]];
      const reach = farthest(corners, x) + pad;
      if (s.look(x[0], x[1], x[2], s.cut + reach) - reach >= s.cut) return true;
    }
    return false;
  }
}

function farthest(corners: readonly Vec[], x: Vec): number {
  let most = 0;
  for (const c of corners) most = Math.max(most, (c[0] - x[0]) ** 2 + (c[1] - x[1]) ** 2 + (c[2] - x[2]) ** 2);
  return Math.sqrt(most);
}

function leastAlong(corners: readonly Vec[], x: Vec, n: Vec): number {
  let least = Infinity;
  for (const c of corners) least = Math.min(least, (c[0] - x[0]) * n[0] + (c[1] - x[1]) * n[1] + (c[2] - x[2]) * n[2]);
  return least;
}
