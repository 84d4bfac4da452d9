import { z } from 'zod';
import { IntakeFault } from './intake-fault.ts';
import { counted } from './limits.ts';

const index = z.int().min(0);
const numbers = (length: number) => z.array(z.number()).length(length);

/** As much of a glTF 2.0 document as its triangles need; the rest (materials, skins, pictures) is let through unread. */
const document = z.object({
  asset: z.object({ version: z.string() }),
  extensionsRequired: z.array(z.string()).optional(),
  scene: index.optional(),
  scenes: z.array(z.object({ nodes: z.array(index).optional() })).optional(),
  nodes: z
    .array(
      z.object({
        children: z.array(index).optional(),
        mesh: index.optional(),
        matrix: numbers(16).optional(),
        translation: numbers(3).optional(),
        rotation: numbers(4).optional(),
        scale: numbers(3).optional(),
      }),
    )
    .optional(),
  meshes: z
    .array(
      z.object({
        primitives: z.array(
          z.object({
            attributes: z.record(z.string(), index),
            indices: index.optional(),
            mode: z.int().min(0).max(6).optional(),
            extensions: z.record(z.string(), z.unknown()).optional(),
          }),
        ),
      }),
    )
    .optional(),
  accessors: z
    .array(
      z.object({
        bufferView: index.optional(),
        byteOffset: index.optional(),
        componentType: z.int(),
        normalized: z.boolean().optional(),
        count: index,
        type: z.string(),
        sparse: z.unknown().optional(),
      }),
    )
    .optional(),
  bufferViews: z
    .array(z.object({ buffer: index, byteOffset: index.optional(), byteLength: index, byteStride: index.optional() }))
    .optional(),
  buffers: z.array(z.object({ byteLength: index, uri: z.unknown().optional() })).optional(),
});

export type GlbJson = z.infer<typeof document>;
export interface GlbParts {
  readonly json: GlbJson;
  readonly bin: Uint8Array;
}

/** The JSON of a real model is kilobytes to a few megabytes; parsed, it takes tens of times its bytes. */
const JSON_LIMIT_BYTES = 16 * 1024 * 1024;
const MAGIC = 0x46546c67;
const JSON_CHUNK = 0x4e4f534a;
const BIN_CHUNK = 0x004e4942;
/** What a reader of shape alone can leave out, though the file requires it of viewers: how surfaces look. */
const LOOKS = /^KHR_(materials_|texture_)|^KHR_mesh_quantization$/;

/** The two chunks of a GLB (glTF 2.0, section 4.4 "Binary glTF Layout"), checked; nothing outside the file is ever opened. */
export function glbParts(bytes: Uint8Array): GlbParts {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 20 || view.getUint32(0, true) !== MAGIC)
    throw new IntakeFault('GLB bytes 0-3', 'not "glTF"', 'a binary glTF file (.glb)');
  if (view.getUint32(4, true) !== 2) throw new IntakeFault('GLB bytes 4-7', `version ${view.getUint32(4, true)}`, '2');
  const length = view.getUint32(8, true);
  if (length > bytes.length) {
    throw new IntakeFault(
      'GLB bytes 8-11',
      `${counted(length)} bytes declared; the file has ${counted(bytes.length)}`,
      'a length that fits the file (is it cut short?)',
    );
  }
  let json: GlbJson | undefined;
  let bin: Uint8Array = new Uint8Array(0);
  for (let at = 12; at + 8 <= length; ) {
    const size = view.getUint32(at, true);
    const type = view.getUint32(at + 4, true);
    const start = at + 8;
    if (start + size > length)
      throw new IntakeFault(
        `GLB byte ${at}`,
        `a chunk of ${counted(size)} bytes; ${counted(length - start)} are left`,
        'a chunk that fits the file',
      );
    if (type === JSON_CHUNK && json === undefined) json = glbJson(bytes.subarray(start, start + size));
    else if (type === BIN_CHUNK && bin.length === 0) bin = bytes.subarray(start, start + size);
    at = start + size;
  }
  if (json === undefined) throw new IntakeFault('GLB', 'no JSON chunk', 'a binary glTF 2.0 file');
  return { json, bin };
}

function glbJson(chunk: Uint8Array): GlbJson {
  if (chunk.length > JSON_LIMIT_BYTES)
    throw new IntakeFault('GLB JSON', `${counted(chunk.length)} bytes`, `at most ${counted(JSON_LIMIT_BYTES)}`);
  let raw: unknown;
  try {
    raw = JSON.parse(new TextDecoder().decode(chunk));
  } catch {
    throw new IntakeFault('GLB JSON', 'not JSON', 'a JSON document');
  }
  const parsed = document.safeParse(raw);
  if (!parsed.success) {
    const issue = parsed.error.issues[0];
    throw new IntakeFault(
      `GLB JSON ${issue?.path.join('.') || 'document'}`,
      (issue?.message ?? 'not understood').replace(/\s+/g, ' ').slice(0, 200),
      'glTF 2.0',
    );
  }
  const json = parsed.data;
  const needs = json.extensionsRequired?.find((name) => !LOOKS.test(name));
  if (needs !== undefined)
    throw new IntakeFault(
      'GLB JSON extensionsRequired',
      JSON.stringify(needs.slice(0, 60)),
      'a file without it (export it uncompressed)',
    );
  const elsewhere = json.buffers?.findIndex((buffer) => buffer.uri !== undefined) ?? -1;
  if (elsewhere >= 0)
    throw new IntakeFault(
      `GLB JSON buffers.${elsewhere}.uri`,
      'data outside the binary chunk',
      'everything inside the one file; nothing else is opened',
    );
  return json;
}
