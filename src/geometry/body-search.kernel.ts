import type { BodyShape } from './body-shape.ts';
import { MitreCells } from './mitre-cells.kernel.ts';
import {
  APART_TOLERANCE_MM,
  type Field,
  type FieldTraits,
  LIFTS_MM,
  ON_SURFACE_MM,
  OVERLAP_TOLERANCE_MM,
  wayOff,
} from './search-terms.ts';
import { farthestOverSector, leastOverSector } from './sector.kernel.ts';
import { perpendicular, type Vec } from './vec.ts';

/**
 * Where things overlap the deepest place may be a ridge as wide as the body; being a fault already, its depth is proved to the
 * tolerance within this many looks, and to twice as much for each further so many. Counted, so the same every time.
 */
const OVERLAP_LOOKS = 20_000;
const OVERLAP_DOUBLING_LOOKS = 5000;
/** Dives are for places this near the deepest one known [mm], and only so many of them: they save looks, they prove nothing. */
const DIVE_WITHIN_MM = 2;
const DIVES = 40;
/** Two ways off nearer to each other than this are one: 1 - |mean|^2. */
const RIDGE_REST = 0.01;
/** A slice thinner than this bulges off its disc by less than a nanometre [mm]. */
const THIN_SLICE_MM = 0.01;
/** Well above the rounding of lengths up to 100 m [mm]. */
const ROUNDING_MM = 1e-9;
/** Rounds of stepping between the body and the solid when looking for a first good answer. */
const STEPS = 5;

/**
 * The least signed distance over a whole body, by branch and bound. First path ranges, pieces and slices against balls
 * round them; what a ball cannot settle (flat ends, overlaps, mitres) waits until a good answer is known and is then
 * settled in cells of the discs themselves.
 */
export class BodySearch {
  best: number;
  bestX = 0;
  bestY = 0;
  bestZ = 0;
  found = false;
  looks = 0;
  private dives = 0;
  private readonly r: number;
  private readonly slices: { readonly i: number; readonly z0: number; readonly z1: number; readonly d: number }[] = [];
  private readonly mitres: { readonly m: number; readonly d: number }[] = [];

  readonly shape: BodyShape;
  readonly field: Field;
  readonly traits: FieldTraits;

  constructor(shape: BodyShape, field: Field, traits: FieldTraits, beyondMm: number) {
    this.shape = shape;
    this.field = field;
    this.traits = traits;
    this.best = beyondMm;
    this.r = shape.radiusMm;
  }

  run(): void {
    this.range(0, this.shape.pieces, this.at(this.shape.pieces >> 1, Infinity));
    this.slices.sort((a, b) => a.d - b.d || a.i - b.i || a.z0 - b.z0);
    for (const s of this.slices) {
      const ball = Math.sqrt(this.r * this.r + ((s.z1 - s.z0) / 2) ** 2);
      if (s.d - ball < this.cut) this.discs(s.i, s.z0, s.z1);
    }
    this.mitres.sort((a, b) => a.d - b.d || a.m - b.m);
    for (const c of this.mitres) if (c.d - this.r < this.cut) new MitreCells(this, c.m).search();
  }

  /** What is not below this is of no interest. */
  get cut(): number {
    // A tie with the limit is common: two bodies of a line share an end disc. Less than the tolerance below it is not worth proving.
    if (!this.found) return this.best - APART_TOLERANCE_MM;
    // Nothing below the floor exists, so a best that touches the floor ends the search.
    if (this.best <= this.traits.floorMm + APART_TOLERANCE_MM) return -Infinity;
    if (this.best >= 0) return this.best - APART_TOLERANCE_MM;
    const over = Math.max(0, this.looks - OVERLAP_LOOKS);
    return this.best - OVERLAP_TOLERANCE_MM * 2 ** (over / OVERLAP_DOUBLING_LOOKS);
  }

  look(x: number, y: number, z: number, limit: number): number {
    this.looks++;
    // A field that stops at the limit gives the limit back: asked a little further, it still counts as beyond after rounding.
    return this.field.distanceWithin(x, y, z, limit + ROUNDING_MM);
  }

