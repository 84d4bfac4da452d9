import { add, addScaled, arcPath, cross, distance, dot, norm, scale, sub, unit, type Vec } from '#geometry';

/** A cable laid through the corners of its path, every corner rounded. */
export interface CablePath {
  /** Points on it, at most 3 mm apart on bends [mm]. */
  readonly pointsMm: readonly Vec[];
  readonly lengthMm: number;
  /** All bends together [deg]. */
  readonly bendDeg: number;
  /** The largest radius that its tightest corner has room for; null where it has no bend [mm]. */
  readonly largestRadiusMm: number | null;
  /** The corner that has room for no more [mm]. */
  readonly tightestMm: Vec | null;
  /** Which way it leaves its two ends, outwards; length 1. */
  readonly outOfStart: Vec;
  readonly outOfEnd: Vec;
}

interface Corner {
  readonly atMm: Vec;
  readonly into: Vec;
  readonly out: Vec;
  readonly turnRad: number;
  /** Tangent length over radius. */
  readonly tangent: number;
  /** Which of the legs lie before and behind it. */
  readonly leg: number;
}

/** Less than this is no bend [rad]. */
const STRAIGHT = 1e-6;

/**
 * A cable through corners, each rounded by an arc tangent to both legs, as wide as `wantedRadiusMm` where there is room. A leg between two
 * corners holds r1 tan(t1/2) + r2 tan(t2/2); the corners that have least room are given their radius first, then what is left goes to the others.
 */
export function cablePath(cornersMm: readonly Vec[], wantedRadiusMm: number): CablePath {
  const legs = cornersMm.slice(1).map((to, i) => distance(cornersMm[i]!, to));
  const corners = cornersOf(cornersMm);
  const radii = cornerRadii(corners, legs);
  const tightest = radii.reduce((least, r, i) => (r < radii[least]! ? i : least), 0);
  const { pointsMm, lengthMm } = laid(
    cornersMm,
    corners,
    radii.map((r) => Math.min(r, wantedRadiusMm)),
  );
  return {
    pointsMm,
    lengthMm,
    bendDeg: (corners.reduce((sum, corner) => sum + corner.turnRad, 0) * 180) / Math.PI,
    largestRadiusMm: radii[tightest] ?? null,
    tightestMm: corners[tightest]?.atMm ?? null,
    outOfStart: unit(sub(cornersMm[0]!, cornersMm[1]!)),
    outOfEnd: unit(sub(cornersMm.at(-1)!, cornersMm.at(-2)!)),
  };
}

function cornersOf(points: readonly Vec[]): readonly Corner[] {
  return points.slice(1, -1).flatMap((atMm, i): Corner[] => {
    const into = unit(sub(atMm, points[i]!));
    const out = unit(sub(points[i + 2]!, atMm));
    const turnRad = Math.atan2(norm(cross(into, out)), dot(into, out));
    return turnRad < STRAIGHT ? [] : [{ atMm, into, out, turnRad, tangent: Math.tan(turnRad / 2), leg: i }];
  });
}

/** The largest radius of each corner, the least of them as large as can be. */
function cornerRadii(corners: readonly Corner[], legs: readonly number[]): readonly number[] {
  const radii: (number | undefined)[] = corners.map(() => undefined);
  for (let open = corners.length; open > 0; open = radii.filter((r) => r === undefined).length) {
    let least = Infinity;
    let limiting: number[] = [];
    legs.forEach((length, leg) => {
      const on = corners.flatMap((corner, i) => (corner.leg === leg || corner.leg + 1 === leg ? [i] : []));
      const free = on.filter((i) => radii[i] === undefined);
      if (free.length === 0) return;
      const taken = on.reduce((sum, i) => sum + (radii[i] ?? 0) * corners[i]!.tangent, 0);
      const room = Math.max(0, length - taken) / free.reduce((sum, i) => sum + corners[i]!.tangent, 0);
      if (room < least) [least, limiting] = [room, free];
    });
    for (const i of limiting) radii[i] = least;
  }
  return radii.map((r) => r ?? 0);
}

/** A tighter bend than this is drawn as a corner [mm]. */
const LEAST_DRAWN_MM = 0.5;

function laid(points: readonly Vec[], corners: readonly Corner[], radii: readonly number[]) {
  const out: Vec[] = [points[0]!];
  let lengthMm = 0;
  let at = points[0]!;
  for (const [i, corner] of corners.entries()) {
    // A cable folded back on itself has no bend that could be drawn.
    const radius = radii[i]! < LEAST_DRAWN_MM ? 0 : radii[i]!;
    const from = radius > 0 ? addScaled(corner.atMm, corner.into, -radius * corner.tangent) : corner.atMm;
    lengthMm += distance(at, from) + radius * corner.turnRad;
    if (distance(at, from) > 1e-9) out.push(from);
    if (radius > 0) {
      const arc = arcPath(from, corner.into, corner.out, radius, corner.turnRad).points;
      for (let k = 3; k < arc.length; k += 3) out.push([arc[k]!, arc[k + 1]!, arc[k + 2]!]);
    }
    at = radius > 0 ? addScaled(corner.atMm, corner.out, radius * corner.tangent) : corner.atMm;
  }
  const end = points.at(-1)!;
  lengthMm += distance(at, end);
  if (distance(out.at(-1)!, end) > 1e-9) out.push(end);
  else out[out.length - 1] = end;
  return { pointsMm: out, lengthMm };
}

/** The place of a path that is nearest to a point, which way it runs there, and how far off it is. */
export function nearestOnPath(
  pointsMm: readonly Vec[],
  toMm: Vec,
): { readonly atMm: Vec; readonly way: Vec; readonly offMm: number } {
  let best = { atMm: pointsMm[0]!, way: [1, 0, 0] as Vec, offMm: Infinity };
  for (let i = 1; i < pointsMm.length; i++) {
    const [a, b] = [pointsMm[i - 1]!, pointsMm[i]!];
    const along = sub(b, a);
    const share = Math.min(1, Math.max(0, dot(sub(toMm, a), along) / dot(along, along)));
    const atMm = add(a, scale(along, share));
    const offMm = distance(atMm, toMm);
    if (offMm < best.offMm) best = { atMm, way: unit(along), offMm };
  }
  return best;
}

/** The angle between two directions [deg]. */
export const angleBetweenDeg = (a: Vec, b: Vec): number => (Math.atan2(norm(cross(a, b)), dot(a, b)) * 180) / Math.PI;
