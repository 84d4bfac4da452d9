/** A closed surface made ready for volumes below planes: corners welded, places seen from `centre` [mm]. */
export interface LevelMesh {
  readonly positions: Float64Array;
  readonly indices: Uint32Array;
  /** Half the cross product of each triangle's sides: area times outward normal [mm2]. */
  readonly areas: Float64Array;
  readonly centre: readonly [x: number, y: number, z: number];
  readonly volumeMm3: number;
}

/**
 * The mesh as one direction sees it: heights of its corners along `up`, and of each triangle the three heights in rising order
 * and its area as seen from below. Filled anew for each direction; holds no allocation of its own afterwards.
 */
export interface Sighting {
  readonly mesh: LevelMesh;
  readonly heights: Float64Array;
  readonly low: Float64Array;
  readonly middle: Float64Array;
  readonly high: Float64Array;
  /** Triangle's area seen along `up`, above zero where it faces down [mm2]. */
  readonly floor: Float64Array;
  readonly active: Int32Array;
  least: number;
  most: number;
}

export function sightingOf(mesh: LevelMesh): Sighting {
  const triangles = mesh.indices.length / 3;
  return {
    mesh,
    heights: new Float64Array(mesh.positions.length / 3),
    low: new Float64Array(triangles),
    middle: new Float64Array(triangles),
    high: new Float64Array(triangles),
    floor: new Float64Array(triangles),
    active: new Int32Array(triangles),
    least: 0,
    most: 0,
  };
}

/** Looks at the mesh along the unit vector (ux, uy, uz). O(corners + triangles). */
export function lookAlong(s: Sighting, ux: number, uy: number, uz: number): void {
  const { heights } = s;
  const { positions: p, indices, areas } = s.mesh;
  let least = Infinity;
  let most = -Infinity;
  for (let i = 0, j = 0; i < heights.length; i++, j += 3) {
    const h = p[j]! * ux + p[j + 1]! * uy + p[j + 2]! * uz;
    heights[i] = h;
    if (h < least) least = h;
    if (h > most) most = h;
  }
  s.least = least;
  s.most = most;
  for (let t = 0, j = 0; t < s.low.length; t++, j += 3) {
    let a = heights[indices[j]!]!;
    let b = heights[indices[j + 1]!]!;
    let c = heights[indices[j + 2]!]!;
    let swap = a;
    if (a > b) {
      a = b;
      b = swap;
    }
    if (b > c) {
      swap = b;
      b = c;
      c = swap;
      if (a > b) {
        swap = a;
        a = b;
        b = swap;
      }
    }
    s.low[t] = a;
    s.middle[t] = b;
    s.high[t] = c;
    s.floor[t] = -(areas[j]! * ux + areas[j + 1]! * uy + areas[j + 2]! * uz);
  }
}

/**
 * Volume below the plane at height `h` along the direction looked along, and the area of the plane inside the mesh.
 *
 * The field (z - h) up has divergence 1 and vanishes on the plane, so that the volume is the sum over the triangles of
 * floor * mean over the triangle of (h - z) where that is above zero: no cap has to be built. The mean is a cubic in h on each
 * side of the middle corner.
 */
export function volumeBelow(s: Sighting, h: number): { volumeMm3: number; areaMm2: number } {
  let volumeMm3 = 0;
  let areaMm2 = 0;
  for (let t = 0; t < s.low.length; t++) {
    const low = s.low[t]!;
    if (h <= low) continue;
    const middle = s.middle[t]!;
    const high = s.high[t]!;
    const floor = s.floor[t]!;
    if (h >= high) {
      volumeMm3 += floor * (h - (low + middle + high) / 3);
      areaMm2 += floor;
    } else if (h <= middle) {
      const d = h - low;
      const share = (d * d) / ((middle - low) * (high - low));
      volumeMm3 += (floor * share * d) / 3;
      areaMm2 += floor * share;
    } else {
      const d = high - h;
      const share = (d * d) / ((high - low) * (high - middle));
      volumeMm3 += floor * (h - (low + middle + high) / 3 + (share * d) / 3);
      areaMm2 += floor * (1 - share);
    }
  }
  return { volumeMm3, areaMm2 };
}

/** Volume missed at most, as a share of the tank: rounding of a sum over thousands of triangles stays below it. */
const MISSED_SHARE = 1e-13;
/** Newton settles in a handful of steps; halving alone would need 60. */
const MOST_STEPS = 200;

/**
 * The height at which the volume below is `targetMm3`: Newton on the exact slope (the free surface), kept inside a bracket
 * that shrinks with each step. Triangles wholly below or above the bracket are summed once and left out.
 */
export function heightOfVolume(s: Sighting, targetMm3: number): number {
  const whole = s.mesh.volumeMm3;
  if (targetMm3 <= 0) return s.least;
  if (targetMm3 >= whole) return s.most;
  const { low, middle, high, floor, active } = s;
  let count = low.length;
  for (let t = 0; t < count; t++) active[t] = t;
  let under = s.least;
  let over = s.most;
  /** Sum of floor, and of floor times mean height, of the triangles wholly below. */
  let base = 0;
  let baseMoment = 0;
  let h = under + ((over - under) * targetMm3) / whole;
  for (let step = 0; step < MOST_STEPS; step++) {
    let volume = base * h - baseMoment;
    let area = base;
    for (let k = 0; k < count; k++) {
      const t = active[k]!;
      const a = low[t]!;
      if (h <= a) continue;
      const b = middle[t]!;
      const c = high[t]!;
      const f = floor[t]!;
      if (h >= c) {
        volume += f * (h - (a + b + c) / 3);
        area += f;
      } else if (h <= b) {
        const d = h - a;
        const share = (d * d) / ((b - a) * (c - a));
        volume += (f * share * d) / 3;
        area += f * share;
      } else {
        const d = c - h;
        const share = (d * d) / ((c - a) * (c - b));
        volume += f * (h - (a + b + c) / 3 + (share * d) / 3);
        area += f * (1 - share);
      }
    }
    const missed = volume - targetMm3;
    if (Math.abs(missed) <= MISSED_SHARE * whole) return h;
    if (missed > 0) over = h;
    else under = h;
    const newton = h - missed / area;
    const next = newton > under && newton < over ? newton : (under + over) / 2;
    if (next === h || next <= under || next >= over) return next;
    h = next;
    let kept = 0;
    for (let k = 0; k < count; k++) {
      const t = active[k]!;
      if (low[t]! >= over) continue;
      if (high[t]! <= under) {
        base += floor[t]!;
        baseMoment += (floor[t]! * (low[t]! + middle[t]! + high[t]!)) / 3;
      } else active[kept++] = t;
    }
    count = kept;
  }
  return h;
}
