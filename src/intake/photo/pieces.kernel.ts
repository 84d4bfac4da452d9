import type { Point2 } from '#geometry';

/** A connected piece of the picture: how many places, whether it runs out of the picture, and the rims round it. */
export interface Piece {
  readonly label: number;
  readonly area: number;
  readonly touchesRim: boolean;
  /** Mean place. */
  readonly middle: Point2;
}

/** Places over the limit, joined where they share a side: a label for each place (0 = none), the pieces by label. */
export function pieces(
  score: ArrayLike<number>,
  limit: number,
  width: number,
  height: number,
): { labels: Int32Array; found: Piece[] } {
  const labels = new Int32Array(width * height);
  const stack = new Int32Array(width * height);
  const found: Piece[] = [];
  for (let start = 0; start < labels.length; start++) {
    if (labels[start] !== 0 || !(score[start]! > limit)) continue;
    const label = found.length + 1;
    let [area, sumX, sumY, top] = [0, 0, 0, 0];
    let touchesRim = false;
    stack[top++] = start;
    labels[start] = label;
    while (top > 0) {
      const at = stack[--top]!;
      const x = at % width;
      const y = (at - x) / width;
      area++;
      sumX += x;
      sumY += y;
      if (x === 0 || y === 0 || x === width - 1 || y === height - 1) touchesRim = true;
      for (let side = 0; side < 4; side++) {
        const [nx, ny] = [x + (side === 0 ? 1 : side === 1 ? -1 : 0), y + (side === 2 ? 1 : side === 3 ? -1 : 0)];
        if (nx < 0 || ny < 0 || nx >= width || ny >= height) continue;
        const next = ny * width + nx;
        if (labels[next] !== 0 || !(score[next]! > limit)) continue;
        labels[next] = label;
        stack[top++] = next;
      }
    }
    found.push({ label, area, touchesRim, middle: [sumX / area + 0.5, sumY / area + 0.5] });
  }
  return { labels, found };
}

/** A rim of a piece: a closed chain of places between pixels, the piece to the right as seen (y down); `area` is signed so. */
export interface Rim {
  readonly points: readonly Point2[];
  /** Positive round the outside, negative round an opening. */
  readonly area: number;
}

/** Right, down, left, up. */
const WAYS = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
] as const;

/** Every rim of one piece, by walking along the sides between its pixels and others; where two meet at a corner it turns right. */
export function rims(labels: Int32Array, label: number, width: number, height: number): Rim[] {
  const isIn = (x: number, y: number): boolean =>
    x >= 0 && y >= 0 && x < width && y < height && labels[y * width + x] === label;
  const walked = new Uint8Array(width * height);
  const out: Rim[] = [];
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      if (!isIn(x, y) || isIn(x, y - 1) || walked[y * width + x] === 1) continue;
      out.push(rimFrom(x, y, isIn, walked, width));
    }
  return out.sort((p, q) => Math.abs(q.area) - Math.abs(p.area));
}

function rimFrom(
  startX: number,
  startY: number,
  isIn: (x: number, y: number) => boolean,
  walked: Uint8Array,
  width: number,
): Rim {
  const points: Point2[] = [];
  let [x, y, way, twice] = [startX, startY, 0, 0];
  do {
    // along the top of the pixel below and to the right, when going right
    if (way === 0) walked[y * width + x] = 1;
    const [dx, dy] = WAYS[way]!;
    points.push([x + dx / 2, y + dy / 2]);
    const [nx, ny] = [x + dx, y + dy];
    twice += x * ny - nx * y;
    [x, y] = [nx, ny];
    // the two pixels ahead: to the right hand (where the piece is) and to the left hand
    const [rx, ry] = [x + (dx - dy - 1) / 2, y + (dx + dy - 1) / 2];
    const [lx, ly] = [x + (dx + dy - 1) / 2, y + (dy - dx - 1) / 2];
    if (!isIn(rx, ry)) way = (way + 1) % 4;
    else if (isIn(lx, ly)) way = (way + 3) % 4;
  } while (x !== startX || y !== startY || way !== 0);
  return { points, area: twice / 2 };
}

/** The closed chain at even steps, each place the mean of its neighbours within `reach` places: steps of pixels become a curve. */
export function smoothed(points: readonly Point2[], reach: number): Point2[] {
  const n = points.length;
  const half = Math.min(reach, Math.floor((n - 1) / 4));
  return points.map((_, i) => {
    let [sx, sy, sum] = [0, 0, 0];
    for (let k = -half; k <= half; k++) {
      const weight = half + 1 - Math.abs(k);
      const [px, py] = points[(i + k + n) % n]!;
      sx += weight * px;
      sy += weight * py;
      sum += weight;
    }
    return [sx / sum, sy / sum];
  });
}

/** Places at even steps round a closed chain; `least` of them at least, `most` at most. */
export function evenSteps(points: readonly Point2[], step: number, least: number, most: number): Point2[] {
  const n = points.length;
  const gaps = points.map((p, i) => {
    const q = points[(i + 1) % n]!;
    return Math.hypot(q[0] - p[0], q[1] - p[1]);
  });
  const total = gaps.reduce((a, b) => a + b, 0);
  const count = Math.max(least, Math.min(most, Math.round(total / step)));
  const out: Point2[] = [];
  let [i, before] = [0, 0];
  for (let k = 0; k < count; k++) {
    const want = (k * total) / count;
    while (i < n - 1 && before + gaps[i]! < want) before += gaps[i++]!;
    const share = gaps[i]! > 0 ? Math.min(1, (want - before) / gaps[i]!) : 0;
    const [p, q] = [points[i]!, points[(i + 1) % n]!];
    out.push([p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])]);
  }
  return out;
}
