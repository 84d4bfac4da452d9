// Makes demo/scans/transaxle.stl: the demo car's bellhousing and transaxle as a hand scanner would give it.
// Run: npx tsx scripts/make-demo-scan.ts
import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { TriangleMesh } from '#geometry';
import { stlBinary } from '#intake';

type Point = readonly [x: number, y: number, z: number];
type Random = ReturnType<typeof xoroshiro128plus>;

/** Where the casing stands in car axes [mm]. */
const FRONT_X = 1960;
const REAR_X = 2720;
const MIDDLE_Z = 245;
/** The bell ends and the gearbox begins here [mm]. */
const NECK_X = 2140;
/** Half width and half height at the bell's mouth, at the neck and at the rear cover [mm]. */
const MOUTH = [167, 171] as const;
const NECK = [128, 138] as const;
const REAR = [112, 120] as const;
/** Both sides carry an output flange: centre, radius and how far out its face stands [mm]. */
const OUTPUT = { x: 2500, z: 260, radius: 62, faceY: 167 } as const;
/** Rings round the gearbox and one flange where bell and gearbox join: place, half width, height [mm]. */
const RINGS = [
  { x: NECK_X, half: 9, height: 10 },
  { x: 2235, half: 5, height: 7 },
  { x: 2330, half: 5, height: 7 },
  { x: 2640, half: 8, height: 9 },
] as const;
/** Ribs along the casing, their angle from the car's right, anticlockwise seen from the rear [deg]. */
const RIBS_DEG = [35, 90, 145, 215, 325] as const;
const RIB = { half: 6, height: 6 } as const;
/** Scatter of a hand scanner square to the surface, one standard deviation [mm]. */
const NOISE_MM = 0.4;
/** Mesh points wander about their grid by this share of its step, so that the triangles look scanned [-]. */
const WANDER = 0.28;
const AROUND = 144;
const ALONG = 98;
const CAP_RINGS = 7;
/** Patches that the scanner did not see: middle and radius [mm]. The long one is the underside over the floor. */
const UNSEEN = [
  { at: [2030, 0, 85], radius: 34 },
  { at: [2180, 120, 200], radius: 22 },
  { at: [2290, -118, 300], radius: 26 },
  { at: [2400, 60, 362], radius: 18 },
  { at: [2585, -105, 180], radius: 20 },
  { at: [2500, 150, 212], radius: 16 },
  { at: [1960, 40, 300], radius: 28 },
  { at: [2720, -30, 250], radius: 24 },
] as const;
const UNSEEN_UNDERSIDE = { fromX: 2250, toX: 2440, halfY: 34, belowZ: 150 } as const;

/** The scan as a mesh in car axes [mm]: closed but for the patches the scanner did not see. The same for the same seed. */
export function demoScan(seed: number): TriangleMesh {
  const random = xoroshiro128plus(seed);
  const rings: Point[][] = [];
  for (let k = 1; k <= CAP_RINGS; k++) rings.push(capRing(FRONT_X, k / CAP_RINGS, random));
  for (let j = 1; j < ALONG; j++) rings.push(casingRing(j, random));
  for (let k = CAP_RINGS; k >= 1; k--) rings.push(capRing(REAR_X, k / CAP_RINGS, random));
  const points = [...rings.flat(), [FRONT_X, 0, MIDDLE_Z] as const, [REAR_X, 0, MIDDLE_Z] as const];
  const faces = ringFaces(rings.length).filter((face) => !isUnseen(face.map((i) => points[i] ?? points[0]) as Point[]));
  return withNoise(points, faces, random);
}

/** One ring of casing points between the two ends. */
function casingRing(j: number, random: Random): Point[] {
  return Array.from({ length: AROUND }, (_, i) => {
    const along = (j + wander(random)) / ALONG;
    const x = FRONT_X + (REAR_X - FRONT_X) * along;
    return casingPoint(x, (2 * Math.PI * (i + wander(random))) / AROUND);
  });
}

/** One ring of an end face, at a share of the way from its middle to its rim. */
function capRing(x: number, share: number, random: Random): Point[] {
  return Array.from({ length: AROUND }, (_, i) => {
    const edge = share === 1;
    const [, y, z] = casingPoint(x, (2 * Math.PI * (i + (edge ? 0 : wander(random) * share))) / AROUND);
    const s = edge ? 1 : share + (wander(random) * 0.5) / CAP_RINGS;
    return [x, y * s, MIDDLE_Z + (z - MIDDLE_Z) * s];
  });
}

/** The casing's surface: a rounded box that tapers, with rings, ribs and the two output flanges on it. */
function casingPoint(x: number, angle: number): Point {
  const [width, height] = halfSizes(x);
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  // a bell is round, a gearbox squarish: the exponent of the outline goes from 2 to 4
  const power = 2 + 2 * smooth((x - FRONT_X) / (NECK_X - FRONT_X));
  const round = (Math.abs(c) ** power + Math.abs(s) ** power) ** (-1 / power);
  const raised = 1 + rise(x, angle, width) / Math.hypot(width * round * c, height * round * s);
  const y = width * round * c * raised;
  const z = MIDDLE_Z + height * round * s * raised;
  const away = Math.hypot(x - OUTPUT.x, z - OUTPUT.z);
  const boss = 1 - smooth((away - OUTPUT.radius) / 8);
  return [x, y + boss * Math.sign(c) * Math.max(0, OUTPUT.faceY - Math.abs(y)), z];
}

