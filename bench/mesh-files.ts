import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type { TriangleMesh } from '#geometry';
import { glbOf, objText, plyBinary, plyText, stlOf, stlText, tetraGlbJson } from '../src/intake/test-files.ts';

const CASE = fileURLToPath(new URL('./mesh-files.case.ts', import.meta.url));
const AROUND = 1000;
const ALONG = 501;

/** A lumpy ball open at both poles, a million triangles, coordinates to a thousandth of a millimetre as exporters print them. */
function million(): TriangleMesh {
  const positions = new Float64Array(3 * AROUND * ALONG);
  const indices = new Uint32Array(6 * AROUND * (ALONG - 1));
  for (let j = 0; j < ALONG; j++) {
    for (let i = 0; i < AROUND; i++) {
      const [down, round] = [(Math.PI * (j + 0.5)) / ALONG, (2 * Math.PI * i) / AROUND];
      const radius = 300 + 5 * Math.sin(9 * round) * Math.sin(7 * down) + 0.3 * Math.sin(i * 12.9898 + j * 78.233);
      const point = [Math.sin(down) * Math.cos(round), Math.sin(down) * Math.sin(round), Math.cos(down)];
      positions.set(
        point.map((v) => Math.round(v * radius * 1000) / 1000),
        3 * (j * AROUND + i),
      );
    }
  }
  let at = 0;
  for (let j = 0; j + 1 < ALONG; j++) {
    for (let i = 0; i < AROUND; i++) {
      const [a, b] = [j * AROUND + i, j * AROUND + ((i + 1) % AROUND)];
      indices.set([a, a + AROUND, b, b, a + AROUND, b + AROUND], at);
      at += 6;
    }
  }
  return { positions, indices };
}

function filesOf(
  mesh: TriangleMesh,
): readonly (readonly [label: string, name: string, content: () => string | Uint8Array])[] {
  return [
    ['STL binary', 'binary.stl', () => stlOf(mesh)],
    ['STL ASCII', 'ascii.stl', () => stlText(mesh)],
    ['PLY little-endian', 'little.ply', () => plyBinary(mesh, true)],
    ['PLY big-endian', 'big.ply', () => plyBinary(mesh, false)],
    ['PLY ASCII', 'ascii.ply', () => plyText(mesh)],
    ['OBJ', 'part.obj', () => objText(mesh)],
    ['GLB', 'part.glb', () => glbOf(tetraGlbJson(mesh), mesh)],
  ];
}

interface CaseResult {
  readonly read: number;
  readonly all: number;
  readonly kept: number;
  readonly worstMm: number;
  readonly peakMb: number;
}

const inProcess = (who: 'ours' | 'rival', file: string): CaseResult =>
  JSON.parse(
    execFileSync(process.execPath, ['--import', 'tsx', CASE, who, file], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
    }),
  ) as CaseResult;

export default {
  title:
    'A scan of a million triangles, each format, against three 0.187.0 (which only reads); processor seconds, peak memory of the process',
  run(): { headers: string[]; rows: string[][]; goal: string } {
    const folder = mkdtempSync(path.join(tmpdir(), 'fairlead-bench-'));
    try {
      const rows = filesOf(million()).map(([label, name, content]) => {
        const file = path.join(folder, name);
        writeFileSync(file, content());
        const [ours, rival] = [inProcess('ours', file), inProcess('rival', file)];
        const row = [
          label,
          `${(statSync(file).size / 1e6).toFixed(0)} MB`,
          ours.read.toFixed(1),
          rival.read.toFixed(1),
          (rival.read / ours.read).toFixed(1),
          ours.all.toFixed(1),
          `${ours.peakMb.toFixed(0)} MB`,
          `${rival.peakMb.toFixed(0)} MB`,
          String(ours.kept),
          ours.worstMm.toFixed(2),
        ];
        rmSync(file);
        return row;
      });
      return {
        headers: [
          'format',
          'file',
          'read s',
          'rival read s',
          'ratio',
          'read, decimate, tree s',
          'peak',
          'rival peak',
          'triangles kept',
          'two-sided error mm',
        ],
        rows,
        goal: 'under 10 s and 1.5 GB with decimation and tree',
      };
    } finally {
      rmSync(folder, { recursive: true });
    }
  },
};
