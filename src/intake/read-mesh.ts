import { fileBytes } from './file-bytes.ts';
import { readGlb } from './glb-file.ts';
import { IntakeFault } from './intake-fault.ts';
import { counted, LIMITS } from './limits.ts';
import { MeshBuilder } from './mesh-builder.kernel.ts';
import { type MeshNotes, meshNotes } from './mesh-notes.ts';
import { MM_PER, type MeshUnit } from './mesh-unit.ts';
import { readObj } from './obj-file.ts';
import { readPly } from './ply-file.ts';
import { readStep, STEP_LIMITS, type StepLimits } from './step-file.ts';
import { readStl } from './stl-file.ts';
import type { TriangleMesh } from '#geometry';

const READERS = { stl: readStl, ply: readPly, obj: readObj, glb: readGlb } as const;

/** The mesh and CAD files that can be read. */
export type MeshKind = keyof typeof READERS | 'step';

/** A mesh in millimetres with notes on it, or the one line that says why not. */
export type MeshReading =
  | { readonly ok: true; readonly mesh: TriangleMesh; readonly notes: MeshNotes }
  | { readonly ok: false; readonly fault: string };

export interface MeshOptions {
  /** The unit of the file's bare numbers. A STEP file states its own; this one is then not used. */
  readonly unit: MeshUnit;
  /** What a STEP file may take; 2 GB and 60 s unless said otherwise. */
  readonly stepLimits?: StepLimits;
}

/** The kind of mesh file a name stands for by its ending; undefined for any other. */
export function meshKindOf(fileName: string): MeshKind | undefined {
  const ending = /\.([a-z0-9]+)$/i.exec(fileName)?.[1]?.toLowerCase();
  if (ending === 'step' || ending === 'stp') return 'step';
  return ending !== undefined && Object.hasOwn(READERS, ending) ? (ending as keyof typeof READERS) : undefined;
}

/**
 * Reads a mesh or CAD file, or its bytes, in the file's own axes, scaled to millimetres. Vertices that are exactly equal
 * are joined; triangles with two equal corners are left out; whatever is wrong with the file comes back as one line.
 */
export async function readMesh(
  source: string | Uint8Array,
  kind: MeshKind,
  options: MeshOptions,
): Promise<MeshReading> {
  try {
    return await reading(source, kind, options);
  } catch (fault) {
    if (fault instanceof IntakeFault) return { ok: false, fault: fault.message };
    throw fault;
  }
}

async function reading(source: string | Uint8Array, kind: MeshKind, options: MeshOptions): Promise<MeshReading> {
  const bytes = typeof source === 'string' ? await fileBytes(source, LIMITS.fileBytes) : source;
  const name = kind.toUpperCase();
  if (bytes.length > LIMITS.fileBytes)
    throw new IntakeFault('file', `${counted(bytes.length)} bytes`, `at most ${counted(LIMITS.fileBytes)}`);
  if (bytes.length === 0) throw new IntakeFault('file', 'empty', `a file of kind ${name}`);
  const builder = new MeshBuilder(kind === 'step' ? 1 : MM_PER[options.unit]);
  let solids: readonly string[] = [];
  if (kind === 'step') solids = await readStep(bytes, builder, options.stepLimits ?? STEP_LIMITS);
  else READERS[kind](bytes, builder);
  if (kind === 'step' && options.unit !== 'mm')
    builder.remarks.push(`a STEP file states its own unit; "${options.unit}" was not used`);
  const built = builder.finish();
  if (built.mesh.indices.length === 0) {
    const dropped = built.droppedDegenerate;
    throw new IntakeFault(
      name,
      dropped > 0 ? `${counted(dropped)} triangles, all without area` : 'no triangles',
      'at least one triangle',
    );
  }
  return { ok: true, mesh: built.mesh, notes: meshNotes(built, kind === 'step' ? 'mm' : options.unit, solids) };
}