  /** The nearest place of the surface; the asking place counts as an answer. */
  lookClosely(x: number, y: number, z: number): { readonly point: Vec; readonly distance: number } {
    this.looks++;
    const near = this.field.closest(x, y, z);
    this.offer(x, y, z, near.distance);
    return near;
  }

  private offer(x: number, y: number, z: number, d: number): void {
    if (d >= this.best) return;
    this.best = d;
    this.bestX = x;
    this.bestY = y;
    this.bestZ = z;
    this.found = true;
  }

  /** Distance at path point `i`. */
  private at(i: number, limit: number): number {
    const p = this.shape.points;
    return this.look(p[3 * i]!, p[3 * i + 1]!, p[3 * i + 2]!, limit);
  }

  /** Pieces from point `i` to point `j`, with the distance at the middle point. */
  private range(i: number, j: number, dMid: number): void {
    const { along, points } = this.shape;
    if (j - i === 1) {
      this.slice(i, 0, along[j]! - along[i]!);
      return;
    }
    const m = (i + j) >> 1;
    const reach = Math.max(along[m]! - along[i]!, along[j]! - along[m]!) + this.r;
    if (dMid - reach >= this.cut) return;
    if (dMid - this.r < this.cut) {
      this.walkIn(m - 1, points[3 * m]!, points[3 * m + 1]!, points[3 * m + 2]!);
      if (dMid - this.r < this.cut) this.mitres.push({ m, d: dMid });
    }
    const limit = this.cut + reach;
    const dl = m - i > 1 ? this.at((i + m) >> 1, limit) : dMid;
    const dr = j - m > 1 ? this.at((m + j) >> 1, limit) : dMid;
    if (dl <= dr) {
      this.range(i, m, dl);
      this.range(m, j, dr);
    } else {
      this.range(m, j, dr);
      this.range(i, m, dl);
    }
  }

  /** The stretch z0..z1 of piece `i`: a flat-ended cylinder. */
  private slice(i: number, z0: number, z1: number): void {
    const { points, tangents } = this.shape;
    const zm = (z0 + z1) / 2;
    const h = (z1 - z0) / 2;
    const x = points[3 * i]! + tangents[3 * i]! * zm;
    const y = points[3 * i + 1]! + tangents[3 * i + 1]! * zm;
    const z = points[3 * i + 2]! + tangents[3 * i + 2]! * zm;
    const ball = Math.sqrt(this.r * this.r + h * h);
    const d = this.look(x, y, z, this.cut + ball);
    if (d - ball >= this.cut) return;
    if (d - this.r < this.cut) this.walkIn(i, x, y, z);
    if (d - ball >= this.cut) return;
    const settled = d - this.r >= this.cut;
    if (settled && h < THIN_SLICE_MM) return;
    if (settled || h > this.r / 2) {
      this.slice(i, z0, zm);
      this.slice(i, zm, z1);
      return;
    }
    this.slices.push({ i, z0, z1, d });
  }

  /** Steps to and fro between piece `i` and the solid from a centreline place: a good first answer, never a wrong one. */
  private walkIn(i: number, x: number, y: number, z: number): void {
    const { points: p, tangents: t, along } = this.shape;
    const length = along[i + 1]! - along[i]!;
    const [ax, ay, az] = [p[3 * i]!, p[3 * i + 1]!, p[3 * i + 2]!];
    const [tx, ty, tz] = [t[3 * i]!, t[3 * i + 1]!, t[3 * i + 2]!];
    let [qx, qy, qz] = [x, y, z];
    let last = Infinity;
    for (let step = 0; step <= STEPS; step++) {
      const near = this.lookClosely(qx, qy, qz);
      if (near.distance > last - APART_TOLERANCE_MM / 4) return;
      last = near.distance;
      // From inside step away from the nearest surface: that way it gets deeper.
      const s = near.distance < 0 ? -1 : 1;
      const wx = qx + (near.point[0] - qx) * s - ax;
      const wy = qy + (near.point[1] - qy) * s - ay;
      const wz = qz + (near.point[2] - qz) * s - az;
      const w = wx * tx + wy * ty + wz * tz;
      const a = Math.min(length, Math.max(0, w));
      const vx = wx - tx * w;
      const vy = wy - ty * w;
      const vz = wz - tz * w;
      const off = Math.sqrt(vx * vx + vy * vy + vz * vz);
      const f = off > this.r ? this.r / off : 1;
      qx = ax + tx * a + vx * f;
      qy = ay + ty * a + vy * f;
      qz = az + tz * a + vz * f;
    }
  }

