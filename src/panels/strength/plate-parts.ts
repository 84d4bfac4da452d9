import { isInOutline, type Outline, outlinePoints, type Point2, readyOutline, straightOutline } from '#geometry';
import type { PanelLayout } from '../layout.ts';

/** A flat plate that stands for a panel or a part of it: its outline, which of its sides are lips of a slit, the layout with what is open in it. */
export interface PlatePart {
  readonly web: Outline;
  readonly lips: readonly boolean[];
  readonly layout: PanelLayout;
}

/** What a panel is worked out as; where that is not the panel itself, in words. */
export interface PlateParts {
  readonly parts: readonly PlatePart[];
  readonly limits: readonly string[];
  /** A crease or slit changes how loads on its edges go through it: its buckling and stress in its plane are not those of flat sheet. */
  readonly isPlane: boolean;
}

/**
 * Up to here a creased sheet is a shallow one: the square of its slope, half the turn to either side of the plane between, is under a
 * thirtieth of 1. Source: common-practice.
 */
const SHALLOW_DEG = 20;
/** A side this near to a slit is a lip of it [mm]. */
const ON_SLIT_MM = 0.5;
/** Arcs of a panel that is cut become chords within this [mm]. */
const CHORDS_MM = 0.2;

/**
 * A panel as flat plates. A shallow crease: the sheet laid flat, which is no stiffer (in a shallow shell the energy of what it does in
 * its plane, never less than 0, comes to that of the same bending). A relief: its two sides as sheets of their own, the slit open right
 * through to the far corner and its lips free; a plate that is cut further is no stiffer either.
 *
 * Source: plate-theory.
 */
export function plateParts(layout: PanelLayout, web: Outline): PlateParts | { readonly why: string } {
  const { creases, flats } = layout;
  const slits = flats[0]?.slits ?? [];
  if (creases.length === 0) return { parts: [partOf(layout, web, [])], limits: [], isPlane: true };
  const steep = creases.toSorted((a, b) => b.turnDeg - a.turnDeg)[0]!;
  if (creases.length > slits.length && steep.turnDeg > SHALLOW_DEG)
    return {
      why: `it has a crease of ${Math.round(steep.turnDeg)} degrees, and up to ${SHALLOW_DEG} it can be taken as flat`,
    };
  const lines = slits.map(({ from, to }) => [from, to] as const);
  const cut = lines.reduce((webs, line) => webs.flatMap((one) => cutAlong(one, line)), [web]);
  if (cut.some((part) => part.length < 3)) return { why: 'its slit leaves nothing on one side' };
  const parts = cut.map((part) => partOf(layout, part, lines));
  const kept = parts.reduce((sum, part) => sum + openingsOf(part.layout), 0);
  if (kept < openingsOf(layout)) return { why: 'a window lies across its slit' };
  return {
    parts,
    limits: [
      ...(creases.length > slits.length
        ? [
            `creased by ${steep.turnDeg.toFixed(1)} degrees and worked out as if it lay flat: its own frequency is that or higher; what the crease carries along itself is not in its stress; test it`,
          ]
        : []),
      ...(slits.length > 0
        ? [
            'worked out as if its slit went right through to the far corner: its own frequency is that or higher, and it gives less; the stress at the end of the slit is not in it; test it',
          ]
        : []),
    ],
    isPlane: false,
  };
}

const openingsOf = ({ windows }: PanelLayout): number =>
  windows.reduce((sum, { openings }) => sum + openings.length, 0);

type Line = readonly [Point2, Point2];

/** A part with the windows and holes that lie in it. */
function partOf(layout: PanelLayout, web: Outline, slits: readonly Line[]): PlatePart {
  const ready = readyOutline(web);
  const points = web.map(({ at }) => at);
  const lips = points.map((a, i) => {
    const b = points[(i + 1) % points.length]!;
    return slits.some(([p, q]) => [a, b].every((end) => Math.abs(offLine(end, p, q)) < ON_SLIT_MM));
  });
  if (slits.length === 0) return { web, lips, layout };
  return {
    web,
    lips,
    layout: {
      ...layout,
      windows: layout.windows.map((field) => ({
        ...field,
        openings: field.openings.filter(({ outline }) =>
          outlinePoints(outline, 1).every((at) => isInOutline(ready, at)),
        ),
      })),
      holes: layout.holes.filter(({ at }) => isInOutline(ready, at)),
    },
  };
}

/** How far a point lies to the left of the line from p to q [mm]. */
const offLine = ([x, y]: Point2, [px, py]: Point2, [qx, qy]: Point2): number =>
  ((qx - px) * (y - py) - (qy - py) * (x - px)) / Math.hypot(qx - px, qy - py);

/** Both sides of a polygon that a line cuts, the left one first; what lies wholly on one side stays one. */
function cutAlong(outline: Outline, [p, q]: Line): Outline[] {
  const points = outline.some(({ bulge = 0 }) => bulge !== 0)
    ? outlinePoints(outline, CHORDS_MM)
    : outline.map(({ at }) => at);
  const sides = ([1, -1] as const).map((sign) => {
    const off = (at: Point2): number => sign * offLine(at, p, q);
    return points.flatMap((a, i): Point2[] => {
      const b = points[(i + 1) % points.length]!;
      const [da, db] = [off(a), off(b)];
      const share = da / (da - db);
      const between: Point2[] = da * db < 0 ? [[a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])]] : [];
      return [...(da >= 0 ? [a] : []), ...between];
    });
  });
  const whole = sides.filter((side) => side.length >= 3);
  return whole.length < 2 ? [outline] : whole.map((side) => straightOutline(withoutTwins(side)));
}

/** Corners nearer together than a mesh can tell apart, once. */
const withoutTwins = (points: readonly Point2[]): Point2[] =>
  points.filter((at, i) => {
    const before = points[(i + points.length - 1) % points.length]!;
    return Math.hypot(at[0] - before[0], at[1] - before[1]) > ON_SLIT_MM;
  });
