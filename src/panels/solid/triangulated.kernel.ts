/**
 * Triangles of a polygon with openings, by cutting ears: openings are first joined to the outside by a bridge from their rightmost
 * corner to a corner that sees it. Flat lists of x, y; the outside counter-clockwise, openings clockwise. Returns corner numbers
 * into the list of all points (outside first, then the openings in order), three to a triangle, counter-clockwise.
 */
export function triangulated(outside: readonly number[], openings: readonly (readonly number[])[]): number[] {
  const x: number[] = [];
  const y: number[] = [];
  const put = (flat: readonly number[]) => {
    const ids: number[] = [];
    for (let i = 0; i < flat.length; i += 2) {
      ids.push(x.length);
      x.push(flat[i]!);
      y.push(flat[i + 1]!);
    }
    return ids;
  };
  let loop = put(outside);
  const holes = openings.map(put);
  const rightmost = (ids: readonly number[]) => ids.reduce((a, b) => (x[b]! > x[a]! ? b : a));
  holes.sort((a, b) => x[rightmost(b)]! - x[rightmost(a)]!);
  for (const hole of holes) loop = bridged(loop, hole, rightmost(hole), x, y);
  return ears(loop, x, y);
}

const turn = (x: readonly number[], y: readonly number[], a: number, b: number, c: number): number =>
  (x[b]! - x[a]!) * (y[c]! - y[a]!) - (y[b]! - y[a]!) * (x[c]! - x[a]!);

/** The loop with a hole taken in: out to the hole's corner `from` and back along one bridge. */
function bridged(
  loop: readonly number[],
  hole: readonly number[],
  from: number,
  x: readonly number[],
  y: readonly number[],
): number[] {
  const [px, py] = [x[from]!, y[from]!];
  // The side of the loop that a ray to the right meets first.
  let nearest = Infinity;
  let best = -1;
  for (let i = 0; i < loop.length; i++) {
    const [a, b] = [loop[i]!, loop[(i + 1) % loop.length]!];
    if (y[a]! > py === y[b]! > py) continue;
    const at = x[a]! + ((py - y[a]!) * (x[b]! - x[a]!)) / (y[b]! - y[a]!);
    if (at >= px - 1e-9 && at < nearest) {
      nearest = at;
      best = x[a]! > x[b]! ? i : (i + 1) % loop.length;
    }
  }
  if (best === -1) return [...loop];
  // Corners inside the triangle between the hole, the place met and that side's end hide the end: the one seen flattest is taken.
  const end = loop[best]!;
  let flattest = Infinity;
  for (let i = 0; i < loop.length; i++) {
    const c = loop[i]!;
    if (c === end || x[c]! < px || !inside(px, py, nearest, py, x[end]!, y[end]!, x[c]!, y[c]!)) continue;
    const slope = Math.abs(py - y[c]!) / Math.max(x[c]! - px, 1e-12);
    const before = loop[(i + loop.length - 1) % loop.length]!;
    const after = loop[(i + 1) % loop.length]!;
    // Of two corners at one place (an older bridge) the one that opens towards the hole.
    const opens = turn(x, y, before, c, from) >= 0 || turn(x, y, c, after, from) >= 0;
    if (slope < flattest && opens) {
      flattest = slope;
      best = i;
    }
  }
  const at = hole.indexOf(from);
  const round = [...hole.slice(at), ...hole.slice(0, at)];
  return [...loop.slice(0, best + 1), ...round, from, loop[best]!, ...loop.slice(best + 1)];
}

function inside(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  px: number,
  py: number,
): boolean {
  const s = (bx - ax) * (py - ay) - (by - ay) * (px - ax);
  const t = (cx - bx) * (py - by) - (cy - by) * (px - bx);
  const u = (ax - cx) * (py - cy) - (ay - cy) * (px - cx);
  return (s >= 0 && t >= 0 && u >= 0) || (s <= 0 && t <= 0 && u <= 0);
}

function ears(loop: readonly number[], x: readonly number[], y: readonly number[]): number[] {
  const left = [...loop];
  const triangles: number[] = [];
  let i = 0;
  let since = 0;
  while (left.length > 3) {
    const n = left.length;
    const [a, b, c] = [left[(i + n - 1) % n]!, left[i % n]!, left[(i + 1) % n]!];
    const area = turn(x, y, a, b, c);
    // After a full round without an ear only rounding stands in the way: the corner is taken if it is no reflex one.
    const isForced = since > n;
    const isFlat = Math.abs(area) < 1e-12;
    if (isFlat || (area > 0 && (isForced || isEar(left, a, b, c, x, y))) || since > 2 * n) {
      if (!isFlat) triangles.push(a, b, c);
      left.splice(i % n, 1);
      since = 0;
      i = i % n === 0 ? 0 : (i % n) - 1;
      continue;
    }
    i = (i + 1) % n;
    since++;
  }
  if (left.length === 3 && Math.abs(turn(x, y, left[0]!, left[1]!, left[2]!)) > 1e-12)
    triangles.push(left[0]!, left[1]!, left[2]!);
  return triangles;
}

function isEar(
  left: readonly number[],
  a: number,
  b: number,
  c: number,
  x: readonly number[],
  y: readonly number[],
): boolean {
  const [minX, maxX] = [Math.min(x[a]!, x[b]!, x[c]!), Math.max(x[a]!, x[b]!, x[c]!)];
  const [minY, maxY] = [Math.min(y[a]!, y[b]!, y[c]!), Math.max(y[a]!, y[b]!, y[c]!)];
  for (const p of left) {
    const [px, py] = [x[p]!, y[p]!];
    if (px < minX || px > maxX || py < minY || py > maxY) continue;
    if ((px === x[a]! && py === y[a]!) || (px === x[b]! && py === y[b]!) || (px === x[c]! && py === y[c]!)) continue;
    if (turn(x, y, a, b, p) >= 0 && turn(x, y, b, c, p) >= 0 && turn(x, y, c, a, p) >= 0) return false;
  }
  return true;
}
