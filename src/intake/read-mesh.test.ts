import { STLLoader } from 'three/addons/loaders/STLLoader.js';
import { describe, expect, it } from 'vitest';
import { readMesh } from './read-mesh.ts';
import { stlBinary } from './stl-binary.ts';

const ascii = (facets: string): Uint8Array => new TextEncoder().encode(`solid part one\n${facets}endsolid part one\n`);
const facet = (a: string, b: string, c: string): string =>
  `facet normal 0 0 1\nouter loop\nvertex ${a}\nvertex ${b}\nvertex ${c}\nendloop\nendfacet\n`;
/** A tetrahedron with its corner at the origin and edges of 1 along the axes. */
const TETRA = ascii(
  facet('0 0 0', '0 1 0', '1 0 0') +
    facet('0 0 0', '1 0 0', '0 0 1') +
    facet('0 0 0', '0 0 1', '0 1 0') +
    facet('1 0 0', '0 1 0', '0 0 1'),
);

describe('readMesh of STL', () => {
  it.each([
    // hand: edge length 1 in the unit; the inch is 25.4 mm by definition
    ['mm', 1],
    ['cm', 10],
    ['m', 1000],
    ['in', 25.4],
  ] as const)('scales %s to millimetres', async (unit, mm) => {
    const reading = await readMesh(TETRA, 'stl', { unit });
    if (!reading.ok) throw new Error(reading.fault);
    expect(reading.notes).toMatchObject({
      triangles: 4,
      vertices: 4,
      openEdges: 0,
      closed: true,
      sizeMm: [mm, mm, mm],
    });
  });

  it("reads back what it writes, and three's loader (second) reads the same triangles", async () => {
    const first = await readMesh(TETRA, 'stl', { unit: 'mm' });
    if (!first.ok) throw new Error(first.fault);
    const bytes = stlBinary(first.mesh);
    const again = await readMesh(bytes, 'stl', { unit: 'mm' });
    expect(again).toEqual(first);
    const second = new STLLoader().parse(bytes.buffer as ArrayBuffer).getAttribute('position').array;
    const ours = [...first.mesh.indices].flatMap((v) => [...first.mesh.positions.slice(v * 3, v * 3 + 3)]);
    expect([...second]).toEqual(ours);
  });
});
