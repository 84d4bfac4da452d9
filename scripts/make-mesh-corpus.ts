// Makes the malformed mesh files in src/intake/corpus. Run: npx tsx scripts/make-mesh-corpus.ts
import { writeFileSync } from 'node:fs';
import { glbOf, plyBinary, stlOf, TETRA, tetraGlbJson } from '../src/intake/test-files.ts';

const write = (name: string, content: string | Uint8Array): void =>
  writeFileSync(new URL(`../src/intake/corpus/${name}`, import.meta.url), content);
const patched = (bytes: Uint8Array, patch: (view: DataView) => void): Uint8Array => {
  const copy = bytes.slice();
  patch(new DataView(copy.buffer));
  return copy;
};

const facet = (vertex = '1 0 0'): string =>
  `  facet normal 0 0 1\n    outer loop\n      vertex 0 0 0\n      vertex ${vertex}\n      vertex 0 1 0\n    endloop\n  endfacet\n`;
const ascii = (body: string): string => `solid plate\n${body}endsolid plate\n`;
const tetra = stlOf(TETRA);

write('empty.stl', '');
write('note.stl', 'the scan is on the other laptop\n');
write(
  'letter.stl',
  'Dear all, the scan of the gearbox is on the other laptop; I will bring it on Friday with the pump and the two brackets.\n',
);
write('zip.stl', Uint8Array.from([0x50, 0x4b, 3, 4, ...Array.from({ length: 120 }, (_, i) => (i * 37) % 251)]));
write('cut-binary.stl', tetra.subarray(0, tetra.length - 50));
write('cut-in-triangle.stl', tetra.subarray(0, tetra.length - 7));
write(
  'count-low.stl',
  patched(tetra, (view) => view.setUint32(80, 1, true)),
);
write(
  'count-huge.stl',
  patched(tetra, (view) => view.setUint32(80, 0xffffffff, true)),
);
write(
  'count-nought.stl',
  tetra.subarray(0, 84).map((byte, i) => (i >= 80 ? 0 : byte)),
);
write(
  'nan.stl',
  patched(tetra, (view) => view.setFloat32(84 + 50 + 12 + 16, Number.NaN, true)),
);
write('infinite.stl', ascii(facet('1 inf 0')));
write('overflow.stl', ascii(facet('1 1e999 0')));
write('far-away.stl', ascii(facet('1e30 0 0')));
write('decimal-comma.stl', ascii(facet('0,5 0 0')));
write('flat.stl', ascii(facet('0 1 0')));
write('cut-ascii.stl', ascii(facet()).slice(0, 90));
write('no-end.stl', `solid plate\n${facet()}`);
write('four-corners.stl', ascii(facet('1 0 0\n      vertex 1 1 0')));
write('words.stl', 'solid plate\n  this is not a facet\nendsolid plate\n');

const plyHead = (vertices: number | string, faces: number | string, format = 'ascii 1.0'): string =>
  `ply\nformat ${format}\nelement vertex ${vertices}\nproperty float x\nproperty float y\nproperty float z\nelement face ${faces}\nproperty list uchar int vertex_indices\nend_header\n`;
