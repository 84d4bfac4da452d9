import { GLTFLoader } from 'three/addons/loaders/GLTFLoader.js';
import { OBJLoader } from 'three/addons/loaders/OBJLoader.js';
import { PLYLoader } from 'three/addons/loaders/PLYLoader.js';
import { STLLoader } from 'three/addons/loaders/STLLoader.js';
import { type BufferGeometry, type Mesh, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { type MeshKind, type MeshReading, readMesh } from './read-mesh.ts';
import { glbOf, objText, plyBinary, plyText, stlOf, stlText, TETRA, tetraGlbJson } from './test-files.ts';
import { pipeMesh } from './test-shapes.ts';

const text = (words: string): Uint8Array => new TextEncoder().encode(words);
const read = (bytes: Uint8Array | string, kind: MeshKind): Promise<MeshReading> =>
  readMesh(typeof bytes === 'string' ? text(bytes) : bytes, kind, { unit: 'mm' });

/** Three points a triangle, in the order of the file. */
async function soup(bytes: Uint8Array | string, kind: MeshKind): Promise<number[]> {
  const reading = await read(bytes, kind);
  if (!reading.ok) throw new Error(reading.fault);
  return [...reading.mesh.indices].flatMap((v) => [...reading.mesh.positions.subarray(3 * v, 3 * v + 3)]);
}

function soupOfThree(geometry: BufferGeometry, place: (point: Vector3) => Vector3 = (point) => point): number[] {
  const plain = geometry.index === null ? geometry : geometry.toNonIndexed();
  const at = plain.getAttribute('position');
  return Array.from({ length: at.count }, (_, i) => place(new Vector3().fromBufferAttribute(at, i)).toArray()).flat();
}

const PIPE = pipeMesh(20.25, 14, 60, 12, 3);
const MESH = { positions: Float32Array.from(PIPE.positions), indices: PIPE.indices };
const buffer = (bytes: Uint8Array): ArrayBuffer => bytes.slice().buffer as ArrayBuffer;

describe("every format gives the triangles that three's loader gives (second)", () => {
  it('STL', async () => {
    const three = (bytes: Uint8Array): number[] => soupOfThree(new STLLoader().parse(buffer(bytes)));
    expect(await soup(stlOf(MESH), 'stl')).toEqual(three(stlOf(MESH)));
    expect((await soup(stlText(MESH), 'stl')).map(Math.fround)).toEqual(three(text(stlText(MESH))));
  });

  it('PLY, three ways of writing it', async () => {
    for (const bytes of [text(plyText(MESH)), plyBinary(MESH, true), plyBinary(MESH, false)]) {
      expect((await soup(bytes, 'ply')).map(Math.fround)).toEqual(soupOfThree(new PLYLoader().parse(buffer(bytes))));
    }
  });

  it('OBJ', async () => {
    const three = new OBJLoader().parse(objText(MESH)).children[0] as Mesh;
    expect((await soup(objText(MESH), 'obj')).map(Math.fround)).toEqual(soupOfThree(three.geometry));
  });

  it('GLB, turned, scaled, mirrored and nested by its nodes', async () => {
    const json = tetraGlbJson(MESH);
    const nodes = [
      { translation: [10, 20, 30], rotation: [0.5, 0.5, 0.5, 0.5], scale: [1, 2, 3], children: [1] },
      { mesh: 0, rotation: [0, 0, Math.SQRT1_2, Math.SQRT1_2], scale: [-1, 1, 1] },
    ];
    const bytes = glbOf({ ...json, nodes }, MESH);
    const scene = (await new GLTFLoader().parseAsync(buffer(bytes), '')).scene;
    scene.updateMatrixWorld(true);
    const three: number[] = [];
    scene.traverse((object) => {
      if ('geometry' in object)
        three.push(...soupOfThree((object as Mesh).geometry, (point) => point.applyMatrix4(object.matrixWorld)));
    });
    const ours = await soup(bytes, 'glb');
    expect(ours).toHaveLength(three.length);
    for (let t = 0; t < ours.length; t += 9) {
      // mirrored once, so ours turns each triangle back to face outward: corners 2 and 3 change places
      const [a, b, c] = [0, 6, 3].map((k) => three.slice(t + k, t + k + 3));
      [...(a ?? []), ...(b ?? []), ...(c ?? [])].forEach((value, k) => expect(ours[t + k]).toBeCloseTo(value, 4));
    }
  });
});

describe('what real files do', () => {
  it('a binary STL whose header begins with "solid"', async () => {
    const bytes = stlOf(TETRA);
    bytes.set(text('solid of an exporter'));
    expect(await read(bytes, 'stl')).toMatchObject({ ok: true, notes: { triangles: 4, closed: true } });
  });

  it('an ASCII STL in capitals, of several solids, with nan normals', async () => {
    const twice = (stlText(TETRA) + stlText(TETRA)).toUpperCase().replaceAll('NORMAL 0 0 0', 'NORMAL NAN NAN NAN');
    expect(await read(twice, 'stl')).toMatchObject({ ok: true, notes: { triangles: 8, vertices: 4 } });
  });

  it('numbers as printed, to the last bit', async () => {
    // hand: JavaScript's own parser is correctly rounded (ECMAScript, 7.1.4.1), so any difference is ours
    const words = [
      '0.1',
      '-.5',
      '5.',
      '+3e2',
      '1E-7',
      '123456.7890123456789',
      '0.000000000000000000000000000012345',
      '123456789012345678e-14',
      '-0',
    ];
    const lines = words.map((word) => `v ${word} 1 2\n`).join('');
    const reading = await read(
      `${lines}v 0 0 0\nv 9 0 0\n${words.map((_, i) => `f ${i + 1} -1 -2\n`).join('')}`,
      'obj',
    );
    if (!reading.ok) throw new Error(reading.fault);
    const xs = words.map((_, i) => reading.mesh.positions[3 * (reading.mesh.indices[3 * i] ?? 0)]);
    expect(xs).toEqual(words.map((word) => Number(word) + 0));
  });

  it.each([
    ['a statement carried on by a backslash', 'v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 \\\n 2 3\n'],
    ['Windows line ends, tabs, a byte order mark', '\ufeffv\t0 0 0\r\nv  1 0 0\r\nv 0 1 0\r\nf 1/1/1 2//2 3/3\r\n'],
    ['no line end at the end', 'v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3'],
    ['a comment that ends in a backslash', '# C:\\scans\\\nv 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3 # done'],
    ['colours after the coordinates', 'v 0 0 0 1 1 1\nv 1 0 0 1 1 1\nv 0 1 0 1 1 1\nf 1 2 3\n'],
  ])('OBJ: %s', async (_, words) => {
    expect(await read(words, 'obj')).toMatchObject({ ok: true, notes: { triangles: 1, sizeMm: [1, 1, 0] } });
  });

  it('PLY: elements and properties of no use here are stepped over', async () => {
    const words =
      'ply\nformat ascii 1.0\nelement camera 1\nproperty float f\nproperty list uchar int p\nelement vertex 3\nproperty float nx\nproperty float z\nproperty float y\nproperty float x\nelement face 1\nproperty uchar red\nproperty list uchar uint vertex_index\nend_header\n1.5 2 7 8\n9 1 0 0\n9 1 0 1\n9 1 1 0\n255 3 0 1 2\n\n';
    expect(await soup(words, 'ply')).toEqual([0, 0, 1, 1, 0, 1, 0, 1, 1]);
  });

  it('a hollow face is cut up inside its outline', async () => {
    // hand: an L of three unit squares, area 3; a fan from its first corner would cover more
    const words = 'v 0 1 0\nv 0 0 0\nv 2 0 0\nv 2 1 0\nv 1 1 0\nv 1 2 0\nv 0 2 0\nf 5 6 7 1 2 3 4\nf 4 5 6 7 1 2 3\n';
    const points = await soup(words, 'obj');
    let area = 0;
    for (let i = 0; i < points.length; i += 9) {
      const [ax = 0, ay = 0, , bx = 0, by = 0, , cx = 0, cy = 0] = points.slice(i, i + 9);
      const signed = ((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)) / 2;
      expect(signed).toBeGreaterThanOrEqual(0);
      area += signed;
    }
    expect(area).toBeCloseTo(2 * 3, 12);
  });

  it('a GLB strip and a fan', async () => {
    const json = tetraGlbJson(TETRA);
    const mode = (value: number, indices: number[]): Promise<number[]> => {
      const mesh = { positions: TETRA.positions, indices: Uint32Array.from(indices) };
      const whole = {
        ...json,
        meshes: [{ primitives: [{ attributes: { POSITION: 0 }, indices: 1, mode: value }] }],
        accessors: [json.accessors[0], { ...json.accessors[1], count: indices.length }],
        bufferViews: [json.bufferViews[0], { ...json.bufferViews[1], byteLength: 4 * indices.length }],
      };
      return soup(glbOf(whole, mesh), 'glb');
    };
    const corner = (i: number): number[] => [...TETRA.positions.subarray(3 * i, 3 * i + 3)];
    // hand, by glTF 2.0 section 3.7.2.1: strip (0 1 2)(1 3 2); fan (1 2 0)(2 3 0)
    expect(await mode(5, [0, 1, 2, 3])).toEqual([0, 1, 2, 1, 3, 2].flatMap(corner));
    expect(await mode(6, [0, 1, 2, 3])).toEqual([1, 2, 0, 2, 3, 0].flatMap(corner));
  });

  it('a GLB whose JSON is nested a million deep', async () => {
    const deep = `${'['.repeat(1_000_000)}${']'.repeat(1_000_000)}`;
    const json = text(`{"asset":{"version":"2.0"},"extras":${deep}}`);
    const bytes = new Uint8Array(20 + json.length);
    [0x46546c67, 2, bytes.length, json.length, 0x4e4f534a].forEach((word, i) =>
      new DataView(bytes.buffer).setUint32(4 * i, word, true),
    );
    bytes.set(json, 20);
    expect(await read(bytes, 'glb')).toMatchObject({ ok: false });
  });

  it('warns when the size says that the unit is wrong', async () => {
    const small = await readMesh(stlOf(pipeMesh(0.3, 0.2, 0.6, 12, 1)), 'stl', { unit: 'mm' });
    expect(small.ok && small.notes.warnings.join()).toContain(
      'read in mm it measures 0.6 mm at most: is the file in cm or m or in?',
    );
    const large = await readMesh(stlOf(pipeMesh(300, 200, 600, 12, 1)), 'stl', { unit: 'in' });
    expect(large.ok && large.notes.warnings.join()).toContain('is the file in mm or cm?');
  });
});

describe('a path that is no plain file', () => {
  it.each([
    ['/nowhere/part.stl', 'file: not there; allowed: a file that can be read'],
    ['/dev/zero', 'file: not a plain file; allowed: a file that can be read'],
    ['/tmp', 'file: not a plain file; allowed: a file that can be read'],
  ])('%s', async (path, fault) => {
    expect(await readMesh(path, 'stl', { unit: 'mm' })).toEqual({ ok: false, fault });
  });
});