function halfSizes(x: number): readonly [number, number] {
  const bell = smooth((x - FRONT_X - 20) / (NECK_X - FRONT_X - 20));
  const box = Math.max(0, (x - NECK_X) / (REAR_X - NECK_X));
  const at = (k: 0 | 1): number => MOUTH[k] + (NECK[k] - MOUTH[k]) * bell + (REAR[k] - NECK[k]) * box;
  return [at(0), at(1)];
}

/** How far rings and ribs stand out [mm]. */
function rise(x: number, angle: number, width: number): number {
  const rings = RINGS.map((ring) => ring.height * (1 - smooth((Math.abs(x - ring.x) - ring.half) / 5)));
  if (x < NECK_X || x > REAR_X - 20) return Math.max(0, ...rings);
  const ribs = RIBS_DEG.map((deg) => {
    const turn = Math.abs(Math.atan2(Math.sin(angle - (deg * Math.PI) / 180), Math.cos(angle - (deg * Math.PI) / 180)));
    return RIB.height * (1 - smooth((turn * width - RIB.half) / 5));
  });
  return Math.max(0, ...rings, ...ribs);
}

/** Triangles between neighbouring rings, and the fans in the middle of the two ends; seen from outside anticlockwise. */
function ringFaces(rings: number): (readonly [number, number, number])[] {
  const faces: (readonly [number, number, number])[] = [];
  const at = (ring: number, i: number): number => ring * AROUND + (i % AROUND);
  const [front, rear] = [rings * AROUND, rings * AROUND + 1];
  for (let i = 0; i < AROUND; i++) {
    faces.push([front, at(0, i + 1), at(0, i)], [rear, at(rings - 1, i), at(rings - 1, i + 1)]);
    for (let r = 0; r + 1 < rings; r++) {
      faces.push([at(r, i), at(r, i + 1), at(r + 1, i + 1)], [at(r, i), at(r + 1, i + 1), at(r + 1, i)]);
    }
  }
  return faces;
}

function isUnseen(corners: readonly Point[]): boolean {
  const middle = [0, 1, 2].map((axis) => corners.reduce((sum, p) => sum + (p[axis] ?? 0), 0) / 3) as [
    number,
    number,
    number,
  ];
  if (UNSEEN.some(({ at, radius }) => Math.hypot(middle[0] - at[0], middle[1] - at[1], middle[2] - at[2]) < radius))
    return true;
  const [x, y, z] = middle;
  return (
    x > UNSEEN_UNDERSIDE.fromX &&
    x < UNSEEN_UNDERSIDE.toX &&
    Math.abs(y) < UNSEEN_UNDERSIDE.halfY &&
    z < UNSEEN_UNDERSIDE.belowZ
  );
}

/** Each point moved along its own normal by the scanner's scatter, then points without a triangle left out. */
function withNoise(
  points: readonly Point[],
  faces: readonly (readonly [number, number, number])[],
  random: Random,
): TriangleMesh {
  const normals = new Float64Array(points.length * 3);
  for (const face of faces) {
    const [a, b, c] = face.map((i) => points[i]) as [Point, Point, Point];
    const u = [b[0] - a[0], b[1] - a[1], b[2] - a[2]] as const;
    const v = [c[0] - a[0], c[1] - a[1], c[2] - a[2]] as const;
    const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]] as const;
    for (const i of face)
      for (const axis of [0, 1, 2] as const) normals[3 * i + axis] = (normals[3 * i + axis] ?? 0) + n[axis];
  }
  const positions = new Float32Array(points.length * 3);
  points.forEach((point, i) => {
    const normal = normals.subarray(3 * i, 3 * i + 3);
    const off = (NOISE_MM * scatter(random)) / (Math.hypot(...normal) || 1);
    point.forEach((value, axis) => {
      positions[3 * i + axis] = value + (normal[axis] ?? 0) * off;
    });
  });
  return { positions, indices: Uint32Array.from(faces.flat()) };
}

/** A number from the normal distribution, by the sum of twelve even ones less six: no logarithm, the same on every machine. */
const scatter = (random: Random): number =>
  Array.from({ length: 12 }, () => uniformFloat64(random)).reduce((sum, value) => sum + value, -6);

const wander = (random: Random): number => (uniformFloat64(random) * 2 - 1) * WANDER;

/** 0 up to 0, 1 from 1 on, and a soft step between. */
function smooth(t: number): number {
  const u = Math.min(1, Math.max(0, t));
  return u * u * (3 - 2 * u);
}

if (process.argv[1] !== undefined && path.resolve(process.argv[1]) === fileURLToPath(import.meta.url)) {
  const file = fileURLToPath(new URL('../demo/scans/transaxle.stl', import.meta.url));
  mkdirSync(path.dirname(file), { recursive: true });
  const scan = demoScan(2027);
  writeFileSync(file, stlBinary(scan));
  process.stdout.write(`${file}: ${scan.indices.length / 3} triangles\n`);
}
