/**
 * A patch is a list of pieces, PIECE_WORDS numbers each: kind, share of the patch's area up to its end, then by kind
 * FLAT: corner, two sides, unit normal (the parallelogram on the sides); TRIANGLE: the same, half of it;
 * ROUND: foot of the axis, unit axis, unit direction square to it where the sector begins, radius, length, sector [rad];
 * DISC: middle, unit normal, unit direction in it, radius;
 * BALL: middle, unit axis, unit direction square to it, radius, heights from and to along the axis over the radius (-1 to 1).
 */
export const PIECE_WORDS = 16;
export const FLAT_PIECE = 0;
export const TRIANGLE_PIECE = 1;
export const ROUND_PIECE = 2;
export const DISC_PIECE = 3;
export const BALL_PIECE = 4;

/** Where a point is put: x y z [mm], outward normal x y z. */
export const POINT_WORDS = 6;

/** A point spread evenly over the patch out of two numbers in (0, 1), and the outward normal there. */
export function patchPoint(pieces: Float64Array, u0: number, v: number, out: Float64Array): void {
  const count = pieces.length / PIECE_WORDS;
  let low = 0;
  let high = count - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (u0 < pieces[middle * PIECE_WORDS + 1]!) high = middle;
    else low = middle + 1;
  }
  const at = low * PIECE_WORDS;
  const from = low === 0 ? 0 : pieces[at - PIECE_WORDS + 1]!;
  // The share of the piece becomes a number of its own: what is even over all stays even within.
  const u = (u0 - from) / (pieces[at + 1]! - from);
  const kind = pieces[at]!;
  const x = pieces[at + 2]!;
  const y = pieces[at + 3]!;
  const z = pieces[at + 4]!;
  if (kind === FLAT_PIECE || kind === TRIANGLE_PIECE) {
    let a = u;
    let b = v;
    if (kind === TRIANGLE_PIECE) {
      const root = Math.sqrt(u);
      a = root * (1 - v);
      b = root * v;
    }
    out[0] = x + a * pieces[at + 5]! + b * pieces[at + 8]!;
    out[1] = y + a * pieces[at + 6]! + b * pieces[at + 9]!;
    out[2] = z + a * pieces[at + 7]! + b * pieces[at + 10]!;
    out[3] = pieces[at + 11]!;
    out[4] = pieces[at + 12]!;
    out[5] = pieces[at + 13]!;
    return;
  }
  const ax = pieces[at + 5]!;
  const ay = pieces[at + 6]!;
  const az = pieces[at + 7]!;
  const ex = pieces[at + 8]!;
  const ey = pieces[at + 9]!;
  const ez = pieces[at + 10]!;
  const radius = pieces[at + 11]!;
  // Square to both: the axis, `e` and this are right-handed.
  const fx = ay * ez - az * ey;
  const fy = az * ex - ax * ez;
  const fz = ax * ey - ay * ex;
  const turn = (kind === ROUND_PIECE ? pieces[at + 13]! : 2 * Math.PI) * v;
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  const rx = c * ex + s * fx;
  const ry = c * ey + s * fy;
  const rz = c * ez + s * fz;
  if (kind === ROUND_PIECE) {
    const along = u * pieces[at + 12]!;
    out[0] = x + along * ax + radius * rx;
    out[1] = y + along * ay + radius * ry;
    out[2] = z + along * az + radius * rz;
    out[3] = rx;
    out[4] = ry;
    out[5] = rz;
  } else if (kind === DISC_PIECE) {
    const r = radius * Math.sqrt(u);
    out[0] = x + r * rx;
    out[1] = y + r * ry;
    out[2] = z + r * rz;
    out[3] = ax;
    out[4] = ay;
    out[5] = az;
  } else {
    // Slices of a ball of one height have one area.
    const h = pieces[at + 12]! + u * (pieces[at + 13]! - pieces[at + 12]!);
    const r = Math.sqrt(Math.max(0, 1 - h * h));
    out[3] = h * ax + r * rx;
    out[4] = h * ay + r * ry;
    out[5] = h * az + r * rz;
    out[0] = x + radius * out[3]!;
    out[1] = y + radius * out[4]!;
    out[2] = z + radius * out[5]!;
  }
}

/** A unit direction by the cosine law about a unit normal, out of two numbers in (0, 1). */
export function cosineWay(nx: number, ny: number, nz: number, u: number, v: number, out: Float64Array): void {
  // Two unit vectors square to the normal without a branch on where it points but its sign.
  const sign = nz < 0 ? -1 : 1;
  const a = -1 / (sign + nz);
  const b = nx * ny * a;
  const r = Math.sqrt(u);
  const turn = 2 * Math.PI * v;
  const c = r * Math.cos(turn);
  const s = r * Math.sin(turn);
  const up = Math.sqrt(1 - u);
  const x = c * (1 + sign * nx * nx * a) + s * b + up * nx;
  const y = c * sign * b + s * (sign + ny * ny * a) + up * ny;
  const z = -c * sign * nx - s * ny + up * nz;
  // A direction out of rounding is not quite of length 1.
  const k = 1 / Math.sqrt(x * x + y * y + z * z);
  out[0] = x * k;
  out[1] = y * k;
  out[2] = z * k;
}
