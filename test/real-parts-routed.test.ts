import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { BufferAttribute, BufferGeometry, Vector3 } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import { afterAll, describe, expect, it } from 'vitest';
import { carFrom } from '#car';
import type { TriangleMesh } from '#geometry';
import { loadCarMeshes } from '#intake';
import { lineWays, linesWorld } from '#lines';
import { systemNeed } from '../scripts/system-needs.mjs';

const isThere = systemNeed('occt-misc').isMet;
const DATA = '/usr/share/opencascade/data';
const folder = mkdtempSync(join(tmpdir(), 'fairlead-real-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A part drawn by others, stood between two ports so that the straight way goes through it. */
interface Stood {
  readonly file: string;
  readonly from: string;
  readonly unit: 'mm' | 'cm';
}
const STOOD: readonly Stood[] = [
  { file: 'linkrods.step', from: 'step/linkrods.step', unit: 'mm' },
  { file: 'motor.stl', from: 'stl/motor.stl', unit: 'mm' },
];

function carAround(stood: Stood, mesh: TriangleMesh) {
  const centre = [0, 1, 2].map((axis) => {
    let [least, most] = [Infinity, -Infinity];
    for (let i = axis; i < mesh.positions.length; i += 3) {
      least = Math.min(least, mesh.positions[i]!);
      most = Math.max(most, mesh.positions[i]!);
    }
    return { middle: (least + most) / 2, half: (most - least) / 2 };
  });
  const reach = centre[0]!.half + 260;
  const pot = (id: string, x: number, out: number) => ({
    id,
    class: 'fixed',
    shapes: [{ cylinder: { fromMm: [x, 0, -60], toMm: [x, 0, 60], radiusMm: 40 } }],
    ports: [{ id: 'p', atMm: [x + out * 42, 0, 0], faces: [out, 0, 0], end: { type: 'orb', dash: 6 }, knownToMm: 2 }],
  });
  return {
    fairlead: 1,
    parts: [
      pot('left', -reach, 1),
      pot('right', reach, -1),
      {
        id: 'real',
        class: 'fixed',
        knownToMm: 1,
        shapes: [
          { mesh: { file: stood.file, unit: stood.unit, turnDeg: [0, 0, 0], atMm: centre.map((c) => -c.middle) } },
        ],
        ports: [],
      },
    ],
    lines: [
      { id: 'L', from: 'left.p', to: 'right.p', duty: 'oil-pressure', dash: 6, temperatureC: 100, state: 'planned' },
    ],
  };
}

describe.skipIf(!isThere)(`round real parts${isThere ? '' : ' (not run: needs the Debian package occt-misc)'}`, () => {
  it.each(STOOD)(
    '$file: a hose goes round it, and stands off it as another library measures (second)',
    async (stood) => {
      cpSync(join(DATA, stood.from), join(folder, stood.file));
      const bare = carFrom({
        fairlead: 1,
        parts: [{ id: 'real', class: 'fixed', shapes: [{ mesh: { file: stood.file, unit: stood.unit } }] }],
      });
      if (!bare.ok) throw new Error(bare.faults.map((f) => f.place).join());
      const { meshes, faults } = await loadCarMeshes(bare.car, folder);
      expect(faults).toEqual([]);
      const mesh = meshes.get(stood.file)!;
      const reading = carFrom(carAround(stood, mesh));
      if (!reading.ok) throw new Error(reading.faults.map((f) => `${f.place} ${f.stands}`).join());
      const world = linesWorld(reading.car, meshes);
      const way = lineWays(world, reading.car.lines[0]!, null, 1)[0]!;
      expect(way.fails).toEqual([]);
      const stated = way.gaps.find((gap) => gap.part === 'real');
      const at = reading.car.parts[2]!.shapes[0]!.mesh!.atMm!;
      const measured = leastGapByThree(mesh, at, way.bodies);
      expect(measured).toBeGreaterThan(6 - 0.1);
      if (stated !== undefined) expect(Math.abs(stated.gapMm - measured)).toBeLessThan(0.1);
    },
  );
});

/** Centreline distances by three-mesh-bvh, less the radius: exact where the nearest place is square to the line. */
function leastGapByThree(
  mesh: TriangleMesh,
  at: readonly number[],
  bodies: readonly { pathMm: readonly (readonly number[])[]; odMm: number }[],
) {
  const geometry = new BufferGeometry();
  geometry.setAttribute(
    'position',
    new BufferAttribute(
      Float32Array.from(mesh.positions, (v, i) => v + at[i % 3]!),
      3,
    ),
  );
  geometry.setIndex(new BufferAttribute(mesh.indices.slice(), 1));
  const tree = new MeshBVH(geometry);
  const hit = { point: new Vector3(), distance: 0, faceIndex: 0 };
  let least = Infinity;
  for (const { pathMm, odMm } of bodies)
    for (const p of pathMm)
      least = Math.min(least, tree.closestPointToPoint(new Vector3(p[0], p[1], p[2]), hit)!.distance - odMm / 2);
  return least;
}
