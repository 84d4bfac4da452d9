import * as THREE from 'three';
import { MeshBVH, SAH } from 'three-mesh-bvh';
import {
  firstRayHit,
  meshSolid,
  RAY_HIT_WORDS,
  type RayScene,
  rayScene,
  type Solid,
  type TriangleMesh,
  triangleMesh,
} from '#geometry';
import { exchangeFactors } from '#heat';
import { cosineWay, patchPoint, POINT_WORDS } from '../src/heat/exchange/patch-point.kernel.ts';
import { demoMeshes, demoScene, takenDemo } from '../test/heat/demo-bay.ts';
import { tessellated } from '../test/heat/tessellated.ts';
import { ballMesh, chance } from '../test/geometry/seeded-meshes.ts';

const title = 'first hits: rays a second against three-mesh-bvh, one thread, same rays';
const RAYS = 100_000;
const ROUNDS = 5;
const SIDES = 16;

const cpuMs = (): number => process.cpuUsage().user / 1000;

/** Origin and direction of each ray: six numbers. */
type Rays = Float64Array;

/** Rays as radiation sends them: from the patches of the bay by the cosine law. */
function demoRays(patches: ReturnType<typeof demoScene>['patches']): Rays {
  const draw = chance(1);
  const rays = new Float64Array(RAYS * 6);
  const point = new Float64Array(POINT_WORDS);
  const way = new Float64Array(3);
  for (let n = 0; n < RAYS; n++) {
    patchPoint(patches[Math.floor(draw(0, patches.length))]!.pieces, draw(), draw(), point);
    cosineWay(point[3]!, point[4]!, point[5]!, draw(), draw(), way);
    for (let i = 0; i < 3; i++) rays.set([point[i]! + 0.02 * point[i + 3]!], n * 6 + i);
    rays.set(way, n * 6 + 3);
  }
  return rays;
}

function ours(scene: RayScene, rays: Rays): number {
  const out = new Float64Array(RAY_HIT_WORDS);
  let met = 0;
  for (let at = 0; at < rays.length; at += 6) {
    const item = firstRayHit(
      scene,
      rays[at]!,
      rays[at + 1]!,
      rays[at + 2]!,
      rays[at + 3]!,
      rays[at + 4]!,
      rays[at + 5]!,
      Infinity,
      out,
    );
    if (item >= 0) met++;
  }
  return met;
}

function theirs(bvh: MeshBVH, rays: Rays): number {
  const ray = new THREE.Ray();
  let met = 0;
  for (let at = 0; at < rays.length; at += 6) {
    ray.origin.set(rays[at]!, rays[at + 1]!, rays[at + 2]!);
    ray.direction.set(rays[at + 3]!, rays[at + 4]!, rays[at + 5]!);
    if (bvh.raycastFirst(ray, THREE.DoubleSide)) met++;
  }
  return met;
}

function rivalOf(corners: Float32Array): MeshBVH {
  const geometry = new THREE.BufferGeometry();
  geometry.setAttribute('position', new THREE.BufferAttribute(corners, 3));
  return new MeshBVH(geometry, { strategy: SAH });
}

const soup = (corners: Float32Array): TriangleMesh =>
  triangleMesh(
    Float64Array.from(corners),
    Uint32Array.from({ length: corners.length / 3 }, (_, i) => i),
  );

/** Both in turn, so that what else the machine does meets both. */
function row(name: string, scene: RayScene, corners: Float32Array, rays: Rays): (string | number)[] {
  const rival = rivalOf(corners);
  const met = [ours(scene, rays), theirs(rival, rays)];
  const times: [number[], number[]] = [[], []];
  for (let round = 0; round < ROUNDS; round++) {
    for (const [which, run] of [() => ours(scene, rays), () => theirs(rival, rays)].entries()) {
      const from = cpuMs();
      run();
      times[which]!.push(cpuMs() - from);
    }
  }
  const [a, b] = times.map((all) => all.sort((p, q) => p - q)[ROUNDS >> 1]!) as [number, number];
  const perSecond = (ms: number): string => (rays.length / 6 / ms / 1000).toFixed(2);
  return [
    name,
    corners.length / 9,
    perSecond(a),
    perSecond(b),
    `${(b / a).toFixed(1)}x`,
    `${((100 * Math.abs(met[0]! - met[1]!)) / RAYS).toFixed(2)} %`,
  ];
}

/** Twelve noisy closed scans about a bay's size, half a million triangles and more. */
function scans(): readonly Solid[] {
  const draw = chance(5);
  return Array.from({ length: 12 }, (_, i) => {
    const { positions, indices } = ballMesh(6 + (i % 2), draw(80, 240), 1.5, 40 + i);
    const at = [draw(-600, 600), draw(-600, 600), draw(-400, 400)];
    return meshSolid(
      triangleMesh(
        positions.map((v, k) => v + at[k % 3]!),
        indices,
      ),
    );
  });
}

function scanRays(): Rays {
  const draw = chance(6);
  const rays = new Float64Array(RAYS * 6);
  for (let n = 0; n < RAYS; n++) {
    const z = draw(-1, 1);
    const turn = draw(0, 2 * Math.PI);
    const r = Math.sqrt(1 - z * z);
    rays.set([draw(-700, 700), draw(-700, 700), draw(-500, 500), r * Math.cos(turn), r * Math.sin(turn), z], n * 6);
  }
  return rays;
}

async function run(): Promise<{ headers: string[]; rows: (string | number)[][]; goal: string }> {
  const car = takenDemo();
  const demo = demoScene(car, await demoMeshes(car));
  const rays = demoRays(demo.patches);
  const corners = tessellated(
    demo.surfaces.flatMap(({ solids }) => solids),
    SIDES,
  );
  const scanned = scans();
  const scanCorners = tessellated(scanned, SIDES);
  const rows = [
    row('demo bay, its own shapes; rival tessellated', rayScene(demo.surfaces), corners, rays),
    row(
      'demo bay, both on the same triangles',
      rayScene([{ solids: [meshSolid(soup(corners), { inside: 'never' })] }]),
      corners,
      rays,
    ),
    row(
      'bay of 12 scans, both on the same triangles',
      rayScene(scanned.map((solid) => ({ solids: [solid] }))),
      scanCorners,
      scanRays(),
    ),
  ];
  const from = cpuMs();
  const { raysShot, flights } = exchangeFactors({ ...demo, raysPerPatch: 64, seed: 1 });
  const ms = cpuMs() - from;
  rows.push([
    `demo bay, exchange: ${raysShot} rays, ${flights} flights in ${(ms / 1000).toFixed(2)} s`,
    '-',
    (flights / ms / 1000).toFixed(2),
    '-',
    '-',
    '-',
  ]);
  return {
    headers: ['bay', 'triangles', 'M rays/s', 'three-mesh-bvh', 'ratio', 'met apart'],
    rows,
    goal: 'ratio at least 3, one thread, medians of 5',
  };
}

export default { title, run };