  private discs(i: number, z0: number, z1: number): void {
    const { points: p, tangents: t, along, pieces } = this.shape;
    const axis: Vec = [t[3 * i]!, t[3 * i + 1]!, t[3 * i + 2]!];
    const u = perpendicular(axis);
    const v: Vec = [axis[1] * u[2] - axis[2] * u[1], axis[2] * u[0] - axis[0] * u[2], axis[0] * u[1] - axis[1] * u[0]];
    // The first guess of the open side: away from the nearer end.
    const s = along[i]! + z0 < along[pieces]! / 2 ? 1 : -1;
    const frame: DiscFrame = {
      from: [p[3 * i]!, p[3 * i + 1]!, p[3 * i + 2]!],
      axis,
      u,
      v,
      length: along[i + 1]! - along[i]!,
    };
    this.disc(frame, z0, z1, 0, this.r, 0, 2 * Math.PI, [axis[0] * s, axis[1] * s, axis[2] * s]);
  }

  /** One cell: z0..z1 along the piece, a sector of its discs. `open` is the way off the surface from the cell that held it. */
  private disc(f: DiscFrame, z0: number, z1: number, r0: number, r1: number, a0: number, a1: number, open: Vec): void {
    const zm = (z0 + z1) / 2;
    const whole = a1 - a0 > 6;
    const rm = whole ? 0 : (r0 + r1) / 2;
    const [qu, qv] = [rm * Math.cos((a0 + a1) / 2), rm * Math.sin((a0 + a1) / 2)];
    const qx = f.from[0] + f.axis[0] * zm + f.u[0] * qu + f.v[0] * qv;
    const qy = f.from[1] + f.axis[1] * zm + f.u[1] * qu + f.v[1] * qv;
    const qz = f.from[2] + f.axis[2] * zm + f.u[2] * qu + f.v[2] * qv;
    const h = (z1 - z0) / 2;
    const reach = Math.sqrt(h * h + farthestOverSector(qu, qv, r0, r1, a0, a1));
    if (this.look(qx, qy, qz, this.cut + reach) - reach >= this.cut) return;
    const near = this.lookClosely(qx, qy, qz);
    const d = near.distance;
    if (d - reach >= this.cut || reach < SMALLEST_MM) return;
    let n = open;
    if (Math.abs(d) > ON_SURFACE_MM) n = wayOff(qx, qy, qz, near.point, d);
    const nz = n[0] * f.axis[0] + n[1] * f.axis[1] + n[2] * f.axis[2];
    const nu = n[0] * f.u[0] + n[1] * f.u[1] + n[2] * f.u[2];
    const nv = n[0] * f.v[0] + n[1] * f.v[1] + n[2] * f.v[2];
    if (this.traits.convex) {
      if (Math.abs(d) > ON_SURFACE_MM) {
        const least = d - Math.abs(nz) * h - (nu * qu + nv * qv) + leastOverSector(nu, nv, r0, r1, a0, a1);
        if (least >= this.cut) return;
      } else if (this.liftedPlane(f, qx, qy, qz, qu, qv, h, r0, r1, a0, a1, n)) return;
    } else {
      for (const lift of LIFTS_MM) {
        const far = (h + Math.abs(nz) * lift) ** 2 + farthestOverSector(qu + nu * lift, qv + nv * lift, r0, r1, a0, a1);
        const span = Math.sqrt(far);
        const there = this.look(qx + n[0] * lift, qy + n[1] * lift, qz + n[2] * lift, this.cut + span);
        if (there - span >= this.cut) return;
      }
    }
    if (d < 0) this.dive(f, zm, qu, qv, n, d, reach);
    if (d < 0 && this.ridge(f, [qx, qy, qz], reach, qu, qv, h, r0, r1, a0, a1, n) >= this.cut) return;
    this.splitDisc(f, z0, z1, r0, r1, a0, a1, n, nz, nu, nv);
  }

