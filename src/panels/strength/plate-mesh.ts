import {
  distanceToOutline,
  isInOutline,
  type Outline,
  outlineArea,
  type Point2,
  readyOutline,
  type ReadyOutline,
  reversedOutline,
  type Side,
  sideLength,
  sidePoint,
} from '#geometry';
import { delaunayTriangles } from './delaunay.kernel.ts';

/** A flat sheet with openings as triangles: straight between their corners; along a rim the middles of sides lie on it. */
export interface PlateMesh {
  readonly xs: Float64Array;
  readonly ys: Float64Array;
  /** Three corners a triangle, to the left. */
  readonly triangles: Int32Array;
  /** Stretches of rim in order: from node to node, the middle between them on the rim, its loop (0 = outside) and side. */
  readonly rim: readonly RimStretch[];
  /** Area of the triangles [mm2]. */
  readonly areaMm2: number;
  /** Size of a triangle away from everything [mm]. */
  readonly sizeMm: number;
}

export interface RimStretch {
  readonly a: number;
  readonly b: number;
  readonly middle: Point2;
  readonly loop: number;
  readonly side: number;
}

/** How fine. */
export interface Fineness {
  /** Triangles' size away from everything [mm]. */
  readonly sizeMm: number;
  /** Sides of triangles round a quarter of an arc. */
  readonly quarter: number;
  /** Triangles across a web. */
  readonly across: number;
}

/** How fast triangles may grow away from something small: 0.35 of the way. */
const GROWTH = 0.35;
/** Middles of cells nearer to a rim than this share of their size are left to the rim. */
const CLEAR_OF_RIM = 0.6;

interface Sample {
  readonly at: Point2;
  readonly size: number;
}

const leftward = (outline: Outline): Outline => (outlineArea(outline) < 0 ? reversedOutline(outline) : outline);

/** Triangles of a sheet with openings, finer round arcs and in webs. The same input gives the same triangles. */
export function plateMesh(outline: Outline, openings: readonly Outline[], fine: Fineness): PlateMesh {
  const loops = [outline, ...openings].map((loop) => readyOutline(leftward(loop)));
  const sizeAt = gradedSize(
    loops.flatMap((loop, i) => rimSamples(loops, loop, i, fine)),
    fine.sizeMm,
  );
  const points: Point2[] = [];
  const rim: RimStretch[] = [];
  for (const [loop, { sides }] of loops.entries()) rim.push(...rimNodes(sides, loop, sizeAt, points));
  const onRim = points.length;
  for (const p of innerPoints(loops, sizeAt, fine.sizeMm)) points.push(p);
  const triangles = keptTriangles(points, onRim, loops, sizeAt);
  const xs = Float64Array.from(points, ([x]) => x);
  const ys = Float64Array.from(points, ([, y]) => y);
  smooth(xs, ys, triangles, onRim);
  let areaMm2 = 0;
  for (let t = 0; t < triangles.length; t += 3) areaMm2 += triangleArea(xs, ys, triangles, t);
  return { xs, ys, triangles, rim, areaMm2, sizeMm: fine.sizeMm };
}

/** Places along a rim with the size that they ask for: an arc's, a web's. */
function rimSamples(loops: readonly ReadyOutline[], loop: ReadyOutline, at: number, fine: Fineness): Sample[] {
  return loop.sides.flatMap((side) => {
    const arc = side.arc === undefined ? fine.sizeMm : (side.arc.radius * Math.PI) / 2 / fine.quarter;
    const own = Math.min(fine.sizeMm, arc);
    const n = Math.max(2, Math.ceil((2 * sideLength(side)) / own));
    return Array.from({ length: n + 1 }, (_, k): Sample => {
      const p = sidePoint(side, k / n);
      let web = Infinity;
      for (const [i, other] of loops.entries())
        if (i !== at && nearBox(other, p) < Math.min(web, own * fine.across))
          web = Math.min(web, distanceToOutline(other, p));
      return { at: p, size: Math.min(own, web / fine.across) };
    });
  });
}

