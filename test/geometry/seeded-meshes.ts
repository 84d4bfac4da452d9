import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** Meshes for tests and benchmarks: the same every time for the same numbers. */
export interface SoupMesh {
  positions: Float64Array;
  indices: Uint32Array;
}

/** Numbers in [0, 1), or in [low, high), out of one seed. */
export function chance(seed: number): (low?: number, high?: number) => number {
  const generator = xoroshiro128plus(seed);
  return (low = 0, high = 1) => low + (high - low) * uniformFloat64(generator);
}

/** A closed ball of 8 * 4^levels triangles, corners pushed in and out by up to `noiseMm`. */
export function ballMesh(levels: number, radiusMm: number, noiseMm = 0, seed = 1): SoupMesh {
  let points: number[][] = [
    [1, 0, 0],
    [-1, 0, 0],
    [0, 1, 0],
    [0, -1, 0],
    [0, 0, 1],
    [0, 0, -1],
  ];
  let faces = [
    [0, 2, 4],
    [2, 1, 4],
    [1, 3, 4],
    [3, 0, 4],
    [2, 0, 5],
    [1, 2, 5],
    [3, 1, 5],
    [0, 3, 5],
  ];
  for (let level = 0; level < levels; level++) {
    const middles = new Map<number, number>();
    const n = points.length;
    const next = [...points];
    const middle = (a: number, b: number): number => {
      const key = Math.min(a, b) * n + Math.max(a, b);
      let m = middles.get(key);
      if (m === undefined) {
        m = next.length;
        const p = [0, 1, 2].map((i) => points[a]![i]! + points[b]![i]!);
        const length = Math.hypot(...p);
        next.push(p.map((v) => v / length));
        middles.set(key, m);
      }
      return m;
    };
    faces = faces.flatMap(([a, b, c]) => {
      const ab = middle(a!, b!);
      const bc = middle(b!, c!);
      const ca = middle(c!, a!);
      return [
        [a!, ab, ca],
        [ab, b!, bc],
        [ca, bc, c!],
        [ab, bc, ca],
      ];
    });
    points = next;
  }
  const draw = chance(seed);
  const positions = new Float64Array(
    points.flatMap((p) => {
      const r = radiusMm + draw(-noiseMm, noiseMm);
      return p.map((v) => v * r);
    }),
  );
  return { positions, indices: new Uint32Array(faces.flat()) };
}

/** A wavy open sheet of 2 n n triangles in the square of `sideMm`, bumps of `noiseMm`. */
export function sheetMesh(n: number, sideMm: number, noiseMm: number, seed = 1): SoupMesh {
  const draw = chance(seed);
  const positions = new Float64Array((n + 1) * (n + 1) * 3);
  for (let i = 0, o = 0; i <= n; i++) {
    for (let j = 0; j <= n; j++) {
      positions[o++] = (i / n - 0.5) * sideMm;
      positions[o++] = (j / n - 0.5) * sideMm;
      positions[o++] = 0.05 * sideMm * Math.sin((i / n) * 7) * Math.cos((j / n) * 5) + draw(-noiseMm, noiseMm);
    }
  }
  const indices = new Uint32Array(n * n * 6);
  for (let i = 0, o = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const a = i * (n + 1) + j;
      for (const k of [a, a + n + 1, a + 1, a + 1, a + n + 1, a + n + 2]) indices[o++] = k;
    }
  }
  return { positions, indices };
}

/** Triangles thrown about: half of them long and thin down to one part in 10^9. */
export function sliverMesh(n: number, sideMm: number, seed = 1): SoupMesh {
  const draw = chance(seed);
  const positions = new Float64Array(n * 9);
  for (let t = 0; t < n; t++) {
    const at = [0, 1, 2].map(() => draw(-sideMm, sideMm));
    const along = [0, 1, 2].map(() => draw(-0.2, 0.2) * sideMm);
    const thin = t % 2 === 0 ? 1 : 10 ** -draw(3, 9);
    for (let axis = 0; axis < 3; axis++) {
      positions[t * 9 + axis] = at[axis]!;
      positions[t * 9 + 3 + axis] = at[axis]! + along[axis]!;
      positions[t * 9 + 6 + axis] = at[axis]! + draw() * along[axis]! + draw(-0.2, 0.2) * sideMm * thin;
    }
  }
  return { positions, indices: Uint32Array.from({ length: n * 3 }, (_, i) => i) };
}

