// One reading of one file in a process of its own, so that its memory can be told: `mesh-files.case.ts ours|rival FILE`.
import { readFileSync } from 'node:fs';
import { GLTFLoader } from 'three/addons/loaders/GLTFLoader.js';
import { OBJLoader } from 'three/addons/loaders/OBJLoader.js';
import { PLYLoader } from 'three/addons/loaders/PLYLoader.js';
import { STLLoader } from 'three/addons/loaders/STLLoader.js';
import { preparedMesh, triangleMesh } from '#geometry';
import { decimated, meshKindOf, readMesh } from '#intake';

const KEPT_TRIANGLES = 100_000;
const ERROR_MM = 1;

function cpuSeconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}

/** Reading, decimation with its measured error, and the tree for distance queries: all a scan needs before it is of use. */
async function ours(file: string): Promise<Record<string, number>> {
  const kind = meshKindOf(file);
  if (kind === undefined) throw new Error(`bench: no reader for ${file}`);
  const start = cpuSeconds();
  const reading = await readMesh(file, kind, { unit: 'mm' });
  if (!reading.ok) throw new Error(reading.fault);
  const read = cpuSeconds();
  const light = await decimated(reading.mesh, { errorMm: ERROR_MM, triangles: KEPT_TRIANGLES });
  preparedMesh(triangleMesh(light.mesh.positions, light.mesh.indices));
  const { worstMm } = light.error;
  return {
    read: read - start,
    all: cpuSeconds() - start,
    triangles: reading.notes.triangles,
    kept: light.triangles,
    worstMm,
  };
}

/** The same file through three's loader: triangles only, unjoined. */
async function rival(file: string): Promise<Record<string, number>> {
  const start = cpuSeconds();
  const bytes = readFileSync(file);
  const buffer = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length) as ArrayBuffer;
  const kind = meshKindOf(file);
  if (kind === 'stl') new STLLoader().parse(buffer);
  else if (kind === 'ply') new PLYLoader().parse(buffer);
  else if (kind === 'obj') new OBJLoader().parse(new TextDecoder().decode(bytes));
  else await new GLTFLoader().parseAsync(buffer, '');
  return { read: cpuSeconds() - start };
}

const [, , who, file] = process.argv;
if (who !== undefined && file !== undefined) {
  const result = await (who === 'ours' ? ours : rival)(file);
  process.stdout.write(`${JSON.stringify({ ...result, peakMb: process.resourceUsage().maxRSS / 1024 })}\n`);
}
