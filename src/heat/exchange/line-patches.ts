import {
  addScaled,
  type Body,
  bodyShape,
  type BodyShape,
  capsule,
  carriedAlong,
  cylinder,
  directionsAlong,
  distance,
  dot,
  perpendicular,
  type Solid,
  sub,
  turned,
  unit,
  type Vec,
} from '#geometry';
import { type Patch, patchOf, type Piece, roundPiece } from './patch.ts';

/** One sector of one segment of a line. */
export interface LinePatch extends Patch {
  /** Which of the bodies, which segment of the line (counted on through the bodies), which sector: 0 begins half a sector short of up. */
  readonly body: number;
  readonly segment: number;
  readonly sector: number;
  /** Middle of the segment along the line [mm]. */
  readonly alongMm: number;
  readonly lengthMm: number;
  /** Middle of the sector on the surface [mm], and out of it. */
  readonly middleMm: Vec;
  readonly faces: Vec;
}

export interface LinePatches {
  /** What rays meet of the line: for its `HeatSurface`. */
  readonly solids: readonly Solid[];
  /** Segment after segment, sector after sector. */
  readonly patches: readonly LinePatch[];
}

/** Straight pieces of a bend stand off the body's path by no more than this [mm]. */
const CHORD_MM = 0.3;
/** Where two pieces turn by more, a ball fills the wedge between them [cos]. */
const FILLED_COS = Math.cos((4 * Math.PI) / 180);
/** A line that has no up of its own, standing on end: its sector 0 looks forward. */
const UPRIGHT_COS = 0.9;

/**
 * A line in segments of about one length by sectors round it, carried along it without twist.
 *
 * @param surface - index of the line among the surfaces
 * @param bodies - as taken, in order from port to port
 */
export function linePatches(
  surface: number,
  emissivity: number,
  bodies: readonly Body[],
  wish: { readonly segmentMm: number; readonly sectors: number },
): LinePatches {
  const solids: Solid[] = [];
  const patches: LinePatch[] = [];
  let along = 0;
  let segment = 0;
  let up: Vec | null = null;
  bodies.forEach((body, b) => {
    const shape = bodyShape(body);
    const whole = shape.along[shape.pieces]!;
    if (whole < CHORD_MM) return;
    const count = Math.max(1, Math.round(whole / wish.segmentMm));
    const cuts = cutNodes(shape, count);
    const points = cuts.flatMap((nodes, i) => (i === 0 ? nodes : nodes.slice(1)));
    const flat = points.flat();
    const frames: readonly Vec[] = carriedAlong(flat, directionsAlong(flat), up ?? startOf(points));
    solids.push(...roundSolids(points, body.radiusMm));
    let first = 0;
    for (const nodes of cuts) {
      const made = segmentSectors(nodes, frames.slice(first), body.radiusMm, wish.sectors);
      for (const sector of made) {
        const { pieces, middleMm, faces, index } = sector;
        const place = { body: b, segment, sector: index, alongMm: along + whole / count / 2, lengthMm: whole / count };
        patches.push({ ...patchOf(surface, emissivity, pieces), ...place, middleMm, faces });
      }
      first += nodes.length - 1;
      segment++;
      along += whole / count;
    }
    up = frames.at(-1)!;
  });
  return { solids, patches };
}

/** Up as seen square to the first piece; forward where that stands on end. */
function startOf(points: readonly Vec[]): Vec {
  const way = unit(sub(points[1]!, points[0]!));
  const wanted: Vec = Math.abs(way[2]) > UPRIGHT_COS ? [-1, 0, 0] : [0, 0, 1];
  const square = addScaled(wanted, way, -dot(wanted, way));
  return Math.hypot(...square) > 1e-6 ? unit(square) : perpendicular(way);
}

/** The path cut into equal segments, each with no more points than its bend asks for. */
function cutNodes(shape: BodyShape, count: number): Vec[][] {
  const whole = shape.along[shape.pieces]!;
  const at = (k: number): Vec => [shape.points[3 * k]!, shape.points[3 * k + 1]!, shape.points[3 * k + 2]!];
  const pointAt = (s: number): Vec => {
    let k = 0;
    while (k < shape.pieces - 1 && shape.along[k + 1]! < s) k++;
    const t: Vec = [shape.tangents[3 * k]!, shape.tangents[3 * k + 1]!, shape.tangents[3 * k + 2]!];
    return addScaled(at(k), t, s - shape.along[k]!);
  };
  return Array.from({ length: count }, (_, i) => {
    const [from, to] = [(whole * i) / count, (whole * (i + 1)) / count];
    const between: Vec[] = [];
    for (let k = 1; k < shape.pieces; k++)
      if (shape.along[k]! > from + 1e-6 && shape.along[k]! < to - 1e-6) between.push(at(k));
    return thinned([i === 0 ? at(0) : pointAt(from), ...between, pointAt(to)]);
  });
}

/** Leaves out points that lie within CHORD_MM of the chord over them (halving at the one that stands off most). */
function thinned(points: readonly Vec[]): Vec[] {
  const [a, b] = [points[0]!, points.at(-1)!];
  const way = unit(sub(b, a));
  let worst = 0;
  let off = CHORD_MM;
  points.slice(1, -1).forEach((p, i) => {
    const d = sub(p, a);
    const away = Math.hypot(...addScaled(d, way, -dot(d, way)));
    if (away > off) [off, worst] = [away, i + 1];
  });
  if (worst === 0) return [a, b];
  return [...thinned(points.slice(0, worst + 1)), ...thinned(points.slice(worst)).slice(1)];
}

function roundSolids(points: readonly Vec[], radiusMm: number): Solid[] {
  const solids: Solid[] = [];
  let before: Vec | null = null;
  for (let i = 1; i < points.length; i++) {
    const way = unit(sub(points[i]!, points[i - 1]!));
    if (before !== null && dot(before, way) < FILLED_COS)
      solids.push(capsule(points[i - 1]!, points[i - 1]!, radiusMm));
    solids.push(cylinder(points[i - 1]!, points[i]!, radiusMm));
    before = way;
  }
  return solids;
}

function segmentSectors(nodes: readonly Vec[], frames: readonly Vec[], radiusMm: number, sectors: number) {
  const sectorRad = (2 * Math.PI) / sectors;
  const bars = nodes.slice(1).map((to, i) => {
    const from = nodes[i]!;
    const axis = unit(sub(to, from));
    const up = unit(addScaled(frames[i]!, axis, -dot(frames[i]!, axis)));
    return { from, axis, up, lengthMm: distance(from, to) };
  });
  const half = bars.reduce((sum, { lengthMm }) => sum + lengthMm, 0) / 2;
  let passed = 0;
  const middle = bars.find(({ lengthMm }) => (passed += lengthMm) >= half - 1e-9)!;
  const onAxis = addScaled(middle.from, middle.axis, half - (passed - middle.lengthMm));
  return Array.from({ length: sectors }, (_, index) => {
    const faces = turned(middle.up, middle.axis, index * sectorRad);
    const pieces: Piece[] = bars.map(({ from, axis, up, lengthMm }) =>
      roundPiece(from, axis, turned(up, axis, (index - 0.5) * sectorRad), radiusMm, lengthMm, sectorRad),
    );
    return { index, pieces, faces, middleMm: addScaled(onAxis, faces, radiusMm) };
  });
}