const nearBox = ({ box }: ReadyOutline, [x, y]: Point2): number =>
  Math.hypot(Math.max(box[0] - x, 0, x - box[2]), Math.max(box[1] - y, 0, y - box[3]));

/** Size of triangles at a point: small near small things, growing away from them. Samples in squares, nearest squares first. */
function gradedSize(samples: readonly Sample[], most: number): (p: Point2) => number {
  const small = samples.filter(({ size }) => size < most * 0.999);
  return ([x, y]) => {
    let size = most;
    for (const { at, size: own } of small) {
      const room = (size - own) / GROWTH;
      if (room <= 0) continue;
      const [dx, dy] = [x - at[0], y - at[1]];
      if (dx > room || dx < -room || dy > room || dy < -room) continue;
      size = Math.min(size, own + GROWTH * Math.sqrt(dx * dx + dy * dy));
    }
    return size;
  };
}

/** Nodes along a rim, one at each of its corners, spaced by the size asked for there. */
function rimNodes(sides: readonly Side[], loop: number, sizeAt: (p: Point2) => number, points: Point2[]): RimStretch[] {
  const stretches: { share: number; end: number; side: number }[] = [];
  const first = points.length;
  for (const [i, side] of sides.entries()) {
    const shares = spacedShares(side, sizeAt);
    for (let k = 0; k + 1 < shares.length; k++) {
      points.push(sidePoint(side, shares[k]!));
      stretches.push({ share: shares[k]!, end: shares[k + 1]!, side: i });
    }
  }
  const n = stretches.length;
  return stretches.map(({ share, end, side }, k) => ({
    a: first + k,
    b: first + ((k + 1) % n),
    middle: sidePoint(sides[side]!, (share + end) / 2),
    loop,
    side,
  }));
}

/** Shares of a side at which nodes stand: as many as the sizes along it add up to. */
function spacedShares(side: Side, sizeAt: (p: Point2) => number): number[] {
  const fine = 64;
  const sums = [0];
  for (let k = 0; k < fine; k++)
    sums.push(sums[k]! + sideLength(side) / fine / sizeAt(sidePoint(side, (k + 0.5) / fine)));
  const n = Math.max(side.arc === undefined ? 1 : 2, Math.round(sums[fine]!));
  const shares: number[] = [];
  let k = 0;
  for (let i = 0; i <= n; i++) {
    const want = (sums[fine]! * i) / n;
    while (k < fine - 1 && sums[k + 1]! < want) k++;
    shares.push(i === n ? 1 : Math.min(1, (k + (want - sums[k]!) / (sums[k + 1]! - sums[k]!)) / fine));
  }
  return shares;
}

/** Middles of squares halved until they are as small as asked for, clear of the rim. */
function innerPoints(loops: readonly ReadyOutline[], sizeAt: (p: Point2) => number, most: number): Point2[] {
  const [x0, y0, x1, y1] = loops[0]!.box;
  const found: Point2[] = [];
  const [nx, ny] = [Math.max(1, Math.ceil((x1 - x0) / most)), Math.max(1, Math.ceil((y1 - y0) / most))];
  const [dx, dy] = [(x1 - x0) / nx, (y1 - y0) / ny];
  const into = (x: number, y: number, w: number, h: number, depth: number): void => {
    const p: Point2 = [x + w / 2, y + h / 2];
    const size = sizeAt(p);
    if (depth < 10 && Math.max(w, h) > 1.25 * size) {
      for (const [i, j] of [
        [0, 0],
        [1, 0],
        [0, 1],
        [1, 1],
      ] as const)
        into(x + (i * w) / 2, y + (j * h) / 2, w / 2, h / 2, depth + 1);
      return;
    }
    if (!isInOutline(loops[0]!, p) || distanceToOutline(loops[0]!, p) < CLEAR_OF_RIM * size) return;
    for (const loop of loops.slice(1)) {
      const near = nearBox(loop, p);
      if (near > CLEAR_OF_RIM * size) continue;
      if (isInOutline(loop, p) || distanceToOutline(loop, p) < CLEAR_OF_RIM * size) return;
    }
    found.push(p);
  };
  for (let j = 0; j < ny; j++) for (let i = 0; i < nx; i++) into(x0 + i * dx, y0 + j * dy, dx, dy, 0);
  return found;
}

