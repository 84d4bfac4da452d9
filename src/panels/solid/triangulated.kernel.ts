/**
 * Triangles of a polygon with openings, by cutting ears: openings are first joined to the outside by a bridge from their rightmost
 * corner to the nearest that sees it. Flat lists of x, y; the outside counter-clockwise, openings clockwise. Returns corner numbers
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
  holes.forEach((hole, i) => {
    loop = bridged(loop, hole, holes.slice(i + 1), rightmost(hole), x, y);
  });
  return ears(loop, x, y);
}

const turn = (x: readonly number[], y: readonly number[], a: number, b: number, c: number): number =>
  (x[b]! - x[a]!) * (y[c]! - y[a]!) - (y[b]! - y[a]!) * (x[c]! - x[a]!);

/** The loop with a hole taken in: out to the hole's corner `from` and back along the shortest bridge that meets nothing. */
function bridged(
  loop: readonly number[],
  hole: readonly number[],
  rest: readonly (readonly number[])[],
  from: number,
  x: readonly number[],
  y: readonly number[],
): number[] {
  const far = (c: number) => (x[c]! - x[from]!) ** 2 + (y[c]! - y[from]!) ** 2;
  const nearest = loop.map((_, i) => i).sort((i, j) => far(loop[i]!) - far(loop[j]!));
  const loops = [loop, hole, ...rest];
  const best = nearest.find(
    (i) => opensTo(loop, i, from, x, y) && loops.every((other) => isClear(other, from, loop[i]!, x, y)),
  );
  if (best === undefined) return [...loop];
  const at = hole.indexOf(from);
  const round = [...hole.slice(at), ...hole.slice(0, at)];
  return [...loop.slice(0, best + 1), ...round, from, loop[best]!, ...loop.slice(best + 1)];
}

/** Whether the sheet at this corner opens towards a point; of two corners at one place (an older bridge) just one does. */
function opensTo(loop: readonly number[], i: number, to: number, x: readonly number[], y: readonly number[]): boolean {
  const n = loop.length;
  const [before, c, after] = [loop[(i + n - 1) % n]!, loop[i]!, loop[(i + 1) % n]!];
  const [fromBefore, fromAfter] = [turn(x, y, before, c, to) > 0, turn(x, y, c, after, to) > 0];
  return turn(x, y, before, c, after) > 0 ? fromBefore && fromAfter : fromBefore || fromAfter;
}

/** Whether the straight from `a` to `b` meets no side of a loop but at its own ends. */
function isClear(loop: readonly number[], a: number, b: number, x: readonly number[], y: readonly number[]): boolean {
  const isAt = (p: number, q: number) => x[p] === x[q] && y[p] === y[q];
  for (let i = 0; i < loop.length; i++) {
    const [p, q] = [loop[i]!, loop[(i + 1) % loop.length]!];
    if (isAt(p, a) || isAt(p, b) || isAt(q, a) || isAt(q, b)) continue;
    if (turn(x, y, a, b, p) * turn(x, y, a, b, q) <= 0 && turn(x, y, p, q, a) * turn(x, y, p, q, b) <= 0) return false;
  }
  return true;
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
    if (isFlat || (area > 0 && (isForced || isEar(left, i % n, x, y))) || since > 2 * n) {
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

/** Whether the side across an ear lies in the sheet: it opens at both ends, meets nothing, and no corner lies in the triangle. */
function isEar(left: readonly number[], at: number, x: readonly number[], y: readonly number[]): boolean {
  const n = left.length;
  const [ka, kc] = [(at + n - 1) % n, (at + 1) % n];
  const [a, b, c] = [left[ka]!, left[at]!, left[kc]!];
  const [minX, maxX] = [Math.min(x[a]!, x[b]!, x[c]!), Math.max(x[a]!, x[b]!, x[c]!)];
  const [minY, maxY] = [Math.min(y[a]!, y[b]!, y[c]!), Math.max(y[a]!, y[b]!, y[c]!)];
  const isAt = (p: number, q: number) => x[p] === x[q] && y[p] === y[q];
  for (const p of left) {
    const [px, py] = [x[p]!, y[p]!];
    if (px < minX || px > maxX || py < minY || py > maxY || isAt(p, a) || isAt(p, b) || isAt(p, c)) continue;
    if (turn(x, y, a, b, p) >= 0 && turn(x, y, b, c, p) >= 0 && turn(x, y, c, a, p) >= 0) return false;
  }
  return opensTo(left, ka, c, x, y) && opensTo(left, kc, a, x, y) && isClear(left, a, c, x, y);
}
