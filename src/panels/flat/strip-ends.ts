import { addScaled, cross, dot, norm, scale, unit, type Point2, type Vec } from '#geometry';
import { sheetRule } from '#standards';
import type { FlatFrame } from '../surface/flat-frame.ts';
import { cross2, crossing, dot2, type FlatLine, minus, movedOut, plus, rightOf } from './lines.ts';
import type { Strip } from './strip.ts';

/** A side as its corner sees it. */
export interface Side {
  /** The measured edge, in ring order. */
  readonly line: FlatLine;
  /** How far the sheet reaches beyond it, - set back [mm]. */
  readonly reachMm: number;
  readonly strip?: Strip;
  /** Relief hole that the builder has for it [mm]. */
  readonly reliefMm?: number;
  readonly frame: FlatFrame;
}

/** A corner of the flat: where the two sides' sheet lines cross, and the flanks of what stands beyond them. */
export interface CornerCut {
  readonly at: Point2;
  /** Flank of the side that ends here and of the one that begins here, from the crossing outwards. */
  readonly end?: readonly Point2[];
  readonly start?: readonly Point2[];
  /** Relief hole where two bends meet, and the least that it should be [mm]. */
  readonly reliefMm?: number;
  readonly reliefLeastMm?: number;
}

/** Between two folded flanges at a corner, so that they go together without a file [mm]. */
const MITRE_GAP_MM = 0.5;
/** Flanges nearer to one plane than this are cut along the middle between them [sine]. */
const ONE_PLANE = 0.05;

/** How the flat is cut at the corner `by` between the side that ends there and the one that begins there. */
export function cornerCut(by: Point2, last: Side, next: Side, thicknessMm: number): CornerCut {
  const [a, b] = [last, next].map(({ line, reachMm }) => movedOut(line, reachMm)) as [FlatLine, FlatLine];
  const at = crossing(a, b, by);
  if (last.strip === undefined && next.strip === undefined) return { at };
  const turn = Math.atan2(cross2(a.along, b.along), dot2(a.along, b.along));
  const mitre = last.strip && next.strip && flangeMitre(last, next, thicknessMm);
  const flank = (base: FlatLine, strip: Strip, sign: 1 | -1) => {
    const own = dot2(minus(at, base.at), base.along);
    const corner = dot2(minus(by, base.at), base.along);
    const other = sign === 1 ? next : last;
    const first = strip.steps[0]!;
    const bendMm = first.kind === 'bend' ? first.allowanceMm : 0;
    const along = (d: number): number => {
      // Beyond a neighbour without a strip the flank goes out square; two strips share the room between them.
      const share = other.strip === undefined ? Infinity : d * Math.tan(turn / 2) - MITRE_GAP_MM / 2;
      const square = other.strip === undefined || mitre === undefined ? 0 : Infinity;
      const cut = mitre?.[sign === 1 ? 'last' : 'next'];
      const folded =
        cut === undefined ? Infinity : sign * (corner - own) + cut.slope * (d - bendMm + strip.setbackMm) - cut.trimMm;
      return own + sign * Math.min(share, square, folded);
    };
    return [
      at,
      ...[bendMm, strip.reachMm].map((d) => plus(plus(base.at, base.along, along(d)), rightOf(base.along), d)),
    ];
  };
  return {
    at,
    ...(last.strip === undefined ? {} : { end: flank(a, last.strip, 1) }),
    ...(next.strip === undefined ? {} : { start: flank(b, next.strip, -1) }),
    ...(last.strip === undefined || next.strip === undefined
      ? {}
      : reliefs(last, next, reliefDiameter([last.strip, next.strip], thicknessMm))),
  };
}

/** The builder's own relief, the larger of what both sides say; else the least by rule. */
function reliefs(last: Side, next: Side, reliefLeastMm: number): Pick<CornerCut, 'reliefMm' | 'reliefLeastMm'> {
  const own = Math.max(last.reliefMm ?? 0, next.reliefMm ?? 0);
  return { reliefMm: own > 0 ? own : reliefLeastMm, reliefLeastMm };
}

/** Relief where bends meet: by thickness, and not less than two inside radii. */
function reliefDiameter(strips: readonly Strip[], thicknessMm: number): number {
  const least = sheetRule(thicknessMm <= sheetRule('relief-thin-to').value ? 'relief-thin' : 'relief-thick').value;
  const radii = strips.flatMap(({ steps }) => steps.flatMap((step) => (step.kind === 'bend' ? [step.radiusMm] : [])));
  return Math.max(least, sheetRule('relief-radii').value * Math.max(...radii));
}

interface Cut {
  /** How much further out along the edge the flank lies per millimetre of height. */
  readonly slope: number;
  readonly trimMm: number;
}

/** Two flanges folded the same way meet in a line: each is cut back to it by what the other's thickness takes. */
function flangeMitre(last: Side, next: Side, thicknessMm: number): { last: Cut; next: Cut } | undefined {
  const [one, two] = [folded(last, -1), folded(next, 1)];
  if (one === undefined || two === undefined || one.way !== two.way) return undefined;
  const meet = cross(cross(one.along, one.up), cross(two.along, two.up));
  const both = addScaled(one.up, two.up, 1);
  const inOnePlane = norm(meet) < ONE_PLANE;
  const line = inOnePlane ? unit(both) : unit(scale(meet, Math.sign(dot(meet, both)) || 1));
  if (dot(line, one.up) < ONE_PLANE || dot(line, two.up) < ONE_PLANE) return undefined;
  const inner = [one, two].map(({ into }) => unit(addScaled(into, line, -dot(into, line)))) as [Vec, Vec];
  const between = Math.acos(Math.min(1, Math.max(-1, dot(inner[0], inner[1]))));
  // Only where the metal lies inside the angle does one flange's thickness stand in the other's way.
  const metalInside = !inOnePlane && dot(one.face, inner[1]) < 0;
  const trim = (metalInside ? thicknessMm / Math.tan(between / 2) : 0) + MITRE_GAP_MM / 2;
  const cut = ({ along, up, into }: FoldedSide): Cut => ({
    // Outwards along the edge: against the way into the flange.
    slope: (dot(line, along) / dot(line, up)) * -Math.sign(dot(into, along)),
    trimMm: trim / Math.sqrt(Math.max(1e-6, 1 - dot(line, along) ** 2)),
  });
  return { last: cut(one), next: cut(two) };
}

interface FoldedSide {
  readonly way: 'up' | 'down';
  readonly along: Vec;
  /** From the corner into the flange, along the edge. */
  readonly into: Vec;
  /** Up the convex face of the flange. */
  readonly up: Vec;
  /** Out of its convex face. */
  readonly face: Vec;
}

function folded({ line, strip, frame }: Side, sign: 1 | -1): FoldedSide | undefined {
  const bend = strip?.kind === 'flange' ? strip.steps[0] : undefined;
  if (bend?.kind !== 'bend') return undefined;
  const inCar = (p: Point2): Vec => addScaled(scale(frame.x, p[0]), frame.y, p[1]);
  const along = inCar(line.along);
  const out = inCar(rightOf(line.along));
  const turn = (bend.turnDeg * Math.PI) / 180;
  // The way the flange is folded, and the face that becomes convex.
  const over = scale(frame.out, bend.way === 'down' ? -1 : 1);
  return {
    way: bend.way,
    along,
    into: scale(along, sign),
    up: addScaled(scale(out, Math.cos(turn)), over, Math.sin(turn)),
    face: addScaled(scale(out, Math.sin(turn)), over, -Math.cos(turn)),
  };
}