/** A fixed scatter of -1 to 1 for point i, so that no four lie on one circle. */
const scatter = (i: number): number => {
  const s = Math.sin(i * 12.9898 + 4.1) * 43758.5453;
  return 2 * (s - Math.floor(s)) - 1;
};

function keptTriangles(
  points: readonly Point2[],
  onRim: number,
  loops: readonly ReadyOutline[],
  sizeAt: (p: Point2) => number,
): Int32Array {
  // Moved a little for the triangulation alone: grids and circles have many points on one circle.
  const by = points.map((p) => 1e-4 * sizeAt(p));
  const xs = Float64Array.from(points, ([x], i) => x + by[i]! * scatter(2 * i));
  const ys = Float64Array.from(points, ([, y], i) => y + by[i]! * scatter(2 * i + 1));
  const strip = Math.max(1e-9, (loops[0]!.box[3] - loops[0]!.box[1]) / Math.sqrt(points.length));
  const row = (i: number): number => Math.floor((points[i]![1] - loops[0]!.box[1]) / strip);
  const order = points
    .map((_, i) => i)
    .sort((i, j) => row(i) - row(j) || (row(i) % 2 === 0 ? 1 : -1) * (points[i]![0] - points[j]![0]) || i - j);
  const all = delaunayTriangles(xs, ys, order);
  const kept: number[] = [];
  for (let t = 0; t < all.length; t += 3) {
    const [a, b, c] = [all[t]!, all[t + 1]!, all[t + 2]!];
    const [p, q, r] = [points[a]!, points[b]!, points[c]!];
    const middle: Point2 = [(p[0] + q[0] + r[0]) / 3, (p[1] + q[1] + r[1]) / 3];
    const twice = (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
    const long2 = Math.max(
      (q[0] - p[0]) ** 2 + (q[1] - p[1]) ** 2,
      (r[0] - q[0]) ** 2 + (r[1] - q[1]) ** 2,
      (p[0] - r[0]) ** 2 + (p[1] - r[1]) ** 2,
    );
    // Three nodes in line along a straight rim are no triangle.
    if (twice < 2e-3 * long2 && a < onRim && b < onRim && c < onRim) continue;
    if (!isInOutline(loops[0]!, middle)) continue;
    if (loops.slice(1).some((loop) => nearBox(loop, middle) === 0 && isInOutline(loop, middle))) continue;
    kept.push(a, b, c);
  }
  return Int32Array.from(kept);
}

const triangleArea = (xs: Float64Array, ys: Float64Array, v: Int32Array, t: number): number => {
  const [a, b, c] = [v[t]!, v[t + 1]!, v[t + 2]!];
  return ((xs[b]! - xs[a]!) * (ys[c]! - ys[a]!) - (ys[b]! - ys[a]!) * (xs[c]! - xs[a]!)) / 2;
};

/** Moves inner nodes to the middle of their neighbours, where that turns no triangle over. */
function smooth(xs: Float64Array, ys: Float64Array, v: Int32Array, onRim: number): void {
  const around: number[][] = Array.from({ length: xs.length }, () => []);
  for (let t = 0; t < v.length; t += 3) for (let k = 0; k < 3; k++) around[v[t + k]!]!.push(t);
  const least = (i: number): number => Math.min(...around[i]!.map((t) => triangleArea(xs, ys, v, t)));
  for (let round = 0; round < 4; round++)
    for (let i = onRim; i < xs.length; i++) {
      let [x, y, n] = [0, 0, 0];
      for (const t of around[i]!)
        for (let k = 0; k < 3; k++) if (v[t + k] !== i) [x, y, n] = [x + xs[v[t + k]!]!, y + ys[v[t + k]!]!, n + 1];
      if (n === 0) continue;
      const [was, oldX, oldY] = [least(i), xs[i]!, ys[i]!];
      [xs[i], ys[i]] = [x / n, y / n];
      if (least(i) < Math.min(was, 0.3 * Math.abs(was))) [xs[i], ys[i]] = [oldX, oldY];
    }
}
