import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { meshKindOf, readMesh } from './read-mesh.ts';

const FOLDER = fileURLToPath(new URL('./corpus/', import.meta.url));

/** Each malformed file and the one line a builder gets for it. What is wrong with each stands in scripts/make-mesh-corpus.ts. */
const FAULTS = [
  ['broken-json.glb', 'GLB JSON: not JSON; allowed: a JSON document'],
  ['chunk-long.glb', 'GLB byte 12: a chunk of 2,147,483,632 bytes; 536 are left; allowed: a chunk that fits the file'],
  [
    'compressed.glb',
    'GLB JSON extensionsRequired: "KHR_draco_mesh_compression"; allowed: a file without it (export it uncompressed)',
  ],
  [
    'count-huge.glb',
    'GLB JSON meshes.0.primitives.0: more than 20,000,000 triangles or vertices with all nodes; allowed: at most 20,000,000',
  ],
  ['count-negative.glb', 'GLB JSON accessors.0.count: Too small: expected number to be >=0; allowed: glTF 2.0'],
  [
    'count-over.glb',
    'GLB JSON accessors.0: 40 values end at byte 480; allowed: at most byte 48 (is the file cut short?)',
  ],
  [
    'cut.glb',
    'GLB bytes 8-11: 556 bytes declared; the file has 526; allowed: a length that fits the file (is it cut short?)',
  ],
  [
    'elsewhere.glb',
    'GLB JSON buffers.0.uri: data outside the binary chunk; allowed: everything inside the one file; nothing else is opened',
  ],
  ['empty.glb', 'file: empty; allowed: a file of kind GLB'],
  [
    'file-elsewhere.glb',
    'GLB JSON buffers.0.uri: data outside the binary chunk; allowed: everything inside the one file; nothing else is opened',
  ],
  ['flat-positions.glb', 'GLB JSON accessors.0.type: "VEC2"; allowed: "VEC3"'],
  ['index-high.glb', 'GLB JSON meshes.0.primitives.0 corner 11: vertex number 99; allowed: 0 to 3'],
  [
    'inline-data.glb',
    'GLB JSON buffers.0.uri: data outside the binary chunk; allowed: everything inside the one file; nothing else is opened',
  ],
  ['letter.glb', 'GLB bytes 0-3: not "glTF"; allowed: a binary glTF file (.glb)'],
  ['loop.glb', 'GLB JSON nodes.0: reached twice (a loop?); allowed: each node under one parent'],
  [
    'nan.glb',
    'GLB JSON meshes.0.primitives.0 vertex 0: NaN 0 0; allowed: finite numbers within 1 km of the origin, as its nodes place it',
  ],
  ['no-accessor.glb', 'GLB JSON accessors.9: not there; allowed: 0 to 1'],
  ['no-json.glb', 'GLB: no JSON chunk; allowed: a binary glTF 2.0 file'],
  ['no-node.glb', 'GLB JSON nodes: node 7; allowed: 0 to 0'],
  ['no-view.glb', 'GLB JSON accessors.0: sparse values, or none; allowed: values that stand in the binary chunk'],
  [
    'nodes-many.glb',
    'GLB JSON meshes.0.primitives.0: more than 20,000,000 triangles or vertices with all nodes; allowed: at most 20,000,000',
  ],
  ['odd-component.glb', 'GLB JSON accessors.0.componentType: 5130; allowed: 5120, 5121, 5122, 5123, 5125, 5126'],
  ['version-one.glb', 'GLB bytes 4-7: version 1; allowed: 2'],
  [
    'view-over.glb',
    'GLB JSON accessors.1: 12 values end at byte 4,048; allowed: at most byte 96 (is the file cut short?)',
  ],
  ['cloud.obj', 'OBJ: no triangles; allowed: at least one triangle'],
  ['decimal-comma.obj', 'OBJ line 2: "1,5"; allowed: finite numbers within 1 km of the origin'],
  ['empty.obj', 'file: empty; allowed: a file of kind OBJ'],
  ['faces-first.obj', 'OBJ line 1: vertex number "1"; allowed: vertices before the faces'],
  ['index-back.obj', 'OBJ line 4: vertex number "-4"; allowed: 1 to 3, or -1 to -3'],
  ['index-high.obj', 'OBJ line 4: vertex number "4"; allowed: 1 to 3, or -1 to -3'],
  ['index-long.obj', 'OBJ line 4: vertex number "999999999999999999999999..."; allowed: 1 to 3, or -1 to -3'],
  ['index-nought.obj', 'OBJ line 4: vertex number "0"; allowed: 1 to 3, or -1 to -3'],
  ['infinite.obj', 'OBJ line 2: v 1 -Infinity 0; allowed: finite numbers within 1 km of the origin'],
  ['letter.obj', 'OBJ line 1: "Dear"; allowed: an OBJ statement (v, f, ...)'],
  ['nan.obj', 'OBJ line 2: "NaN"; allowed: finite numbers within 1 km of the origin'],
  ['short-vertex.obj', 'OBJ line 2: a vertex of fewer than three numbers; allowed: v x y z (is it cut short?)'],
  ['two-corners.obj', 'OBJ line 4: a face of 2 corners; allowed: three or more'],
  ['utf16.obj', 'OBJ: zero bytes (UTF-16 text, or not text at all); allowed: plain text (ASCII or UTF-8)'],
  ['cloud.ply', 'PLY header: no faces (a cloud of points?); allowed: an element "face"'],
  [
    'count-huge-ascii.ply',
    'PLY element vertex: 4,000,000,000 declared, at least 24,000,000,000 bytes; the file has 27 left; allowed: a count that fits the file (is it cut short?)',
  ],
  [
    'count-huge-binary.ply',
    'PLY element vertex: 4,000,000,000 declared, at least 48,000,000,000 bytes; the file has 60 left; allowed: a count that fits the file (is it cut short?)',
  ],
  ['cut.ply', 'PLY face 3: a list of 3 values; the file has 7 bytes left; allowed: a length that fits the file'],
  ['empty.ply', 'file: empty; allowed: a file of kind PLY'],
  ['faces-first.ply', 'PLY face 0: vertex number 0; allowed: vertices before the faces'],
  [
    'faces-huge.ply',
    'PLY element face: 900,000,000 declared, at least 1,800,000,000 bytes; the file has 10 left; allowed: a count that fits the file (is it cut short?)',
  ],
  ['float-length.ply', 'PLY line 8: "float"; allowed: a whole-number type for the length of a list'],
  ['index-high.ply', 'PLY face 0: vertex number 3; allowed: 0 to 2'],
  ['index-negative.ply', 'PLY face 0: vertex number -1; allowed: 0 to 2'],
  ['index-part.ply', 'PLY face 0: vertex number 1.5; allowed: 0 to 2'],
  ['left-over.ply', 'PLY: 40 bytes after the last value; allowed: counts that fit the file'],
  ['letter.ply', 'PLY line 1: "plywood,"; allowed: "ply"'],
  [
    'list-huge.ply',
    'PLY face 0: a list of 2,147,483,647 values; the file has 60 bytes left; allowed: a length that fits the file',
  ],
  ['long-row.ply', 'PLY vertex 1 (line 11): "9" after the last value; allowed: the values the header declares'],
  ['nan.ply', 'PLY vertex 1 (line 11): "nan"; allowed: a finite number'],
  ['no-end-header.ply', 'PLY header: no "end_header" within 64 KB; allowed: a header that ends (is it cut short?)'],
  ['no-format.ply', 'PLY header: no format; allowed: format ascii, binary_little_endian or binary_big_endian'],
  ['no-z.ply', 'PLY element vertex: no single value "z"; allowed: properties x, y, z'],
  ['nothing-element.ply', 'PLY element idle: no properties; allowed: at least one'],
  ['odd-count.ply', 'PLY line 3: "-3"; allowed: a count of 0 or more'],
  ['odd-format.ply', 'PLY line 2: "binary_middle_endian"; allowed: ascii, binary_little_endian, binary_big_endian'],
  [
    'odd-type.ply',
    'PLY line 6: "half"; allowed: char, int8, uchar, uint8, short, int16, ushort, uint16, int, int32, uint, uint32, float, float32, double, float64',
  ],
  ['short-row.ply', 'PLY vertex 1 (line 11): the line ends; allowed: as many values as the header declares'],
  ['strips.ply', 'PLY header: triangle strips; allowed: an element "face"'],
  ['two-corners.ply', 'PLY face 0: a face of 2 corners; allowed: three or more'],
  ['cut.step', 'STEP: the file ends; allowed: "END-ISO-10303-21;" at the end (is it cut short?)'],
  ['empty.step', 'file: empty; allowed: a file of kind STEP'],
  ['letter.step', 'STEP line 1: no "ISO-10303-21;"; allowed: a STEP file'],
  ['no-solids.step', `STEP: can't be understood; allowed: STEP AP203, AP214 or AP242`],
  ['nonsense.step', `STEP: can't be understood; allowed: STEP AP203, AP214 or AP242`],
  ['count-huge.stl', 'STL bytes 80-83: 4,294,967,295 triangles declared; allowed: at most 20,000,000'],
  [
    'count-low.stl',
    'STL bytes 80-83: 1 triangles declared, which takes 134 bytes; the file has 284; allowed: a count that fits the file',
  ],
  ['count-nought.stl', 'STL: no triangles; allowed: at least one triangle'],
  ['cut-ascii.stl', 'STL line 6: the file ends inside a facet; allowed: whole facets (is it cut short?)'],
  [
    'cut-binary.stl',
    'STL bytes 80-83: 4 triangles declared, which takes 284 bytes; the file has 234; allowed: a count that fits the file (is it cut short?)',
  ],
  [
    'cut-in-triangle.stl',
    'STL bytes 80-83: 4 triangles declared, which takes 284 bytes; the file has 277; allowed: a count that fits the file (is it cut short?)',
  ],
  ['decimal-comma.stl', 'STL line 5: "0,5"; allowed: finite numbers within 1 km of the origin'],
  ['empty.stl', 'file: empty; allowed: a file of kind STL'],
  ['far-away.stl', 'STL line 5: vertex 1e+30 0 0; allowed: finite numbers within 1 km of the origin'],
  ['flat.stl', 'STL: 1 triangles, all without area; allowed: at least one triangle'],
  ['four-corners.stl', 'STL line 7: "vertex"; allowed: "endloop"'],
  ['infinite.stl', 'STL line 5: "inf"; allowed: finite numbers within 1 km of the origin'],
  ['letter.stl', 'STL bytes 80-83: 544,825,700 triangles declared; allowed: at most 20,000,000'],
  ['nan.stl', 'STL triangle 2, corner 2: x 1, y NaN, z 0; allowed: finite numbers within 1 km of the origin'],
  ['no-end.stl', 'STL line 9: the file ends; allowed: "endsolid" at the end (is it cut short?)'],
  ['note.stl', 'STL: 32 bytes that do not begin with "solid"; allowed: ASCII STL, or binary STL of at least 84 bytes'],
  ['overflow.stl', 'STL line 5: vertex 1 Infinity 0; allowed: finite numbers within 1 km of the origin'],
  ['words.stl', 'STL line 2: "this"; allowed: "facet" or "endsolid"'],
  ['zip.stl', 'STL bytes 80-83: 2,726,123,571 triangles declared; allowed: at most 20,000,000'],
] as const;

describe('malformed mesh files', () => {
  it('are all in the table', () => {
    const files = readdirSync(FOLDER);
    expect(FAULTS.map(([file]) => file).toSorted()).toEqual(files.toSorted());
  });

  it.each(FAULTS)('%s', async (file, line) => {
    const kind = meshKindOf(file);
    if (kind === undefined) throw new Error(`no reader for ${file}`);
    expect(await readMesh(`${FOLDER}${file}`, kind, { unit: 'mm' })).toEqual({ ok: false, fault: line });
  });
});
