/** Triangles of points in the plane such that no point lies in a triangle's circle; three corners each, to the left. */
export function delaunayTriangles(xs: Float64Array, ys: Float64Array, order: readonly number[]): Int32Array {
  const n = xs.length;
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = 0; i < n; i++) {
    x0 = Math.min(x0, xs[i]!);
    y0 = Math.min(y0, ys[i]!);
    x1 = Math.max(x1, xs[i]!);
    y1 = Math.max(y1, ys[i]!);
  }
  const size = Math.max(x1 - x0, y1 - y0);
  const [mx, my] = [(x0 + x1) / 2, (y0 + y1) / 2];
  // A triangle about all of them, far enough out that its circles are nearly straight.
  const px = Float64Array.from([...xs, mx - 60 * size, mx + 60 * size, mx]);
  const py = Float64Array.from([...ys, my - 40 * size, my - 40 * size, my + 60 * size]);
  const most = 2 * n + 8;
  const v = new Int32Array(3 * most);
  const next = new Int32Array(3 * most).fill(-1);
  const isDead = new Uint8Array(most);
  const mark = new Int32Array(most).fill(-1);
  const startOf = new Int32Array(n + 3);
  v.set([n, n + 1, n + 2]);
  let [count, last] = [1, 0];
  const free: number[] = [];

  const left = (a: number, b: number, x: number, y: number): number =>
    (px[b]! - px[a]!) * (y - py[a]!) - (py[b]! - py[a]!) * (x - px[a]!);
  const isInCircle = (t: number, x: number, y: number): boolean => {
    const [a, b, c] = [v[3 * t]!, v[3 * t + 1]!, v[3 * t + 2]!];
    const [ax, ay, bx, by, cx, cy] = [px[a]! - x, py[a]! - y, px[b]! - x, py[b]! - y, px[c]! - x, py[c]! - y];
    const [a2, b2, c2] = [ax * ax + ay * ay, bx * bx + by * by, cx * cx + cy * cy];
    return ax * (by * c2 - b2 * cy) - ay * (bx * c2 - b2 * cx) + a2 * (bx * cy - by * cx) > 0;
  };

  for (const p of order) {
    const [x, y] = [px[p]!, py[p]!];
    let t = last;
    for (let step = 0; step < 4 * most; step++) {
      let way = -1;
      for (let k = 0; k < 3; k++)
        if (left(v[3 * t + ((k + 1) % 3)]!, v[3 * t + ((k + 2) % 3)]!, x, y) < 0) {
          way = next[3 * t + k]!;
          break;
        }
      if (way < 0) break;
      t = way;
    }
    // The triangles whose circle holds the point, grown from the one that it lies in.
    const hollow = [t];
    mark[t] = p;
    const rim: [a: number, b: number, beyond: number][] = [];
    for (let h = 0; h < hollow.length; h++) {
      const at = hollow[h]!;
      for (let k = 0; k < 3; k++) {
        const beyond = next[3 * at + k]!;
        if (beyond >= 0 && mark[beyond] === p) continue;
        if (beyond >= 0 && isInCircle(beyond, x, y)) {
          mark[beyond] = p;
          hollow.push(beyond);
        } else rim.push([v[3 * at + ((k + 1) % 3)]!, v[3 * at + ((k + 2) % 3)]!, beyond]);
      }
    }
    for (const at of hollow) {
      isDead[at] = 1;
      free.push(at);
    }
    const isInside = new Set(hollow);
    const made: number[] = [];
    for (const [a, b, beyond] of rim) {
      // A neighbour that was taken in after its side had been noted is no rim.
      if (beyond >= 0 && isInside.has(beyond)) continue;
      const at = free.pop() ?? count++;
      isDead[at] = 0;
      mark[at] = -1;
      v[3 * at] = p;
      v[3 * at + 1] = a;
      v[3 * at + 2] = b;
      next[3 * at] = beyond;
      next[3 * at + 1] = -1;
      next[3 * at + 2] = -1;
      startOf[a] = at;
      if (beyond >= 0)
        for (let k = 0; k < 3; k++)
          if (v[3 * beyond + ((k + 1) % 3)] === b && v[3 * beyond + ((k + 2) % 3)] === a) next[3 * beyond + k] = at;
      made.push(at);
    }
    // Side p-b of one is side b-p of the one that begins at b.
    for (const at of made) {
      const other = startOf[v[3 * at + 2]!]!;
      next[3 * at + 1] = other;
      next[3 * other + 2] = at;
    }
    last = made[0]!;
  }
  const triangles: number[] = [];
  for (let t = 0; t < count; t++) {
    if (isDead[t]) continue;
    const [a, b, c] = [v[3 * t]!, v[3 * t + 1]!, v[3 * t + 2]!];
    if (a < n && b < n && c < n) triangles.push(a, b, c);
  }
  return Int32Array.from(triangles);
}
