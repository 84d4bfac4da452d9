import { realpath } from 'node:fs/promises';
import path from 'node:path';
import type { Car } from '#car';
import type { MeshNotes } from './mesh-notes.ts';
import type { MeshUnit } from './mesh-unit.ts';
import { meshKindOf, readMesh } from './read-mesh.ts';
import type { TriangleMesh } from '#geometry';

/** Every mesh a car names, by the file as the car names it: in millimetres, in the file's own axes (the bay places them). */
export interface CarMeshes {
  readonly meshes: ReadonlyMap<string, TriangleMesh>;
  readonly notes: ReadonlyMap<string, MeshNotes>;
  /** One line each, beginning with the place in the car file; a car with any is not to be worked on. */
  readonly faults: readonly string[];
}

interface Wanted {
  readonly place: string;
  readonly file: string;
  readonly unit: MeshUnit;
}

/** The longest path named in a fault's line. */
const SHOWN = 80;

/** Reads the mesh files of a car, each once, from the folder its car file is in; files outside that folder are refused. */
export async function loadCarMeshes(car: Car, carFolder: string): Promise<CarMeshes> {
  const meshes = new Map<string, TriangleMesh>();
  const notes = new Map<string, MeshNotes>();
  const faults: string[] = [];
  const first = new Map<string, Wanted>();
  for (const wanted of wantedMeshes(car)) {
    const earlier = first.get(wanted.file);
    if (earlier !== undefined) {
      if (earlier.unit !== wanted.unit)
        faults.push(
          `${wanted.place}.unit: "${wanted.unit}" for a file that ${earlier.place} reads in "${earlier.unit}"; allowed: one unit a file`,
        );
      continue;
    }
    first.set(wanted.file, wanted);
    const say = (words: string): unknown => faults.push(`${wanted.place}.file: ${words}`);
    const found = await pathInFolder(wanted.file, carFolder);
    if ('fault' in found) {
      say(found.fault);
      continue;
    }
    const kind = meshKindOf(wanted.file);
    if (kind === undefined) {
      say(`${shown(wanted.file)}; allowed: a name that ends in .stl, .ply, .obj, .glb, .step or .stp`);
      continue;
    }
    // one after another: together they could take more memory than the machine has
    const reading = await readMesh(found.path, kind, { unit: wanted.unit });
    if (reading.ok) {
      meshes.set(wanted.file, reading.mesh);
      notes.set(wanted.file, reading.notes);
    } else say(`${shown(wanted.file)}: ${reading.fault}`);
  }
  return { meshes, notes, faults };
}

function wantedMeshes(car: Car): Wanted[] {
  return car.parts.flatMap((part, p) =>
    (part.shapes ?? []).flatMap((shape, s) =>
      shape.mesh === undefined
        ? []
        : [{ place: `parts[${p}].shapes[${s}].mesh`, file: shape.mesh.file, unit: shape.mesh.unit }],
    ),
  );
}

/** The real path of a file that lies, links resolved, in or under the folder. */
async function pathInFolder(file: string, folder: string): Promise<{ path: string } | { fault: string }> {
  const allowed = 'allowed: a path from the car file, in or under its folder';
  if (file === '' || file.includes('\0') || path.isAbsolute(file) || path.win32.isAbsolute(file))
    return { fault: `${shown(file)}; ${allowed}` };
  const outside = (from: string, to: string): boolean => {
    const way = path.relative(from, to);
    return way === '..' || way.startsWith(`..${path.sep}`) || path.isAbsolute(way);
  };
  const named = path.resolve(folder, file);
  if (outside(path.resolve(folder), named)) return { fault: `${shown(file)} is outside; ${allowed}` };
  try {
    const [realFolder, real] = await Promise.all([realpath(folder), realpath(named)]);
    return outside(realFolder, real) ? { fault: `${shown(file)} leads outside by a link; ${allowed}` } : { path: real };
  } catch (cause) {
    const code = (cause as NodeJS.ErrnoException).code ?? 'unknown';
    return {
      fault:
        code === 'ENOENT' || code === 'ENOTDIR'
          ? `${shown(file)} is not there; ${allowed}`
          : `${shown(file)} can't be read (${code}); ${allowed}`,
    };
  }
}

const shown = (file: string): string => {
  const cut = file.length > SHOWN ? `${file.slice(0, SHOWN - 3)}...` : file;
  return `"${cut.replace(/[^\P{C}]|["\u2028\u2029]/gu, '?')}"`;
};
