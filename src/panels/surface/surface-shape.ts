import { distance, dot, sub, type Vec } from '#geometry';
import { bestPlane } from './best-plane.ts';

/** What a crease between two corners would do to a twisted panel. */
export interface CreaseChoice {
  readonly from: string;
  readonly to: string;
  readonly turnDeg: number;
  readonly lengthMm: number;
}

/** How far measured corners are from lying in one plane. */
export interface SurfaceShape {
  /** Furthest corner from the best plane [mm], and which. */
  readonly outMm: number;
  readonly outAt: string;
  /** How far the last of four corners stands off the plane of the other three [mm]: the rock on a flat bench. */
  readonly liftMm?: number;
  /** Either diagonal of a panel of four corners as a crease, the flatter one first. */
  readonly creases: readonly CreaseChoice[];
}

export function surfaceShape(corners: readonly { readonly id: string; readonly at: Vec }[]): SurfaceShape {
  const plane = bestPlane(corners.map(({ at }) => at));
  const off = corners.map(({ at }) => dot(sub(at, plane.middle), plane.normal));
  const worst = off.reduce((best, d, k) => (Math.abs(d) > Math.abs(off[best]!) + 1e-9 ? k : best), 0);
  if (corners.length !== 4) return { outMm: Math.abs(off[worst]!), outAt: corners[worst]!.id, creases: [] };
  const [a, b, c, d] = corners.map(({ at }) => at) as [Vec, Vec, Vec, Vec];
  const three = bestPlane([a, b, c]);
  const creases = [creaseBetween(corners, 0, 2), creaseBetween(corners, 1, 3)];
  return {
    outMm: Math.abs(off[worst]!),
    outAt: corners[worst]!.id,
    liftMm: Math.abs(dot(sub(d, three.middle), three.normal)),
    creases: creases.sort((p, q) => p.turnDeg - q.turnDeg),
  };
}

function creaseBetween(
  corners: readonly { readonly id: string; readonly at: Vec }[],
  i: number,
  j: number,
): CreaseChoice {
  const [p, q] = [corners[i]!, corners[j]!];
  const others = [corners[(i + 1) % 4]!.at, corners[(i + 3) % 4]!.at] as const;
  const one = bestPlane([p.at, q.at, others[0]]).normal;
  const two = bestPlane([p.at, others[1], q.at]).normal;
  const turn = Math.acos(Math.min(1, Math.max(-1, dot(one, two))));
  return { from: p.id, to: q.id, turnDeg: (turn * 180) / Math.PI, lengthMm: distance(p.at, q.at) };
}
