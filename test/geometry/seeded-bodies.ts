import {
  type Body,
  box,
  capsule,
  cylinder,
  meshSolid,
  rotationFromDeg,
  type Solid,
  triangleMesh,
  type Vec,
} from '#geometry';
import { ballMesh, boxMesh } from './seeded-meshes.ts';

type Draw = (low?: number, high?: number) => number;

const point = (draw: Draw, spread: number): Vec => [
  draw(-spread, spread),
  draw(-spread, spread),
  draw(-spread, spread),
];

function bodyOf(points: readonly Vec[], radiusMm: number): Body {
  return { part: 'hose', path: Float64Array.from(points.flat()), radiusMm };
}

/** A planar arc from the origin along +X, points at most 3 mm apart. */
function arc(bendMm: number, angleRad: number): Vec[] {
  const n = Math.max(2, Math.ceil((bendMm * angleRad) / 3));
  return Array.from(
    { length: n + 1 },
    (_, i): Vec => [bendMm * Math.sin((angleRad * i) / n), 0, bendMm * (1 - Math.cos((angleRad * i) / n))],
  );
}

/** A smooth space curve, points at most 3 mm apart: a cubic with random handles. */
function cubic(draw: Draw): Vec[] {
  const [a, b, c, d] = [point(draw, 150), point(draw, 150), point(draw, 150), point(draw, 150)];
  const n = 240;
  return Array.from({ length: n + 1 }, (_, i): Vec => {
    const t = i / n;
    const w = [(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t ** 3];
    return [0, 1, 2].map((k) => w[0]! * a[k]! + w[1]! * b[k]! + w[2]! * c[k]! + w[3]! * d[k]!) as unknown as Vec;
  });
}

/** A body of one of five kinds: straight of one piece or many, an arc with its straights, a space curve, a few sharp corners. */
export function seededBody(kind: number, draw: Draw): Body {
  const radiusMm = draw(5, 25);
  if (kind === 0) return bodyOf([point(draw, 120), point(draw, 120)], radiusMm);
  if (kind === 1) {
    const [a, b] = [point(draw, 120), point(draw, 120)];
    return bodyOf(
      Array.from(
        { length: 60 },
        (_, i): Vec => [0, 1, 2].map((k) => a[k]! + ((b[k]! - a[k]!) * i) / 59) as unknown as Vec,
      ),
      radiusMm,
    );
  }
  if (kind === 2) {
    const angle = draw(0.3, Math.PI);
    const bend = arc(radiusMm * draw(1.6, 5), angle);
    const end = bend.at(-1)!;
    return bodyOf(
      [[-draw(5, 40), 0, 0], ...bend, [end[0] + 30 * Math.cos(angle), 0, end[2] + 30 * Math.sin(angle)]],
      radiusMm,
    );
  }
  if (kind === 3) return bodyOf(cubic(draw), Math.min(radiusMm, 12));
  return bodyOf([point(draw, 120), point(draw, 120), point(draw, 120), point(draw, 120)], radiusMm);
}

/** A solid of one of five kinds about `at`. */
export function seededSolid(kind: number, draw: Draw, at: Vec): Solid {
  const by = (v: Vec): Vec => [v[0] + at[0], v[1] + at[1], v[2] + at[2]];
  if (kind === 0) return capsule(by(point(draw, 60)), by(point(draw, 60)), draw(4, 40));
  if (kind === 1) return cylinder(by(point(draw, 60)), by(point(draw, 60)), draw(4, 60));
  const turn = rotationFromDeg([draw(-180, 180), draw(-180, 180), draw(-180, 180)]);
  const placed = { rows: turn.rows, shift: at };
  const half: Vec = [draw(5, 80), draw(5, 80), draw(5, 80)];
  const low: Vec = [-half[0], -half[1], -half[2]];
  if (kind === 2) return box(low, half, placed);
  const mesh = kind === 3 ? ballMesh(3, draw(20, 70), draw(0, 3), Math.floor(draw(1, 1e6))) : boxMesh(low, half);
  return meshSolid(triangleMesh(mesh.positions, mesh.indices)).moved(placed);
}
