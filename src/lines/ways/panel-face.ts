import { type Solid, type Vec, addScaled, cross, dot, perpendicular, scale, sub, unit } from '#geometry';
import { type PanelFlat, panelFlat } from './panel-flat.ts';

/** A place in the middle of a panel's sheet, and the panel's normal there, to the side of the flat's own. */
export interface PanelPlace {
  readonly at: Vec;
  readonly normal: Vec;
}

/** A panel as places on it: `p` and `q` are lengths along the two directions of its flat from its centre [mm]. */
export interface PanelFace {
  readonly flat: PanelFlat;
  readonly halfThicknessMm: number;
  /** Null where there is no sheet, or none thin enough for a hole. */
  placeAt(p: number, q: number): PanelPlace | null;
  /** Where on the flat a place lies. */
  coordinates(at: Vec): readonly [p: number, q: number];
  /** The panel goes on all round the place, so far. */
  goesOn(place: PanelPlace, radiusMm: number): boolean;
}

/** A box along the axes is its own flat; of any other solid the sheet is felt for, and its normal is the one it has there. */
export function panelFace(solid: Solid): PanelFace {
  const flat = panelFlat(solid);
  const coordinates = (at: Vec): readonly [number, number] => {
    const off = sub(at, flat.centre);
    return [dot(off, flat.u), dot(off, flat.v)];
  };
  return isPlain(solid, flat) ? { ...plainFace(flat), coordinates } : { ...feltFace(solid, flat), coordinates };
}

function isPlain(solid: Solid, { centre, u, v, halfU, halfV }: PanelFlat): boolean {
  const corner = addScaled(addScaled(centre, u, halfU), v, halfV);
  return solid.kind === 'box' && solid.distance(...corner) < TOUCH_MM;
}

function plainFace(flat: PanelFlat): Omit<PanelFace, 'coordinates'> {
  const { centre, normal, u, v, halfU, halfV } = flat;
  return {
    flat,
    halfThicknessMm: flat.halfThickness,
    placeAt: (p, q) =>
      Math.abs(p) > halfU || Math.abs(q) > halfV ? null : { at: addScaled(addScaled(centre, u, p), v, q), normal },
    goesOn: ({ at }, radiusMm) => {
      const off = sub(at, centre);
      return Math.abs(dot(off, u)) <= halfU - radiusMm && Math.abs(dot(off, v)) <= halfV - radiusMm;
    },
  };
}

/** A surface is met within this [mm]. */
const TOUCH_MM = 0.02;
const STEPS = 200;
/** A sheet thicker than this has no hole drilled in it for a fitting [mm]: the catalogue's bulkhead fittings hold 10. */
const SHEET_MM = 12;
/** Off the sheet by this its normal is read [mm]. */
const OFF_MM = 1.5;
/** Looked at all round at so many places. */
const LOOKS = 8;

function feltFace(solid: Solid, flat: PanelFlat): Omit<PanelFace, 'coordinates'> {
  const { centre, normal, u, v } = flat;
  const { min, max } = solid.bounds;
  const reach = Math.hypot(max[0] - min[0], max[1] - min[1], max[2] - min[2]);
  /** How far along a ray the surface is met; null where it is not. */
  const met = (from: Vec, along: Vec, mostMm: number): number | null => {
    let s = 0;
    for (let n = 0; n < STEPS && s <= mostMm; n++) {
      const d = solid.distance(...addScaled(from, along, s));
      if (d < TOUCH_MM) return s;
      s += d;
    }
    return null;
  };
  const placeAt = (p: number, q: number): PanelPlace | null => {
    const base = addScaled(addScaled(centre, u, p), v, q);
    const above = met(addScaled(base, normal, reach), scale(normal, -1), 2 * reach);
    const below = met(addScaled(base, normal, -reach), normal, 2 * reach);
    if (above === null || below === null) return null;
    const top = addScaled(base, normal, reach - above);
    const feel = addScaled(top, normal, OFF_MM);
    const off = sub(feel, solid.closest(...feel).point);
    const local = Math.hypot(...off) < TOUCH_MM ? normal : unit(off);
    const thickMm = (2 * reach - above - below) * Math.abs(dot(local, normal));
    return thickMm > SHEET_MM ? null : { at: addScaled(top, local, -thickMm / 2), normal: local };
  };
  return {
    flat,
    halfThicknessMm: SHEET_MM / 2,
    placeAt,
    goesOn: (place, radiusMm) => {
      const a = perpendicular(place.normal);
      const b = cross(place.normal, a);
      // The sheet may bend away from the tangent plane by half the radius, no more.
      const rise = radiusMm / 2 + SHEET_MM;
      return Array.from({ length: LOOKS }, (_, n) => (2 * Math.PI * n) / LOOKS).every((angle) => {
        const ring = addScaled(addScaled(place.at, a, radiusMm * Math.cos(angle)), b, radiusMm * Math.sin(angle));
        return met(addScaled(ring, place.normal, rise), scale(place.normal, -1), 2 * rise) !== null;
      });
    },
  };
}
