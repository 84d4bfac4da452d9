import { createHash } from 'node:crypto';
import type { KeyInputs } from '#answers';
import type { TriangleMesh } from '#geometry';
import type { CarInput } from './car-input.ts';
import { toolMark } from './tool-mark.ts';

/** What the key of an answer about this car is made of: meshes by what was read of them, whatever their files are called. */
export const keyInputs = ({ car, meshes }: CarInput): KeyInputs => ({
  car,
  meshMarks: new Map([...meshes].map(([file, mesh]) => [file, markOf(mesh)])),
  tool: toolMark(),
});

const marks = new WeakMap<TriangleMesh, string>();

function markOf(mesh: TriangleMesh): string {
  const known = marks.get(mesh);
  if (known !== undefined) return known;
  const hash = createHash('sha256');
  for (const values of [mesh.positions, mesh.indices]) {
    hash.update(`${values.constructor.name} ${values.length}\n`);
    hash.update(new Uint8Array(values.buffer, values.byteOffset, values.byteLength));
  }
  const mark = hash.digest('hex');
  marks.set(mesh, mark);
  return mark;
}
