import type { TriangleMesh } from '#geometry';
import { stlBinary } from './stl-binary.ts';

/** Small well-formed files of one known solid, for tests that then break them. */

/** A corner of a cube cut off: (0,0,0) and 1 along each axis. Volume 1/6, four faces. */
export const TETRA: TriangleMesh = {
  positions: Float32Array.from([0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0, 1]),
  indices: Uint32Array.from([0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3]),
};

export const stlOf = (mesh: TriangleMesh): Uint8Array => stlBinary(mesh);

export function stlText(mesh: TriangleMesh): string {
  const vertex = (i: number): string => `      vertex ${mesh.positions.subarray(3 * i, 3 * i + 3).join(' ')}\n`;
  let text = 'solid made by a test\n';
  for (let t = 0; t < mesh.indices.length; t += 3) {
    const corners = [...mesh.indices.subarray(t, t + 3)].map(vertex).join('');
    text += `  facet normal 0 0 0\n    outer loop\n${corners}    endloop\n  endfacet\n`;
  }
  return `${text}endsolid made by a test\n`;
}

const plyHeader = (mesh: TriangleMesh, format: string): string =>
  `ply\nformat ${format} 1.0\ncomment made by a test\nelement vertex ${mesh.positions.length / 3}\nproperty float x\nproperty float y\nproperty float z\n` +
  `element face ${mesh.indices.length / 3}\nproperty list int int vertex_indices\nend_header\n`;

export function plyText(mesh: TriangleMesh): string {
  const rows = Array.from({ length: mesh.positions.length / 3 }, (_, i) =>
    mesh.positions.subarray(3 * i, 3 * i + 3).join(' '),
  );
  const faces = Array.from(
    { length: mesh.indices.length / 3 },
    (_, t) => `3 ${mesh.indices.subarray(3 * t, 3 * t + 3).join(' ')}`,
  );
  return `${plyHeader(mesh, 'ascii')}${[...rows, ...faces].join('\n')}\n`;
}

export function plyBinary(mesh: TriangleMesh, little: boolean): Uint8Array {
  const header = new TextEncoder().encode(plyHeader(mesh, little ? 'binary_little_endian' : 'binary_big_endian'));
  const bytes = new Uint8Array(header.length + 4 * mesh.positions.length + (16 * mesh.indices.length) / 3);
  bytes.set(header);
  const view = new DataView(bytes.buffer);
  let at = header.length;
  for (const value of mesh.positions) {
    view.setFloat32(at, value, little);
    at += 4;
  }
  mesh.indices.forEach((value, i) => {
    if (i % 3 === 0) {
      view.setInt32(at, 3, little);
      at += 4;
    }
    view.setInt32(at, value, little);
    at += 4;
  });
  return bytes;
}

export function objText(mesh: TriangleMesh): string {
  let text = '# made by a test\nmtllib nowhere.mtl\no part\n';
  for (let i = 0; i < mesh.positions.length; i += 3) text += `v ${mesh.positions.subarray(i, i + 3).join(' ')}\n`;
  for (let t = 0; t < mesh.indices.length; t += 3)
    text += `f ${[...mesh.indices.subarray(t, t + 3)].map((i) => i + 1).join(' ')}\n`;
  return text;
}

/** The JSON of a GLB that holds one mesh; counts to suit the mesh. */
export function tetraGlbJson(mesh: TriangleMesh = TETRA) {
  const positions = 4 * mesh.positions.length;
  return {
    asset: { version: '2.0' },
    scene: 0,
    scenes: [{ nodes: [0] }],
    nodes: [{ mesh: 0 }],
    meshes: [{ primitives: [{ attributes: { POSITION: 0 }, indices: 1 }] }],
    accessors: [
      { bufferView: 0, componentType: 5126, count: mesh.positions.length / 3, type: 'VEC3' },
      { bufferView: 1, componentType: 5125, count: mesh.indices.length, type: 'SCALAR' },
    ],
    bufferViews: [
      { buffer: 0, byteOffset: 0, byteLength: positions },
      { buffer: 0, byteOffset: positions, byteLength: 4 * mesh.indices.length },
    ],
    buffers: [{ byteLength: positions + 4 * mesh.indices.length }],
  };
}

export function glbOf(json: object, mesh: TriangleMesh): Uint8Array {
  const text = new TextEncoder().encode(JSON.stringify(json).padEnd(Math.ceil(JSON.stringify(json).length / 4) * 4));
  const bin = 4 * (mesh.positions.length + mesh.indices.length);
  const bytes = new Uint8Array(12 + 8 + text.length + 8 + bin);
  const view = new DataView(bytes.buffer);
  const words = [0x46546c67, 2, bytes.length, text.length, 0x4e4f534a];
  words.forEach((word, i) => view.setUint32(4 * i, word, true));
  bytes.set(text, 20);
  view.setUint32(20 + text.length, bin, true);
  view.setUint32(24 + text.length, 0x004e4942, true);
  let at = 28 + text.length;
  for (const value of mesh.positions) {
    view.setFloat32(at, value, true);
    at += 4;
  }
  for (const value of mesh.indices) {
    view.setUint32(at, value, true);
    at += 4;
  }
  return bytes;
}