  /** From a deep place down along the way off, with halving steps, kept to the disc's piece: finds the bottom of a ridge. */
  private dive(f: DiscFrame, zm: number, qu: number, qv: number, n: Vec, d: number, reach: number): void {
    if (d > this.best + DIVE_WITHIN_MM || this.dives >= DIVES) return;
    this.dives++;
    let [z, u, v, way, least] = [zm, qu, qv, n, d];
    for (let step = reach; step > APART_TOLERANCE_MM / 4; ) {
      const pz = Math.min(
        f.length,
        Math.max(0, z - step * (way[0] * f.axis[0] + way[1] * f.axis[1] + way[2] * f.axis[2])),
      );
      let pu = u - step * (way[0] * f.u[0] + way[1] * f.u[1] + way[2] * f.u[2]);
      let pv = v - step * (way[0] * f.v[0] + way[1] * f.v[1] + way[2] * f.v[2]);
      const off = Math.sqrt(pu * pu + pv * pv);
      if (off > this.r) [pu, pv] = [(pu * this.r) / off, (pv * this.r) / off];
      const x = f.from[0] + f.axis[0] * pz + f.u[0] * pu + f.v[0] * pv;
      const y = f.from[1] + f.axis[1] * pz + f.u[1] * pu + f.v[1] * pv;
      const w = f.from[2] + f.axis[2] * pz + f.u[2] * pu + f.v[2] * pv;
      const near = this.lookClosely(x, y, w);
      if (near.distance < least - 1e-6) {
        [z, u, v, least] = [pz, pu, pv, near.distance];
        way = wayOff(x, y, w, near.point, near.distance);
      } else step /= 2;
    }
  }

  /**
   * Deep inside, where two surfaces are equally near, one way off says little: the mean of two bounds, with the second way
   * off taken from just beyond the centre. For e from the centre, n1 and n2 the ways off, L the lift:
   * (|e - L n1| + |e - L n2|)/2 <= sqrt(|e - L m|^2 + L^2 (1 - |m|^2)) with m = (n1 + n2)/2, as the root is concave.
   */
  private ridge(
    f: DiscFrame,
    q: Vec,
    reach: number,
    qu: number,
    qv: number,
    h: number,
    r0: number,
    r1: number,
    a0: number,
    a1: number,
    n: Vec,
  ): number {
    const [x, y, z] = [q[0] - n[0] * reach, q[1] - n[1] * reach, q[2] - n[2] * reach];
    this.looks++;
    const near = this.field.closest(x, y, z);
    if (near.distance > -ON_SURFACE_MM) return -Infinity;
    const n2 = wayOff(x, y, z, near.point, near.distance);
    const m: Vec = [(n[0] + n2[0]) / 2, (n[1] + n2[1]) / 2, (n[2] + n2[2]) / 2];
    const rest = 1 - (m[0] * m[0] + m[1] * m[1] + m[2] * m[2]);
    if (rest < RIDGE_REST) return -Infinity;
    const lift = LIFTS_MM[0];
    const one = this.look(q[0] + n[0] * lift, q[1] + n[1] * lift, q[2] + n[2] * lift, Infinity);
    const two = this.look(q[0] + n2[0] * lift, q[1] + n2[1] * lift, q[2] + n2[2] * lift, Infinity);
    const mz = m[0] * f.axis[0] + m[1] * f.axis[1] + m[2] * f.axis[2];
    const mu = m[0] * f.u[0] + m[1] * f.u[1] + m[2] * f.u[2];
    const mv = m[0] * f.v[0] + m[1] * f.v[1] + m[2] * f.v[2];
    const far = (h + Math.abs(mz) * lift) ** 2 + farthestOverSector(qu + mu * lift, qv + mv * lift, r0, r1, a0, a1);
    return (one + two) / 2 - Math.sqrt(far + lift * lift * rest);
  }