const plyRows = '0 0 0\n1 0 0\n0 1 0\n';
write('empty.ply', '');
write('letter.ply', 'plywood, 18 mm, two sheets\n');
write('no-end-header.ply', 'ply\nformat ascii 1.0\nelement vertex 3\nproperty float x\n');
write('no-format.ply', plyHead(3, 1).replace('format ascii 1.0\n', '') + `${plyRows}3 0 1 2\n`);
write('odd-format.ply', plyHead(3, 1, 'binary_middle_endian 1.0'));
write('odd-type.ply', plyHead(3, 1).replace('float z', 'half z'));
write('odd-count.ply', plyHead('-3', 1));
write('float-length.ply', plyHead(3, 1).replace('uchar int', 'float int'));
write('count-huge-ascii.ply', `${plyHead(4_000_000_000, 1)}${plyRows}3 0 1 2\n`);
write(
  'count-huge-binary.ply',
  new TextEncoder().encode(plyHead(4_000_000_000, 1, 'binary_little_endian 1.0') + 'x'.repeat(60)),
);
write(
  'list-huge.ply',
  patched(plyBinary(TETRA, true), (view) => view.setInt32(view.byteLength - 4 * 16, 0x7fffffff, true)),
);
write('faces-huge.ply', `${plyHead(3, 900_000_000)}${plyRows}3 0 1 2\n`);
write('index-high.ply', `${plyHead(3, 1)}${plyRows}3 0 1 3\n`);
write('index-negative.ply', `${plyHead(3, 1)}${plyRows}3 0 1 -1\n`);
write('index-part.ply', `${plyHead(3, 1)}${plyRows}3 0 1 1.5\n`);
write('nan.ply', `${plyHead(3, 1)}0 0 0\n1 nan 0\n0 1 0\n3 0 1 2\n`);
write('short-row.ply', `${plyHead(3, 1)}0 0 0\n1 0\n0 1 0\n3 0 1 2\n`);
write('long-row.ply', `${plyHead(3, 1)}0 0 0\n1 0 0 9\n0 1 0\n3 0 1 2\n`);
write('two-corners.ply', `${plyHead(3, 1)}${plyRows}2 0 1\n`);
write('cloud.ply', plyHead(3, 0) + plyRows);
write('strips.ply', `${plyHead(3, 1).replace('element face', 'element tristrips')}${plyRows}3 0 1 2\n`);
write('no-z.ply', `${plyHead(3, 1).replace('property float z\n', '')}0 0\n1 0\n0 1\n3 0 1 2\n`);
write(
  'faces-first.ply',
  'ply\nformat ascii 1.0\nelement face 1\nproperty list uchar int vertex_indices\nelement vertex 3\nproperty float x\nproperty float y\nproperty float z\nend_header\n3 0 1 2\n0 0 0\n1 0 0\n0 1 0\n',
);
write(
  'nothing-element.ply',
  `ply\nformat binary_little_endian 1.0\nelement idle 4000000000\n${plyHead(3, 1).split('\n').slice(2).join('\n')}`,
);
write('cut.ply', plyBinary(TETRA, false).subarray(0, plyBinary(TETRA, false).length - 5));
write('left-over.ply', Uint8Array.from([...plyBinary(TETRA, false), ...new Array<number>(40).fill(7)]));

write('empty.obj', '');
write('letter.obj', 'Dear all, the scan is on the other laptop.\n');
write('index-high.obj', 'v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 4\n');
write('index-nought.obj', 'v 0 0 0\nv 1 0 0\nv 0 1 0\nf 0 1 2\n');
write('index-back.obj', 'v 0 0 0\nv 1 0 0\nv 0 1 0\nf -1 -2 -4\n');
write('index-long.obj', `v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 ${'9'.repeat(300)}\n`);
write('faces-first.obj', 'f 1 2 3\nv 0 0 0\nv 1 0 0\nv 0 1 0\n');
write('nan.obj', 'v 0 0 0\nv 1 NaN 0\nv 0 1 0\nf 1 2 3\n');
write('infinite.obj', 'v 0 0 0\nv 1 -1e400 0\nv 0 1 0\nf 1 2 3\n');
write('short-vertex.obj', 'v 0 0 0\nv 1 0\nv 0 1 0\nf 1 2 3\n');
write('two-corners.obj', 'v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2\n');
write('decimal-comma.obj', 'v 0 0 0\nv 1,5 0 0\nv 0 1 0\nf 1 2 3\n');
write('cloud.obj', 'v 0 0 0\nv 1 0 0\nv 0 1 0\n');
write('utf16.obj', new Uint8Array(Uint16Array.from('v 0 0 0\nf 1 1 1\n', (c) => c.charCodeAt(0)).buffer));

