import { box, cylinder, meshSolid, rotationFromDeg, triangleMesh, type Vec } from '#geometry';
import { capsule } from '#geometry';
import { discPiece, flatPiece, type HeatSurface, patchOf, roundPiece, solidPieces, type Patch } from './patch.ts';

/** A pair of surfaces whose view factor has a closed form (bibliography: view-factor-forms), built for rays and worked out by the form. Lengths in metres. */
export interface FormPair {
  readonly closed: number;
  readonly from: Patch;
  /** The surface seen. */
  readonly to: HeatSurface['solids'];
}

/** Millimetres a metre; plates are made this thin and elements this small [mm]. */
const K = 1000;
const THIN_MM = 0.01;
const SMALL_MM = 0.001;
/** What stands for endless, over the distance between. */
const ENDLESS = 3000;

const { atan, sqrt, log, acos, PI } = Math;

const discAt = (z: number, r: number, x = 0) => [cylinder([x * K, 0, z * K], [x * K, 0, z * K + THIN_MM], r * K)];
/** An element at the origin whose normal lies in the xz plane, tilted from z by so much. */
function element(tiltRad: number): Patch {
  const [c, s] = [Math.cos(tiltRad), Math.sin(tiltRad)];
  return patchOf(0, 1, [flatPiece([0, 0, 0], [c * SMALL_MM, 0, -s * SMALL_MM], [0, SMALL_MM, 0])]);
}

type Numbers = Readonly<Record<string, number>>;

/** Coaxial parallel discs. */
export function discs({ r1, r2, L }: Numbers): FormPair {
  const [a, b] = [r1! / L!, r2! / L!];
  const s = 1 + (1 + b * b) / (a * a);
  return {
    closed: (s - sqrt(s * s - 4 * (b / a) ** 2)) / 2,
    from: patchOf(0, 1, [discPiece([0, 0, 0], [0, 0, 1], r1! * K)]),
    to: discAt(L!, r2!),
  };
}

/** Aligned equal rectangles a x b at distance c. */
export function parallelRectangles({ a, b, c }: Numbers): FormPair {
  const [x, y] = [a! / c!, b! / c!];
  const closed =
    (2 / (PI * x * y)) *
    (log(sqrt(((1 + x * x) * (1 + y * y)) / (1 + x * x + y * y))) +
      x * sqrt(1 + y * y) * atan(x / sqrt(1 + y * y)) +
      y * sqrt(1 + x * x) * atan(y / sqrt(1 + x * x)) -
      x * atan(x) -
      y * atan(y));
  return {
    closed,
    from: patchOf(0, 1, [flatPiece([0, 0, 0], [a! * K, 0, 0], [0, b! * K, 0])]),
    to: [box([0, 0, c! * K], [a! * K, b! * K, c! * K + THIN_MM])],
  };
}

/** Rectangles square to each other with an edge in common, from the one y deep to the one z high. */
export function squareRectangles({ edge_x, A1_depth_y, A2_height_z }: Numbers): FormPair {
  const [h, w] = [A2_height_z! / edge_x!, A1_depth_y! / edge_x!];
  const [hh, ww] = [h * h, w * w];
  const closed =
    (w * atan(1 / w) +
      h * atan(1 / h) -
      sqrt(hh + ww) * atan(1 / sqrt(hh + ww)) +
      0.25 *
        (log(((1 + ww) * (1 + hh)) / (1 + ww + hh)) +
          ww * log((ww * (1 + ww + hh)) / ((1 + ww) * (ww + hh))) +
          hh * log((hh * (1 + hh + ww)) / ((1 + hh) * (hh + ww))))) /
    (PI * w);
  return {
    closed,
    from: patchOf(0, 1, [flatPiece([0, 0, 0], [edge_x! * K, 0, 0], [0, A1_depth_y! * K, 0])]),
    to: [box([0, -THIN_MM, 0], [edge_x! * K, 0, A2_height_z! * K])],
  };
}

/** A ball to a disc whose axis goes through its middle. */
export function ballDisc({ h, r_disc, R_sphere }: Numbers): FormPair {
  const ball = capsule([0, 0, 0], [0, 0, 0], R_sphere! * K);
  return {
    closed: (1 - 1 / sqrt(1 + (r_disc! / h!) ** 2)) / 2,
    from: patchOf(0, 1, solidPieces(ball)),
    to: discAt(h!, r_disc!),
  };
}

