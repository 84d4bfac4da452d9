import {
  addScaled,
  isInOutline,
  type Outline,
  outlineArea,
  outlinePoints,
  roundOutline,
  scale,
  straightOutline,
  type Point2,
  type Vec,
} from '#geometry';
import { flankAt } from '../flat/fold-lines.ts';
import { crossing, lineThrough, movedOut, rightOf } from '../flat/lines.ts';
import { type LaidStrip, stepLength } from '../flat/strip.ts';
import type { LaidEdge, PanelLayout, PlacedHole } from '../layout.ts';
import { slotOutline } from '../slot-outline.ts';
import { facetAt } from '../surface/facet-at.ts';
import { carFromFlat, type FlatFrame } from '../surface/flat-frame.ts';
import type { Facet } from '../surface/facets.ts';
import { triangulated } from './triangulated.kernel.ts';

/** A closed piece of a folded panel: a facet, a flange, or a slice of a bend. Plain triangles in car axes [mm]. */
export interface SolidPiece {
  readonly positions: Float64Array;
  readonly indices: Uint32Array;
}

/** An opening of a panel as it hangs on the car. */
export interface PanelOpening {
  readonly name: string;
  /** The window or hole of the car file that it belongs to; absent: cut for something that goes through. */
  readonly of?: string;
  /** What sits in it; absent: a window, or a hole of which nothing is said. */
  readonly fitted?: NonNullable<PlacedHole['fitted']>;
  /** Round it on the outside face, in car axes [mm]. */
  readonly outline: readonly Vec[];
  /** Out of the outside face. */
  readonly normal: Vec;
  readonly areaMm2: number;
}

/** Openings smaller than this across are left closed in the solid: rivets and screws fill them [mm]. */
const LEAST_OPENING_MM = 12;
/** Chords of round openings stand off by no more than this [mm]. */
const CHORD_MM = 0.3;
/** The middle of a hole and that of its outline are one within this [mm]. */
const SAME_PLACE_MM = 0.5;
/** A bend is drawn in slices of no more than this [deg]. */
const SLICE_DEG = 15;

interface Opening {
  readonly name: string;
  readonly outline: Outline;
  readonly middle: Point2;
}

function openingsOf({ flats }: PanelLayout): readonly Opening[] {
  const flat = flats[0];
  if (flat === undefined) return [];
  return [
    ...flat.cutOuts.map(({ outline, name }) => ({ outline, name, middle: middleOf(outline) })),
    ...flat.holes
      .filter(({ diameterMm, corner }) => diameterMm >= LEAST_OPENING_MM && corner !== true)
      .map(({ at, diameterMm, for: name }) => ({ outline: roundOutline(at, diameterMm / 2), name, middle: at })),
    ...flat.slots
      .filter(({ wideMm }) => wideMm >= LEAST_OPENING_MM)
      .map((slot) => ({ outline: slotOutline(slot), name: slot.for, middle: slot.at })),
  ];
}

const middleOf = (outline: Outline): Point2 => {
  const points = outlinePoints(outline, 1);
  return points.reduce<Point2>((m, p) => [m[0] + p[0] / points.length, m[1] + p[1] / points.length], [0, 0]);
};

/** The openings as the bay's air sees them. */
export function panelOpenings(layout: PanelLayout): readonly PanelOpening[] {
  return openingsOf(layout).map(({ name, outline, middle }) => {
    const { frame } = facetAt(layout.facets, middle);
    const hole = layout.holes.find(({ at }) => Math.hypot(at[0] - middle[0], at[1] - middle[1]) < SAME_PLACE_MM);
    const of = layout.windows.find((field) => field.openings.some((one) => one.outline === outline))?.id ?? hole?.id;
    return {
      name,
      ...(of === undefined ? {} : { of }),
      ...(hole?.fitted === undefined ? {} : { fitted: hole.fitted }),
      outline: outlinePoints(outline, CHORD_MM).map((p) => carFromFlat(frame, p)),
      normal: frame.out,
      areaMm2: Math.abs(outlineArea(outline)),
    };
  });
}

/**
 * The panel folded up, as closed pieces that stand against each other: facets with their openings, bends in slices, flanges. Corners
 * are drawn sharp and relief holes closed. A crease between facets is drawn without its radius.
 */
export function panelSolid(layout: PanelLayout): readonly SolidPiece[] {
  const { facets, edges, flats, sheet } = layout;
  if (flats.length === 0) return [];
  const openings = openingsOf(layout);
  const t = sheet.thicknessMm;
  const webs = facets.map((facet) => {
    const polygon = edges.length === 0 ? facet.polygon : facetOutline(layout, facet);
    const outline = straightOutline(polygon);
    const own = openings.filter(({ middle }) => facetAt(facets, middle) === facet && isInOutline(outline, middle));
    return slab(
      polygon,
      own.map((opening) => outlinePoints(opening.outline, CHORD_MM)),
      (p, deep) => carFromFlat(facet.frame, p, deep),
      t,
    );
  });
  const strips = edges.flatMap((edge) =>
    [edge.strip, ...(edge.tabs ?? [])].flatMap((strip) =>
      strip === undefined ? [] : stripPieces(strip, facets[edge.facet]!.frame, openings, t),
    ),
  );
  return [...webs, ...strips];
}