const json = tetraGlbJson();
const glb = glbOf(json, TETRA);
const withJson = (change: (copy: ReturnType<typeof tetraGlbJson>) => unknown): Uint8Array => {
  const copy = structuredClone(json);
  change(copy);
  return glbOf(copy, TETRA);
};
write('empty.glb', '');
write('letter.glb', 'Dear all, the scan is on the other laptop.\n');
write(
  'version-one.glb',
  patched(glb, (view) => view.setUint32(4, 1, true)),
);
write('cut.glb', glb.subarray(0, glb.length - 30));
write(
  'chunk-long.glb',
  patched(glb, (view) => view.setUint32(12, 0x7ffffff0, true)),
);
write(
  'no-json.glb',
  patched(glb, (view) => view.setUint32(16, 0x21212121, true)),
);
write(
  'broken-json.glb',
  patched(glb, (view) => view.setUint8(20, 0x5d)),
);
write(
  'elsewhere.glb',
  withJson((copy) => Object.assign(copy.buffers[0] ?? {}, { uri: 'http://127.0.0.1/engine.bin' })),
);
write(
  'file-elsewhere.glb',
  withJson((copy) => Object.assign(copy.buffers[0] ?? {}, { uri: '../../../etc/hostname' })),
);
write(
  'inline-data.glb',
  withJson((copy) => Object.assign(copy.buffers[0] ?? {}, { uri: 'data:application/octet-stream;base64,AAAA' })),
);
write(
  'compressed.glb',
  withJson((copy) => Object.assign(copy, { extensionsRequired: ['KHR_draco_mesh_compression'] })),
);
write(
  'count-huge.glb',
  withJson((copy) => Object.assign(copy.accessors[0] ?? {}, { count: 4_000_000_000 })),
);
write(
  'count-over.glb',
  withJson((copy) => Object.assign(copy.accessors[0] ?? {}, { count: 40 })),
);
write(
  'view-over.glb',
  withJson((copy) => Object.assign(copy.bufferViews[1] ?? {}, { byteOffset: 4000 })),
);
write(
  'no-view.glb',
  withJson((copy) => delete (copy.accessors[0] as { bufferView?: number }).bufferView),
);
write(
  'odd-component.glb',
  withJson((copy) => Object.assign(copy.accessors[0] ?? {}, { componentType: 5130 })),
);
write(
  'flat-positions.glb',
  withJson((copy) => Object.assign(copy.accessors[0] ?? {}, { type: 'VEC2' })),
);
write(
  'no-accessor.glb',
  withJson((copy) => Object.assign(copy.meshes[0]?.primitives[0]?.attributes ?? {}, { POSITION: 9 })),
);
write(
  'loop.glb',
  withJson((copy) => Object.assign(copy.nodes[0] ?? {}, { children: [0] })),
);
write(
  'no-node.glb',
  withJson((copy) => Object.assign(copy.scenes[0] ?? {}, { nodes: [7] })),
);
write(
  'count-negative.glb',
  withJson((copy) => Object.assign(copy.accessors[0] ?? {}, { count: -4 })),
);
write(
  'index-high.glb',
  patched(glb, (view) => view.setUint32(glb.length - 4, 99, true)),
);
write(
  'nan.glb',
  patched(glb, (view) => view.setFloat32(glb.length - 48 - 48, Number.NaN, true)),
);
write(
  'nodes-many.glb',
  withJson((copy) => {
    Object.assign(copy.accessors[1] ?? {}, { count: 3_000_000 });
    Object.assign(copy, {
      nodes: Array.from({ length: 60 }, () => ({ mesh: 0 })),
      scenes: [{ nodes: Array.from({ length: 60 }, (_, i) => i) }],
    });
  }),
);

write('empty.step', '');
write('letter.step', 'Dear all, the drawing is on the other laptop.\n');
write('cut.step', "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((''),'2;1');\n");
write('nonsense.step', 'ISO-10303-21;\nthe drawing is on the other laptop\nEND-ISO-10303-21;\n');
write(
  'no-solids.step',
  "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((''),'2;1');\nFILE_NAME('','',(''),(''),'','','');\nFILE_SCHEMA(('AUTOMOTIVE_DESIGN'));\nENDSEC;\nDATA;\nENDSEC;\nEND-ISO-10303-21;\n",
);
