import type { Vec } from '#geometry';
import type { Way } from '#lines';

/** The centreline of everything solid on the line, port face to port face; where bodies meet a point stands once. */
export function centreline(way: Pick<Way, 'bodies'>): readonly Vec[] {
  const out: Vec[] = [];
  for (const body of way.bodies)
    for (const point of body.pathMm) {
      const last = out.at(-1);
      if (last === undefined || apart(last, point) > 1e-6) out.push(point);
    }
  return out;
}

const apart = (a: Vec, b: Vec): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

export function wayLengthMm(way: Pick<Way, 'bodies'>): number {
  const path = centreline(way);
  return path.slice(1).reduce((sum, point, i) => sum + apart(point, path[i]!), 0);
}

/** The point so far along a path and the direction there; the ends where it is shorter. */
export function pointAlong(
  path: readonly Vec[],
  alongMm: number,
): { readonly atMm: Vec; readonly towards: Vec } | null {
  let left = Math.max(0, alongMm);
  for (let i = 1; i < path.length; i++) {
    const [a, b] = [path[i - 1]!, path[i]!];
    const step = apart(a, b);
    if (step < 1e-9) continue;
    if (left <= step || i === path.length - 1) {
      const share = Math.min(1, left / step);
      const towards: Vec = [(b[0] - a[0]) / step, (b[1] - a[1]) / step, (b[2] - a[2]) / step];
      return {
        atMm: [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share, a[2] + (b[2] - a[2]) * share],
        towards,
      };
    }
    left -= step;
  }
  return null;
}