/** The facet out to its overlaps or back to its tangent lines. */
function facetOutline({ edges, corners }: PanelLayout, facet: Facet): readonly Point2[] {
  const count = facet.ring.length;
  const side = (i: number) => {
    const [a, b] = [facet.polygon[i]!, facet.polygon[(i + 1) % count]!];
    const edge = edgeBetween(edges, corners.length, facet.ring[i]!, facet.ring[(i + 1) % count]!);
    return { line: movedOut(lineThrough(a, b), edge?.reachMm ?? 0), edge };
  };
  return facet.ring.flatMap((_, i): Point2[] => {
    const [last, next] = [side((i + count - 1) % count), side(i)];
    const at = crossing(last.line, next.line, facet.polygon[i]!);
    return [at, ...(next.edge?.curve?.slice(1, -1) ?? [])];
  });
}

/** Edge k runs from ring place k to the next; a side that is no edge is a crease. */
const edgeBetween = (edges: readonly LaidEdge[], count: number, from: number, to: number): LaidEdge | undefined =>
  (from + 1) % count === to ? edges[from] : undefined;

type Carry = (p: Point2, deepMm: number) => Vec;

/** A flat shape with openings, carried onto the car and given its thickness: closed. */
function slab(
  polygon: readonly Point2[],
  openings: readonly (readonly Point2[])[],
  carry: Carry,
  thicknessMm: number,
): SolidPiece {
  const loops = [polygon, ...openings.map((points) => clockwise(points))];
  const flat = loops.map((loop) => loop.flatMap(([x, y]) => [x, y]));
  const triangles = triangulated(flat[0]!, flat.slice(1));
  const all = loops.flat();
  const positions = new Float64Array([
    ...all.flatMap((p) => carry(p, 0)),
    ...all.flatMap((p) => carry(p, thicknessMm)),
  ]);
  const n = all.length;
  const indices: number[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [triangles[i]!, triangles[i + 1]!, triangles[i + 2]!];
    indices.push(a, b, c, n + a, n + c, n + b);
  }
  let start = 0;
  for (const loop of loops) {
    for (let i = 0; i < loop.length; i++) {
      const [a, b] = [start + i, start + ((i + 1) % loop.length)];
      indices.push(a, n + a, b, b, n + a, n + b);
    }
    start += loop.length;
  }
  return { positions, indices: new Uint32Array(indices) };
}

function clockwise(points: readonly Point2[]): readonly Point2[] {
  return outlineArea(straightOutline(points)) > 0 ? points.toReversed() : points;
}

/** Where a strip has got to, walking off the sheet: a point on the outside face, the way on, and out of the face. */
interface Walk {
  readonly at: Vec;
  readonly on: Vec;
  readonly out: Vec;
}

function stripPieces(
  strip: LaidStrip,
  frame: FlatFrame,
  openings: readonly Opening[],
  thicknessMm: number,
): SolidPiece[] {
  const along = directionInCar(frame, strip.base.along);
  const root = carFromFlat(frame, strip.base.at);
  let walk: Walk = { at: root, on: directionInCar(frame, rightOf(strip.base.along)), out: frame.out };
  let d = 0;
  const pieces: SolidPiece[] = [];
  for (const step of strip.steps) {
    const slices = step.kind === 'flat' ? 1 : Math.max(1, Math.ceil(step.turnDeg / SLICE_DEG));
    for (let i = 0; i < slices && stepLength(step) > 1e-9; i++) {
      const long = stepLength(step) / slices;
      const next =
        step.kind === 'flat'
          ? { ...walk, at: addScaled(walk.at, walk.on, long) }
          : bentWalk(walk, step, step.turnDeg / slices, thicknessMm);
      const [from, to] = [walk, next];
      const quad = [
        flankAt(strip, strip.start, d),
        flankAt(strip, strip.start, d + long),
        flankAt(strip, strip.end, d + long),
        flankAt(strip, strip.end, d),
      ];
      const d0 = d;
      const carry: Carry = (p, deep) => {
        const s = (p[0] - strip.base.at[0]) * strip.base.along[0] + (p[1] - strip.base.at[1]) * strip.base.along[1];
        const out = rightOf(strip.base.along);
        const share = ((p[0] - strip.base.at[0]) * out[0] + (p[1] - strip.base.at[1]) * out[1] - d0) / long;
        const face = (w: Walk) => addScaled(w.at, w.out, -deep);
        const [a, b] = [face(from), face(to)];
        return addScaled(
          [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share, a[2] + (b[2] - a[2]) * share],
          along,
          s,
        );
      };
      const shape = straightOutline(quad);
      const own = step.kind === 'flat' ? openings.filter(({ middle }) => isInOutline(shape, middle)) : [];
      pieces.push(
        slab(
          quad,
          own.map(({ outline }) => outlinePoints(outline, CHORD_MM)),
          carry,
          thicknessMm,
        ),
      );
      d += long;
      walk = next;
    }
  }
  return pieces;
}

const directionInCar = (frame: FlatFrame, p: Point2): Vec => addScaled(scale(frame.x, p[0]), frame.y, p[1]);

/** One slice of a bend further: round the middle of the bend, which lies on the side it is folded to. */
function bentWalk(
  walk: Walk,
  step: { readonly way: 'up' | 'down'; readonly radiusMm: number },
  turnDeg: number,
  thicknessMm: number,
): Walk {
  const turn = (turnDeg * Math.PI) / 180;
  const over = scale(walk.out, step.way === 'down' ? -1 : 1);
  const radius = step.way === 'down' ? step.radiusMm + thicknessMm : step.radiusMm;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const on = addScaled(scale(walk.on, c), over, s);
  const overNow = addScaled(scale(over, c), walk.on, -s);
  return {
    at: addScaled(addScaled(walk.at, walk.on, radius * s), over, radius * (1 - c)),
    on,
    out: scale(overNow, step.way === 'down' ? -1 : 1),
  };
}