/** A closed box of 12 triangles. */
export function boxMesh(min: readonly number[], max: readonly number[]): SoupMesh {
  const positions = new Float64Array(24);
  for (let corner = 0; corner < 8; corner++) {
    for (let axis = 0; axis < 3; axis++) {
      positions[corner * 3 + axis] = ((corner >> axis) & 1) === 1 ? max[axis]! : min[axis]!;
    }
  }
  const quads = [
    [0, 4, 6, 2],
    [1, 3, 7, 5],
    [0, 1, 5, 4],
    [2, 6, 7, 3],
    [0, 2, 3, 1],
    [4, 5, 7, 6],
  ];
  return { positions, indices: new Uint32Array(quads.flatMap(([a, b, c, d]) => [a!, b!, c!, a!, c!, d!])) };
}

/** Several meshes as one. */
export function joinedMeshes(...meshes: SoupMesh[]): SoupMesh {
  const positions = new Float64Array(meshes.reduce((sum, m) => sum + m.positions.length, 0));
  const indices = new Uint32Array(meshes.reduce((sum, m) => sum + m.indices.length, 0));
  let p = 0;
  let i = 0;
  for (const m of meshes) {
    positions.set(m.positions, p);
    indices.set(
      m.indices.map((k) => k + p / 3),
      i,
    );
    p += m.positions.length;
    i += m.indices.length;
  }
  return { positions, indices };
}

export function shiftedMesh(mesh: SoupMesh, by: readonly number[], scale = 1): SoupMesh {
  return { positions: mesh.positions.map((v, i) => v * scale + by[i % 3]!), indices: mesh.indices };
}

/** The mesh less the triangles for which `gone` says so. */
export function holedMesh(mesh: SoupMesh, gone: (triangle: number) => boolean): SoupMesh {
  return { positions: mesh.positions, indices: mesh.indices.filter((_, i) => !gone(Math.floor(i / 3))) };
}

/**
 * Squared distance from p to triangle abc by another road than the kernel: the least over the plane (where p stands over the
 * triangle: on the inner side of all three edges) and the three edges.
 */
export function soupDistance(mesh: SoupMesh, p: readonly number[]): number {
  let best = Infinity;
  const at = (k: number): number[] => [0, 1, 2].map((axis) => mesh.positions[mesh.indices[k]! * 3 + axis]!);
  for (let t = 0; t < mesh.indices.length; t += 3) {
    const corners = [at(t), at(t + 1), at(t + 2)];
    const n = crossed(minus(corners[1]!, corners[0]!), minus(corners[2]!, corners[0]!));
    const nn = dotted(n, n);
    let over = nn > 0;
    for (let k = 0; k < 3; k++) {
      const a = corners[k]!;
      const e = minus(corners[(k + 1) % 3]!, a);
      const w = minus(p, a);
      if (dotted(crossed(e, w), n) < 0) over = false;
      const s = Math.max(0, Math.min(1, dotted(w, e) / dotted(e, e)));
      const foot = w.map((v, i) => v - s * e[i]!);
      best = Math.min(best, Math.hypot(...foot));
    }
    if (over) best = Math.min(best, Math.abs(dotted(minus(p, corners[0]!), n)) / Math.sqrt(nn));
  }
  return best;
}

const minus = (a: readonly number[], b: readonly number[]): number[] => a.map((v, i) => v - b[i]!);
const dotted = (a: readonly number[], b: readonly number[]): number => a[0]! * b[0]! + a[1]! * b[1]! + a[2]! * b[2]!;
const crossed = (a: readonly number[], b: readonly number[]): number[] => [
  a[1]! * b[2]! - a[2]! * b[1]!,
  a[2]! * b[0]! - a[0]! * b[2]!,
  a[0]! * b[1]! - a[1]! * b[0]!,
];