/** The same the other way round. */
export function discBall(inputs: Numbers): FormPair {
  const { h, r_disc, R_sphere } = inputs;
  return {
    closed: (ballDisc(inputs).closed * 4 * R_sphere! ** 2) / r_disc! ** 2,
    from: patchOf(0, 1, [discPiece([0, 0, h! * K], [0, 0, -1], r_disc! * K)]),
    to: [capsule([0, 0, 0], [0, 0, 0], R_sphere! * K)],
  };
}

/** Endless parallel cylinders, from the first to the second. */
export function cylinders({ r1, r2, centre_distance }: Numbers): FormPair {
  const [r, c] = [r2! / r1!, centre_distance! / r1!];
  const closed =
    (PI +
      sqrt(c * c - (r + 1) ** 2) -
      sqrt(c * c - (r - 1) ** 2) +
      (r - 1) * acos((r - 1) / c) -
      (r + 1) * acos((r + 1) / c)) /
    (2 * PI);
  const [d, half] = [centre_distance! * K, centre_distance! * K * ENDLESS];
  return {
    closed,
    from: patchOf(0, 1, [roundPiece([0, 0, 0], [0, 0, 1], [1, 0, 0], r1! * K, 1, 2 * PI)]),
    to: [cylinder([d, 0, -half], [d, 0, half], r2! * K)],
  };
}

/** An endless strip to an endless cylinder along it, whose axis stands over 0 of the strip's plane. */
export function stripCylinder({ s1, s2, L_axis_to_plane, r }: Numbers): FormPair {
  const high = L_axis_to_plane! * K;
  return {
    closed: (r! / (s1! - s2!)) * (atan(s1! / L_axis_to_plane!) - atan(s2! / L_axis_to_plane!)),
    from: patchOf(0, 1, [flatPiece([s2! * K, 0, 0], [(s1! - s2!) * K, 0, 0], [0, 1, 0])]),
    to: [cylinder([0, -high * ENDLESS, high], [0, high * ENDLESS, high], r! * K)],
  };
}

/** An element opposite one end of a cylinder, looking square at its axis. */
export function elementCylinder({ l, h, r }: Numbers): FormPair {
  const [length, high] = [l! / r!, h! / r!];
  const x = (1 + high) ** 2 + length ** 2;
  const y = (1 - high) ** 2 + length ** 2;
  const closed =
    atan(length / sqrt(high * high - 1)) / (PI * high) +
    (length / PI) *
      (((x - 2 * high) / (high * sqrt(x * y))) * atan(sqrt((x * (high - 1)) / (y * (high + 1)))) -
        atan(sqrt((high - 1) / (high + 1))) / high);
  return { closed, from: element(0), to: [cylinder([0, 0, h! * K], [0, l! * K, h! * K], r! * K)] };
}

/** An element on the axis of a disc, tilted, all of the disc above its horizon. */
export const elementDisc = ({ R, h, omega_deg }: Numbers): FormPair => ({
  closed: (R! ** 2 / (R! ** 2 + h! ** 2)) * Math.cos((omega_deg! * PI) / 180),
  from: element((omega_deg! * PI) / 180),
  to: discAt(h!, R!),
});

/** An element facing along the axis of a disc, beside it. */
export function elementDiscBeside({ h, a, r }: Numbers): FormPair {
  const [high, wide] = [h! / a!, r! / a!];
  const z = 1 + high ** 2 + wide ** 2;
  return {
    closed: (1 - (1 + high ** 2 - wide ** 2) / sqrt(z * z - 4 * wide ** 2)) / 2,
    from: element(0),
    to: discAt(h!, r!, a!),
  };
}

/** Two endless plates of one width with an edge in common at an angle. */
export function wedge({ alpha_deg }: Numbers): FormPair {
  const wide = K;
  const turn = rotationFromDeg([0, -alpha_deg!, 0]);
  const end = ENDLESS * wide;
  return {
    closed: 1 - Math.sin((alpha_deg! * PI) / 360),
    from: patchOf(0, 1, [flatPiece([0, 0, 0], [wide, 0, 0], [0, 1, 0])]),
    to: [box([0, -end, 0], [wide, end, 0], turn)],
  };
}

/** A sheet of four corners, met from both sides. */
export function sheet(a: Vec, b: Vec, c: Vec, d: Vec): HeatSurface['solids'] {
  return [meshSolid(triangleMesh(Float64Array.from([a, b, c, d].flat()), Uint32Array.from([0, 1, 2, 0, 2, 3])))];
}
