import { depthInOutline, distance, isInOutline, lerp, readyOutline, straightOutline, type Vec } from '#geometry';
import { mm, type PanelFinding, placeOf } from '../finding.ts';
import type { PanelLayout } from '../layout.ts';
import { slotOutline } from '../slot-outline.ts';
import { flatFromCar, heightOver } from '../surface/flat-frame.ts';
import type { Facet } from '../surface/facets.ts';

/** Two panels whose sheets go through each other. */
export interface PanelThrough {
  readonly panel: PanelLayout;
  /** The one that the lesser piece of the two comes through. */
  readonly other: PanelLayout;
  readonly from: Vec;
  readonly to: Vec;
  /** How far that piece comes out at its most [mm]. */
  readonly deepMm: number;
}

/** Shorter than this two sheets touch at a corner [mm]. */
const LEAST_MM = 10;
/** A side that runs along a side counts as in it [mm]. */
const ON_SIDE_MM = 0.1;
const STATIONS = 40;
const USUAL_MM = 3;

/** Panels of which a piece comes out of the other side of another one: more than both are known to. */
export function panelsThrough(layouts: readonly PanelLayout[]): readonly PanelThrough[] {
  return layouts.flatMap((a, i) =>
    layouts.slice(i + 1).flatMap((b): PanelThrough[] => {
      if (a.panel.id === b.panel.id) return [];
      const doubt = Math.hypot(a.panel.knownToMm ?? USUAL_MM, b.panel.knownToMm ?? USUAL_MM);
      const found = a.facets.flatMap((one) => b.facets.flatMap((two) => through([a, one], [b, two])));
      const deepest = found.reduce<PanelThrough | undefined>(
        (most, next) => (most === undefined || next.deepMm > most.deepMm ? next : most),
        undefined,
      );
      return deepest === undefined || deepest.deepMm <= doubt ? [] : [deepest];
    }),
  );
}

type Placed = readonly [PanelLayout, Facet];

function through(a: Placed, b: Placed): PanelThrough[] {
  const ends = [...piercings(a[1], b[1]), ...piercings(b[1], a[1])];
  if (ends.length < 2) return [];
  const pairs = ends.flatMap((from, i) => ends.slice(i + 1).map((to) => ({ from, to })));
  const { from, to } = pairs.reduce((p, q) => (distance(q.from, q.to) > distance(p.from, p.to) ? q : p));
  const metal = Array.from({ length: STATIONS }, (_, i) => lerp(from, to, (i + 0.5) / STATIONS)).filter((at) =>
    [a, b].every((one) => isMetal(one, at)),
  );
  if ((metal.length * distance(from, to)) / STATIONS < LEAST_MM) return [];
  const [deepA, deepB] = [comesOut(a[1], b[1]), comesOut(b[1], a[1])];
  return [
    deepA <= deepB
      ? { panel: a[0], other: b[0], from, to, deepMm: deepA }
      : { panel: b[0], other: a[0], from, to, deepMm: deepB },
  ];
}

/** Where the sides of one facet go through another. */
function piercings(facet: Facet, other: Facet): Vec[] {
  const corners = cornersOf(facet);
  const outline = readyOutline(straightOutline(other.polygon));
  return corners.flatMap((from, i) => {
    const to = corners[(i + 1) % corners.length]!;
    const [a, b] = [heightOver(other.frame, from), heightOver(other.frame, to)];
    if (a > 0 === b > 0) return [];
    const at = lerp(from, to, a / (a - b));
    return depthInOutline(outline, flatFromCar(other.frame, at)) > -ON_SIDE_MM ? [at] : [];
  });
}

const cornersOf = ({ polygon, frame }: Facet): Vec[] =>
  polygon.map(([u, v]) => [0, 1, 2].map((k) => frame.origin[k]! + frame.x[k]! * u + frame.y[k]! * v) as unknown as Vec);

/** The lesser of what stands on either side of the other's plane [mm]. */
function comesOut(facet: Facet, other: Facet): number {
  const heights = cornersOf(facet).map((at) => heightOver(other.frame, at));
  return Math.min(Math.max(...heights), -Math.min(...heights));
}

/** Not where a window, a hole or a slot of it lets the other one through. */
function isMetal([{ flats, facets }, facet]: Placed, at: Vec): boolean {
  const [flat] = flats;
  const p = flatFromCar(facet.frame, at);
  if (flat === undefined || facets.length === 0) return false;
  return (
    !flat.cutOuts.some(({ outline }) => isInOutline(outline, p)) &&
    !flat.slots.some((slot) => isInOutline(slotOutline(slot), p)) &&
    !flat.holes.some((hole) => Math.hypot(hole.at[0] - p[0], hole.at[1] - p[1]) < hole.diameterMm / 2)
  );
}

export function throughFindings(layouts: readonly PanelLayout[]): readonly PanelFinding[] {
  return panelsThrough(layouts).map(({ panel: { panel }, other, from, to, deepMm }): PanelFinding => {
    const words = [from, to].map((at) => placeOf(at).map(Math.round).join(', '));
    return {
      code: 'panel-through-panel',
      level: 'stop',
      panel: panel.id,
      part: other.panel.id,
      text: `${panel.id}: goes through ${other.panel.id} over ${mm(distance(from, to))}, from ${words.join(' to ')}; ${mm(deepMm)} of it comes out at the most`,
      value: Number(deepMm.toFixed(1)),
      limit: 0,
      unit: 'mm',
      source: 'geometry',
      place: placeOf(lerp(from, to, 0.5)),
      cures: [
        `trim ${panel.id} along that line`,
        `move the corners of ${panel.id} that stand out of ${other.panel.id} in by ${mm(Math.ceil(deepMm))}`,
        `a slot in ${other.panel.id} along that line`,
      ],
    };
  });
}