/** A closed skin over an n by m grid: `place(u, v)` for u round and v along, both 0..1, closed by a fan at either end. */
function skinMesh(n: number, m: number, place: (u: number, v: number) => number[]): SoupMesh {
  const points: number[][] = [];
  const faces: number[] = [];
  for (let j = 0; j <= m; j++) for (let i = 0; i < n; i++) points.push(place(i / n, j / m));
  for (let j = 0; j < m; j++) {
    for (let i = 0; i < n; i++) {
      const a = j * n + i;
      const b = j * n + ((i + 1) % n);
      faces.push(a, b, a + n, b, b + n, a + n);
    }
  }
  for (const end of [0, m]) {
    const middle = [0, 1, 2].map((axis) => {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += points[end * n + i]![axis]!;
      return sum / n;
    });
    for (let i = 0; i < n; i++) {
      const a = end * n + i;
      const b = end * n + ((i + 1) % n);
      faces.push(...(end === 0 ? [b, a, points.length] : [a, b, points.length]));
    }
    points.push(middle);
  }
  return { positions: new Float64Array(points.flat()), indices: new Uint32Array(faces) };
}

/** What stands in a made-up bay, each part as a scan of its own. */
export interface BayPart {
  mesh: SoupMesh;
  group: 'hot' | 'moving' | 'fixed' | 'line';
}

/** A bay of 1200 x 1500 x 800 mm about the origin: floor, wall, castings, pipes; about `triangles` triangles, scan noise 0.2 mm. */
export function bayParts(triangles: number, seed = 1): BayPart[] {
  const draw = chance(seed);
  const noise = 0.2;
  const mm2 = 5.45e6 / triangles;
  const edge = Math.sqrt(mm2 * 2);
  const floor = (size: number): SoupMesh => sheetMesh(Math.round(size / edge), size, noise, seed + 1);
  const parts: BayPart[] = [
    { mesh: shiftedMesh(floor(1150), [0, 0, -380]), group: 'fixed' },
    { mesh: turnedUp(shiftedMesh(floor(700), [0, 0, -580])), group: 'fixed' },
  ];
  const groups = ['fixed', 'hot', 'fixed', 'line', 'fixed', 'moving'] as const;
  for (let k = 0; k < 26; k++) {
    const at = [draw(-450, 450), draw(-600, 600), draw(-300, 300)];
    if (k % 2 === 0) {
      const [a, b, c] = [draw(80, 230), draw(80, 230), draw(60, 160)];
      const n = Math.round((5.2 * (a + b)) / 2 / edge);
      const m = Math.round((2.8 * c) / edge) + 4;
      const [w1, w2] = [Math.floor(draw(2, 7)), Math.floor(draw(1, 5))];
      const mesh = skinMesh(n, m, (u, v) => {
        const angle = 2 * Math.PI * u;
        const polar = Math.PI * (0.02 + 0.96 * v);
        const r = (1 + 0.12 * Math.cos(w1 * angle) * Math.sin(w2 * polar)) * Math.sin(polar);
        return [
          at[0]! + a * r * Math.cos(angle) + draw(-noise, noise),
          at[1]! + b * r * Math.sin(angle) + draw(-noise, noise),
          at[2]! - c * Math.cos(polar) + draw(-noise, noise),
        ];
      });
      parts.push({ mesh, group: groups[k % 6]! });
    } else {
      const [bend, bore, sweep] = [draw(90, 260), draw(10, 32), draw(1.5, 4.5)];
      const n = Math.max(8, Math.round((2 * Math.PI * bore) / edge));
      const mesh = skinMesh(n, Math.round((bend * sweep) / edge), (u, v) => {
        const [angle, along] = [2 * Math.PI * u, sweep * v];
        const r = bend + bore * Math.cos(angle);
        const p = [r * Math.cos(along), r * Math.sin(along), -bore * Math.sin(angle)];
        const k3 = k % 3;
        return [0, 1, 2].map((i) => at[i]! + p[(i + k3) % 3]! + draw(-noise, noise));
      });
      parts.push({ mesh, group: groups[k % 6]! });
    }
  }
  return parts;
}

function turnedUp(mesh: SoupMesh): SoupMesh {
  const positions = mesh.positions.slice();
  for (let i = 0; i < positions.length; i += 3) {
    [positions[i], positions[i + 1], positions[i + 2]] = [positions[i + 2]!, positions[i]!, positions[i + 1]!];
  }
  return { positions, indices: mesh.indices };
}
