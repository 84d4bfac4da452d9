import { type Car, readCar } from '#car';
import { type TriangleMesh, type Vec } from '#geometry';
import { describe, expect, it } from 'vitest';
import { panelLayouts } from '../panel-layouts.ts';

/** A sheet of triangles over x -200..200, y -150..150 at the height z(x, y); every node on the surface. */
function surface(z: (x: number, y: number) => number, [nx, ny] = [40, 30]): TriangleMesh {
  const positions: number[] = [];
  const indices: number[] = [];
  for (let j = 0; j <= ny; j++)
    for (let i = 0; i <= nx; i++) {
      const [x, y] = [-200 + (400 * i) / nx, -150 + (300 * j) / ny];
      positions.push(x, y, z(x, y));
      if (i === nx || j === ny) continue;
      const k = j * (nx + 1) + i;
      indices.push(k, k + 1, k + nx + 2, k, k + nx + 2, k + nx + 1);
    }
  return { positions: Float64Array.from(positions), indices: Uint32Array.from(indices) };
}

interface Told {
  readonly corners: readonly Vec[];
  readonly z: (x: number, y: number) => number;
  readonly turnDeg?: Vec;
  readonly atMm?: Vec;
  readonly inFile?: { readonly turnDeg?: Vec; readonly atMm?: Vec };
  readonly outside?: Vec;
}

function laid({ corners, z, turnDeg, atMm, inFile, outside = [0, 0, 1] }: Told, files = ['skin.stl']) {
  const shape = {
    mesh: { file: 'skin.stl', unit: 'mm', ...inFile },
    ...(turnDeg && { turnDeg }),
    ...(atMm && { atMm }),
  };
  const panel = {
    id: 'P',
    thicknessMm: 1.2,
    outside,
    knownToMm: 2,
    onScan: 'skin',
    corners: corners.map((at, k) => ({ id: 'ABCD'[k]!, atMm: at })),
  };
  const file = {
    fairlead: 1,
    name: 'test',
    parts: [{ id: 'skin', class: 'fixed', shapes: [shape], ports: [] }],
    lines: [],
    panels: [panel],
  };
  const read = readCar(JSON.stringify(file));
  if (!('car' in read)) throw new Error(JSON.stringify(read));
  const [layout] = panelLayouts(read.car as Car, { meshes: new Map(files.map((name) => [name, surface(z)])) });
  const of = (code: string) => layout!.findings.find((finding) => finding.code === code);
  return { layout: layout!, of };
}

const RECTANGLE = [
  [-150, -100],
  [150, -100],
  [150, 100],
  [-150, 100],
] as const;
const at = (z: number): Vec[] => RECTANGLE.map(([x, y]) => [x, y, z]);

describe('corners on a scan', () => {
  it('are moved to the nearest point of it: 3 mm over a plane they come down onto it, and no bow is read', () => {
    const { layout, of } = laid({ corners: at(3), z: () => 0 });
    for (const [k, { at: place, measured }] of layout.corners.entries()) {
      [...RECTANGLE[k]!, 0].forEach((v, i) => expect(place[i]).toBeCloseTo(v, 9));
      expect(measured![2]).toBe(3);
    }
    expect(of('panel-bowed')).toBeUndefined();
    expect(of('panel-corner-off-scan')).toBeUndefined();
  });

  it('a corner further off than it is known to and 10 mm is told, and stays: 2 + 10 against 12.5', () => {
    const corners = at(0).map(([x, y], k): Vec => [x, y, k === 2 ? 12.5 : 11.9]);
    const { layout, of } = laid({ corners, z: () => 0 });
    expect(layout.corners.map(({ at: place }) => Number(place[2].toFixed(6)))).toEqual([0, 0, 12.5, 0]);
    expect(of('panel-corner-off-scan')).toMatchObject({ at: 'C', value: 12.5, limit: 12, place: [150, 100, 12.5] });
  });

  it('a scan that is turned and moved, in its file and with its part, is met where it stands', () => {
    // The file's plane z = 0 is moved up 20, then turned 90 degrees about X (z goes to -y): it stands at y = -20; then 500 in X.
    const corners = RECTANGLE.map(([x, z]): Vec => [500 + x, -17, z]);
    const { layout } = laid({
      corners,
      z: () => 0,
      inFile: { atMm: [0, 0, 20] },
      turnDeg: [90, 0, 0],
      atMm: [500, 0, 0],
      outside: [0, -1, 0],
    });
    for (const { at: place } of layout.corners) expect(place[1]).toBeCloseTo(-20, 9);
  });

  it('a scan that has not been read is told, and the corners stay as measured', () => {
    const { layout, of } = laid({ corners: at(3), z: () => 0 }, []);
    expect(layout.corners.map(({ at: place }) => place[2])).toEqual([3, 3, 3, 3]);
    expect(of('panel-scan-unread')!.text).toContain('skin.stl has not been read');
  });
});

describe('bow and twist read from a scan', () => {
  /** A cylinder of radius 1500 along Y: over a chord of 300 its sagitta is 1500 - sqrt(1500^2 - 150^2) = 7.519. */
  const cap = (x: number) => Math.sqrt(1500 ** 2 - x ** 2) - 1500;

  it('a cap of radius 1500 over a chord of 300 stands 7.52 mm out, in the middle of the chord', () => {
    const { of } = laid({ corners: at(cap(150)), z: cap });
    const told = of('panel-bowed')!;
    expect(told).toMatchObject({ value: 7.5, limit: 1.5, part: 'skin' });
    expect(told.text).toContain('out of its outside face');
    expect(told.place![0]).toBeCloseTo(0, 1);
    expect(told.place![2]).toBeCloseTo(0, 1);
    expect(of('panel-twisted')).toBeUndefined();
  });

  it('seen from the other face the same cap lies behind the sheet', () => {
    const told = laid({ corners: at(cap(150)), z: cap, outside: [0, 0, -1] }).of('panel-bowed')!;
    expect(told.value).toBe(7.5);
    expect(told.text).toContain('behind its outside face');
  });

  it('a bow under 1.5 mm is pulled out by the fixings: radius 8000 gives 1.41', () => {
    const shallow = (x: number) => Math.sqrt(8000 ** 2 - x ** 2) - 8000;
    expect(laid({ corners: at(shallow(150)), z: shallow }).of('panel-bowed')).toBeUndefined();
  });

  it('corners taped flat on a twisted patch take its twist, and no bow: z = xy / 5000 is 3 mm at each corner', () => {
    const twist = (x: number, y: number) => (x * y) / 5000;
    const { layout, of } = laid({ corners: at(0), z: twist });
    // Snapped square to the patch (slope 0.036 there), so a touch under 3.
    expect(layout.surface!.outMm).toBeGreaterThan(2.95);
    expect(layout.surface!.outMm).toBeLessThanOrEqual(3.01);
    expect(of('panel-twisted')!.value).toBeCloseTo(3, 1);
    expect(of('panel-bowed')).toBeUndefined();
  });

  it('says where the scan covers only a part of the sheet: 400 wide under 900, less than half', () => {
    const corners = at(0).map(([x, y]): Vec => [3 * x, y, 0]);
    const { of } = laid({ corners, z: () => 0 });
    // 31 cells of 29.03: the middle one and six either side of it have their middles within 200.
    expect(of('panel-scan-thin')!.value).toBe(Math.round((100 * 13) / 31));
  });
});