  /** The tangent-plane bound from a place lifted off the surface, for a centre that lies on it. */
  private liftedPlane(
    f: DiscFrame,
    qx: number,
    qy: number,
    qz: number,
    qu: number,
    qv: number,
    h: number,
    r0: number,
    r1: number,
    a0: number,
    a1: number,
    n: Vec,
  ): boolean {
    const [x, y, z] = [qx + 2 * n[0], qy + 2 * n[1], qz + 2 * n[2]];
    this.looks++;
    const near = this.field.closest(x, y, z);
    if (Math.abs(near.distance) <= ON_SURFACE_MM) return false;
    const m = wayOff(x, y, z, near.point, near.distance);
    const mz = m[0] * f.axis[0] + m[1] * f.axis[1] + m[2] * f.axis[2];
    const mu = m[0] * f.u[0] + m[1] * f.u[1] + m[2] * f.u[2];
    const mv = m[0] * f.v[0] + m[1] * f.v[1] + m[2] * f.v[2];
    const atCentre = near.distance - 2 * (m[0] * n[0] + m[1] * n[1] + m[2] * n[2]);
    const least = atCentre - Math.abs(mz) * h - (mu * qu + mv * qv) + leastOverSector(mu, mv, r0, r1, a0, a1);
    return least >= this.cut;
  }

  /** Splits the side that loosens the bound most: its slope towards the surface and its own bulge. */
  private splitDisc(
    f: DiscFrame,
    z0: number,
    z1: number,
    r0: number,
    r1: number,
    a0: number,
    a1: number,
    n: Vec,
    nz: number,
    nu: number,
    nv: number,
  ): void {
    const am = (a0 + a1) / 2;
    const [c, s] = [Math.cos(am), Math.sin(am)];
    const whole = a1 - a0 > 6;
    const bulge = this.traits.convex ? 0 : 0.5 / LIFTS_MM[1];
    const size = SIZE_COUNTS;
    const dz = z1 - z0;
    const dr = r1 - r0;
    const da = (a1 - a0) * r1;
    const side = Math.sqrt(nu * nu + nv * nv);
    const byZ = (Math.abs(nz) + size) * dz + bulge * dz * dz;
    const byR = ((whole ? side : Math.abs(nu * c + nv * s)) + size) * dr + bulge * dr * dr;
    const byA = ((whole ? side : Math.abs(nv * c - nu * s)) + size) * da + bulge * da * da;
    if (byZ >= byR && byZ >= byA) {
      const m = (z0 + z1) / 2;
      this.disc(f, z0, m, r0, r1, a0, a1, n);
      this.disc(f, m, z1, r0, r1, a0, a1, n);
    } else if (byA >= byR || whole) {
      const parts = whole ? 4 : 2;
      for (let k = 0; k < parts; k++) {
        this.disc(f, z0, z1, r0, r1, a0 + ((a1 - a0) * k) / parts, a0 + ((a1 - a0) * (k + 1)) / parts, n);
      }
    } else {
      const m = (r0 + r1) / 2;
      this.disc(f, z0, z1, m, r1, a0, a1, n);
      this.disc(f, z0, z1, r0, m, a0, a1, n);
    }
  }
}

/** A cell this small is its centre [mm]: well under the tolerance, and the end of any tie at a search limit. */
const SMALLEST_MM = 0.005;

/** A side along which nothing slopes still has to be split some time: without this a cell square to its way off never shrinks. */
const SIZE_COUNTS = 0.02;

interface DiscFrame {
  readonly length: number;
  readonly from: Vec;
  readonly axis: Vec;
  readonly u: Vec;
  readonly v: Vec;
}
