/** Directions an arc may bend to; and those of the gentle arcs, of so many radii. */
const SHARP_WAYS = 8;
const GENTLE_WAYS = 4;
const GENTLE_RADII = 2.5;
/** Where along a piece the room is looked at; the last two only where something is as close as this [mm]. */
export const LOOKS = [1, 0.5, 0.25, 0.75] as const;

/** A piece as it goes on from any pose: to which side, and how far on and off it is at each look. */
export interface Move {
  readonly u: number;
  readonly v: number;
  readonly on: Float64Array;
  readonly off: Float64Array;
  readonly cos: number;
  readonly sin: number;
}

/** Straight on, and arcs of this radius to all sides. */
export function movesOf(piece: number, radius: number): Move[] {
  const arc = (azimuth: number, r: number): Move => ({
    u: Math.cos(azimuth),
    v: Math.sin(azimuth),
    on: Float64Array.from(LOOKS, (share) => r * Math.sin((share * piece) / r)),
    off: Float64Array.from(LOOKS, (share) => r * (1 - Math.cos((share * piece) / r))),
    cos: Math.cos(piece / r),
    sin: Math.sin(piece / r),
  });
  const straight: Move = {
    u: 0,
    v: 0,
    on: Float64Array.from(LOOKS, (share) => share * piece),
    off: new Float64Array(LOOKS.length),
    cos: 1,
    sin: 0,
  };
  const round = (ways: number, shift: number, r: number): Move[] =>
    Array.from({ length: ways }, (_, k) => arc((2 * Math.PI * (k + shift)) / ways, r));
  return [straight, ...round(SHARP_WAYS, 0, radius), ...round(GENTLE_WAYS, 0.5, radius * GENTLE_RADII)];
}

/** Two directions across a heading and each other. */
export function perpendiculars(pose: Float64Array, out: Float64Array): void {
  const x = pose[3]!;
  const y = pose[4]!;
  const z = pose[5]!;
  // Branchless basis from the heading, steady but for a flip at z = 0 (Duff and others 2017, JCGT 6(1)).
  const sign = z < 0 ? -1 : 1;
  const p = -1 / (sign + z);
  const q = x * y * p;
  out[0] = 1 + sign * x * x * p;
  out[1] = sign * q;
  out[2] = -sign * x;
  out[3] = q;
  out[4] = sign + y * y * p;
  out[5] = -y;
}

/** What turning by an angle costs beyond going straight, in radii, from its cosine: the arc less its chord, at least. */
function turnCost(cos: number): number {
  const at = Math.max(0, Math.min(TURN_STEPS, (1 - cos) * (TURN_STEPS / 2)));
  const n = Math.floor(at);
  return TURN_COSTS[n]! + (at - n) * (TURN_COSTS[n + 1]! - TURN_COSTS[n]!);
}

/** Read from a table, as it is asked for millions of times: within 0.02 where it turns right round, 1e-4 up to 150 degrees. */
const TURN_STEPS = 4096;
const TURN_COSTS = Float64Array.from({ length: TURN_STEPS + 2 }, (_, n) => {
  const turn = Math.acos(Math.max(-1, 1 - (2 * n) / TURN_STEPS));
  return turn - Math.sin(turn);
});

/** Numbers of a target: place, direction out of it, cost. */
const TARGET = 7;

/** Length to the nearest target as if nothing stood between, its turns counted, but no less than `floor` [mm]. */
export function lengthToGo(pose: Float64Array, targets: Float64Array, radius: number, floor: number): number {
  let least = Infinity;
  for (let t = 0; t < targets.length; t += TARGET) {
    const dx = targets[t]! - pose[0]!;
    const dy = targets[t + 1]! - pose[1]!;
    const dz = targets[t + 2]! - pose[2]!;
    const far = Math.sqrt(dx * dx + dy * dy + dz * dz);
    if (far + targets[t + 6]! >= least) continue;
    const ahead = far < 1e-9 ? 1 : (dx * pose[3]! + dy * pose[4]! + dz * pose[5]!) / far;
    const behind = far < 1e-9 ? 1 : -(dx * targets[t + 3]! + dy * targets[t + 4]! + dz * targets[t + 5]!) / far;
    const begun = turnCost(ahead);
    if (far + targets[t + 6]! + radius * begun >= least) continue;
    const length = far + targets[t + 6]! + radius * (begun + turnCost(behind));
    if (length <= floor) return floor;
    if (length < least) least = length;
  }
  return least;
}
