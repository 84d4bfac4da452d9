import { open } from 'node:fs/promises';
import { IntakeFault } from './intake-fault.ts';
import { counted, LIMITS } from './limits.ts';
import { MeshBuilder } from './mesh-builder.kernel.ts';
import { type MeshNotes, meshNotes } from './mesh-notes.ts';
import { MM_PER, type MeshUnit } from './mesh-unit.ts';
import { readStl } from './stl-file.ts';
import type { TriangleMesh } from './triangle-mesh.ts';

/** The mesh files that can be read. */
export type MeshKind = 'stl';

/** A mesh in millimetres with notes on it, or the one line that says why not. */
export type MeshReading =
  | { readonly ok: true; readonly mesh: TriangleMesh; readonly notes: MeshNotes }
  | { readonly ok: false; readonly fault: string };

const READERS: Readonly<Record<MeshKind, (bytes: Uint8Array, into: MeshBuilder) => void>> = { stl: readStl };

/**
 * Reads a mesh file, or its bytes, in the file's own axes, scaled to millimetres. Vertices that are exactly equal are
 * joined; triangles with two equal corners are left out; whatever is wrong with the file comes back as one line.
 */
export async function readMesh(source: string | Uint8Array, kind: MeshKind, options: { readonly unit: MeshUnit }): Promise<MeshReading> {
  try {
    const bytes = typeof source === 'string' ? await fileBytes(source) : source;
    if (bytes.length > LIMITS.fileBytes) throw tooLarge(bytes.length);
    if (bytes.length === 0) throw new IntakeFault('file', 'empty', `a ${kind.toUpperCase()} file`);
    const builder = new MeshBuilder(MM_PER[options.unit]);
    READERS[kind](bytes, builder);
    const built = builder.finish();
    if (built.mesh.indices.length === 0) {
      const dropped = built.droppedDegenerate;
      throw new IntakeFault(kind.toUpperCase(), dropped > 0 ? `${counted(dropped)} triangles, all without area` : 'no triangles', 'at least one triangle');
    }
    return { ok: true, mesh: built.mesh, notes: meshNotes(built, options.unit) };
  } catch (fault) {
    if (fault instanceof IntakeFault) return { ok: false, fault: fault.message };
    throw fault;
  }
}

/** The whole of a plain file, its size checked before a byte is read. */
async function fileBytes(path: string): Promise<Uint8Array> {
  const handle = await open(path, 'r').catch((cause: NodeJS.ErrnoException) => {
    throw new IntakeFault('file', cause.code === 'ENOENT' ? 'not there' : `can't be opened (${cause.code ?? 'unknown'})`, 'a file that can be read');
  });
  try {
    const stat = await handle.stat();
    if (!stat.isFile()) throw new IntakeFault('file', 'not a plain file', 'a file that can be read');
    if (stat.size > LIMITS.fileBytes) throw tooLarge(stat.size);
    return await handle.readFile();
  } finally {
    await handle.close();
  }
}

const tooLarge = (bytes: number): IntakeFault =>
  new IntakeFault('file', `${counted(bytes)} bytes`, `at most ${counted(LIMITS.fileBytes)} (512 MB)`);
