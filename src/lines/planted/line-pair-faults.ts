import { type Disc, type WrittenBody, discsOf } from './body-skin.ts';
import { type Distance, type Point, leastDistance, shapeDistance } from './solid-distance.ts';

/** Pairs of lines that come nearer to each other than they may, on their drawn bodies. */
export function linePairFaults(lines: ReadonlyMap<string, readonly WrittenBody[]>, keepOffMm: number): string[] {
  const all = [...lines].map(([id, bodies]) => ({
    id,
    discs: discsOf(bodies).filter((_, i) => i % 2 === 0),
    links: linksOf(bodies),
  }));
  const faults: string[] = [];
  for (const [i, a] of all.entries())
    for (const b of all.slice(i + 1)) {
      const gap = pairGap(a, b, keepOffMm);
      if (gap < keepOffMm - GRACE_MM) faults.push(`${a.id} and ${b.id} are ${gap.toFixed(2)} mm apart`);
    }
  return faults;
}

const GRACE_MM = 0.15;
const RIM_POINTS = 48;

interface Link {
  readonly from: Point;
  readonly to: Point;
  readonly radiusMm: number;
  readonly solid: Distance;
}

/** Each step of each body as a cylinder with flat ends. */
function linksOf(bodies: readonly WrittenBody[]): Link[] {
  return bodies.flatMap(({ pathMm, odMm }) =>
    pathMm.slice(1).flatMap((toMm, i): Link[] => {
      const fromMm = pathMm[i]!;
      if (distanceOf(fromMm, toMm) < 1e-9) return [];
      return [
        {
          from: fromMm,
          to: toMm,
          radiusMm: odMm / 2,
          solid: shapeDistance({ cylinder: { fromMm, toMm, radiusMm: odMm / 2 } }, new Map()),
        },
      ];
    }),
  );
}

const distanceOf = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

/** Balls round discs and links come first; only where they are too near are rims sampled against cylinders. */
function pairGap(
  a: { readonly discs: readonly Disc[] },
  b: { readonly links: readonly Link[] },
  beyondMm: number,
): number {
  let least = beyondMm;
  for (const disc of a.discs) {
    const near = b.links.filter((link) => {
      const middle: Point = [
        (link.from[0] + link.to[0]) / 2,
        (link.from[1] + link.to[1]) / 2,
        (link.from[2] + link.to[2]) / 2,
      ];
      return distanceOf(middle, disc.at) < disc.radiusMm + link.radiusMm + distanceOf(link.from, link.to) / 2 + least;
    });
    if (near.length === 0) continue;
    const solid = leastDistance(near.map((link) => link.solid));
    for (const point of rim(disc)) least = Math.min(least, solid(point));
  }
  return least;
}

function rim({ at, along, radiusMm }: Disc): Point[] {
  const [x, y, z] = along;
  const other: Point = Math.abs(x) < 0.7 ? [1, 0, 0] : [0, 1, 0];
  const s: Point = [y * other[2] - z * other[1], z * other[0] - x * other[2], x * other[1] - y * other[0]];
  const n = Math.hypot(...s);
  const side: Point = [s[0] / n, s[1] / n, s[2] / n];
  const up: Point = [y * side[2] - z * side[1], z * side[0] - x * side[2], x * side[1] - y * side[0]];
  const on = (angle: number, k: 0 | 1 | 2): number =>
    at[k] + radiusMm * (Math.cos(angle) * side[k] + Math.sin(angle) * up[k]);
  return [
    at,
    ...Array.from({ length: RIM_POINTS }, (_, i): Point => {
      const angle = (2 * Math.PI * i) / RIM_POINTS;
      return [on(angle, 0), on(angle, 1), on(angle, 2)];
    }),
  ];
}
