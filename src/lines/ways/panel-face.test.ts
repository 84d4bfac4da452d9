import { describe, expect, it } from 'vitest';
import { type Vec, box, meshSolid, triangleMesh } from '#geometry';
import { panelFace } from './panel-face.ts';

/** A sheet bent round the Z axis: 2 mm thick, its middle on radius 500, 60 degrees wide and 400 high; flat facets of 1 degree. */
function bentSheet() {
  const steps = 60;
  const positions: number[] = [];
  const indices: number[] = [];
  for (let n = 0; n <= steps; n++)
    for (const r of [499, 501])
      for (const z of [-200, 200]) {
        const a = ((n - steps / 2) * Math.PI) / 180;
        positions.push(r * Math.cos(a), r * Math.sin(a), z);
      }
  // Corners of a cut: 0 inner low, 1 inner high, 2 outer low, 3 outer high.
  const quad = (a: number, b: number, c: number, d: number) => indices.push(a, b, c, a, c, d);
  for (let n = 0; n < steps; n++) {
    const [p, q] = [4 * n, 4 * n + 4];
    quad(p + 2, q + 2, q + 3, p + 3);
    quad(p, p + 1, q + 1, q);
    quad(p, q, q + 2, p + 2);
    quad(p + 1, p + 3, q + 3, q + 1);
  }
  const end = 4 * steps;
  quad(0, 2, 3, 1);
  quad(end, end + 1, end + 3, end + 2);
  return meshSolid(triangleMesh(Float64Array.from(positions), Uint32Array.from(indices)));
}

describe('places on a panel', () => {
  it('hand: on a sheet bent round an axis the normal points away from that axis, and the place lies mid-sheet', () => {
    const face = panelFace(bentSheet());
    let seen = 0;
    for (let p = -200; p <= 200; p += 40)
      for (let q = -200; q <= 200; q += 40) {
        const place = face.placeAt(p, q);
        if (place === null) continue;
        seen++;
        const radius = Math.hypot(place.at[0], place.at[1]);
        expect(Math.abs(radius - 500)).toBeLessThan(0.2);
        const out: Vec = [place.at[0] / radius, place.at[1] / radius, 0];
        // hand: facets of one degree stand within half a degree of the circle's own normal.
        const along = Math.abs(out[0] * place.normal[0] + out[1] * place.normal[1]);
        expect((Math.acos(Math.min(1, along)) * 180) / Math.PI).toBeLessThan(0.6);
      }
    expect(seen).toBeGreaterThan(80);
  });

  it('hand: a hole must leave sheet all round, on a bent panel as on a flat one', () => {
    for (const [face, reachMm] of [
      [panelFace(bentSheet()), 200],
      [panelFace(box([-1, -300, -200], [1, 300, 200])), 200],
    ] as const) {
      const [pz, qz] = [face.flat.u[2], face.flat.v[2]];
      const at = (z: number) => face.placeAt(z * pz, z * qz)!;
      expect(face.goesOn(at(0), 30)).toBe(true);
      expect(face.goesOn(at(reachMm - 31), 30)).toBe(true);
      expect(face.goesOn(at(reachMm - 29), 30)).toBe(false);
    }
  });

  it('hand: a panel leaned by 30 degrees about Y has its normal leaned as much', () => {
    const [c, s] = [Math.cos(Math.PI / 6), Math.sin(Math.PI / 6)];
    const leaned = box([-1, -300, -200], [1, 300, 200], {
      rows: [
        [c, 0, s],
        [0, 1, 0],
        [-s, 0, c],
      ],
      shift: [10, 20, 30],
    });
    const face = panelFace(leaned);
    const place = face.placeAt(50, -40)!;
    expect(Math.abs(place.normal[0] * c - place.normal[2] * s)).toBeCloseTo(1, 6);
    expect(leaned.distance(...place.at)).toBeCloseTo(-1, 1);
    expect(face.goesOn(place, 30)).toBe(true);
  });
});
