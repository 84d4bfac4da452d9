import { fileURLToPath } from 'node:url';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { meshSolid, triangleMesh } from '#geometry';
import { demoScan } from '../../scripts/make-demo-scan.ts';
import { readMesh } from './read-mesh.ts';
import { stlBinary } from './stl-binary.ts';

const FILE = fileURLToPath(new URL('../../demo/scans/transaxle.stl', import.meta.url));

describe("the demo car's scanned transaxle", () => {
  it('is what its script makes', async () => {
    const [made, kept] = await Promise.all([
      readMesh(stlBinary(demoScan(2027)), 'stl', { unit: 'mm' }),
      readMesh(FILE, 'stl', { unit: 'mm' }),
    ]);
    if (!made.ok || !kept.ok) throw new Error("a scan that can't be read");
    expect(kept.mesh.indices).toEqual(made.mesh.indices);
    // sines may differ in the last digit from one machine to the next
    kept.mesh.positions.forEach((value, i) => {
      if (Math.abs(value - (made.mesh.positions[i] ?? 0)) > 1e-3) throw new Error(`coordinate ${i}: ${value}`);
    });
    expect(readFileSync(FILE).length).toBeLessThan(2e6);
  });

  it("stands where the car's casing stands, has holes, and still tells inside from outside", async () => {
    const reading = await readMesh(FILE, 'stl', { unit: 'mm' });
    if (!reading.ok) throw new Error(reading.fault);
    expect(reading.notes.triangles).toBeGreaterThan(25_000);
    expect(reading.notes.openEdges).toBeGreaterThan(100);
    const inMm = (value: number, least: number, most: number): void => {
      expect(value).toBeGreaterThan(least);
      expect(value).toBeLessThan(most);
    };
    // hand: casing X 1960-2720, Y -170..170, Z 70-420; four standard deviations of scatter at its flat ends
    inMm(reading.notes.minMm[0], 1958.4, 1960);
    inMm(reading.notes.maxMm[0], 2720, 2721.6);
    inMm(reading.notes.minMm[1], -170, -160);
    inMm(reading.notes.maxMm[1], 160, 170);
    inMm(reading.notes.minMm[2], 70, 80);
    inMm(reading.notes.maxMm[2], 410, 420);
    const solid = meshSolid(triangleMesh(reading.mesh.positions, reading.mesh.indices));
    expect(solid.distance(2400, 0, 245)).toBeLessThan(-100);
    expect(solid.distance(2345, 0, 245)).toBeLessThan(-90);
    expect(solid.distance(2400, 0, 500)).toBeGreaterThan(100);
    // the output flanges stand out to Y 167 at X 2500, Z 260
    for (const side of [1, -1]) {
      expect(Math.abs(solid.distance(2500, side * 167, 260))).toBeLessThan(1.6);
      expect(Math.abs(solid.distance(2500, side * 140, 260))).toBeGreaterThan(10);
    }
  });
});
