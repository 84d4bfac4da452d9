import type { Panel } from '#car';
import { add, isInOutline, lerp, type Point2, readyOutline, scale, straightOutline, type Vec } from '#geometry';
import { sheetRule } from '#standards';
import { mm, type PanelFinding, placeOf } from '../finding.ts';
import type { Facet } from '../surface/facets.ts';
import { carFromFlat, flatFromCar } from '../surface/flat-frame.ts';
import type { PanelSurface } from '../surface/panel-surface.ts';
import { heightOn, type PanelScan } from './panel-scan.ts';

/** The scan is looked for no further than this from the sheet, square to it [mm]. */
const WITHIN_MM = 50;
/** About so far apart [mm], but never more than `MOST_STEPS` across. */
const STEP_MM = 15;
const MOST_STEPS = 31;

/** How far a scan leaves the surface that the corners of a sheet span. */
export interface Bow {
  /** Greatest, + out of the outside face [mm]. */
  readonly bowMm: number;
  /** On the scan. */
  readonly at: Vec;
  /** Places looked at, and those over or under which the scan was found. */
  readonly asked: number;
  readonly met: number;
}

/** The greatest bow of a scan between the corners; undefined where the scan is nowhere met. */
export function scanBow({ facets, corners }: PanelSurface, scan: PanelScan): Bow {
  let bow: Bow = { bowMm: 0, at: [0, 0, 0], asked: 0, met: 0 };
  for (const facet of facets) {
    const { out } = facet.frame;
    const at = facet.ring.map((k) => corners[k]!.at);
    for (const base of spanned(facet, at)) {
      const height = heightOn(scan, base, out, WITHIN_MM);
      bow = { ...bow, asked: bow.asked + 1, met: bow.met + (height === undefined ? 0 : 1) };
      if (height !== undefined && Math.abs(height) > Math.abs(bow.bowMm) + 1e-9)
        bow = { ...bow, bowMm: height, at: add(base, scale(out, height)) };
    }
  }
  return bow;
}

/**
 * Places in the middle of equal cells over a facet. Between four corners they lie on the ruled surface through all four, so that
 * a twist, which is told by itself, does not count as bow too; else in the facet's plane.
 */
function spanned({ polygon, frame }: Facet, corners: readonly Vec[]): Vec[] {
  const within = readyOutline(straightOutline(polygon));
  const isWithin = (at: Vec) => isInOutline(within, flatFromCar(frame, at));
  const longest = (pairs: readonly (readonly [Point2, Point2])[]) =>
    Math.max(...pairs.map(([a, b]) => Math.hypot(b[0] - a[0], b[1] - a[1])));
  if (corners.length === 4) {
    const [a, b, c, d] = corners as [Vec, Vec, Vec, Vec];
    const [p, q, r, s] = polygon as [Point2, Point2, Point2, Point2];
    const us = cells(
      longest([
        [p, q],
        [s, r],
      ]),
    );
    const vs = cells(
      longest([
        [q, r],
        [p, s],
      ]),
    );
    return us.flatMap((u) => vs.map((v) => lerp(lerp(a, b, u), lerp(d, c, u), v))).filter(isWithin);
  }
  const [xs, ys] = [polygon.map(([x]) => x), polygon.map(([, y]) => y)];
  const [x0, y0] = [Math.min(...xs), Math.min(...ys)];
  const [wide, high] = [Math.max(...xs) - x0, Math.max(...ys) - y0];
  return cells(wide)
    .flatMap((u) => cells(high).map((v) => carFromFlat(frame, [x0 + u * wide, y0 + v * high])))
    .filter(isWithin);
}

/** Middles of equal cells as shares of a length; an odd number of them, so that the middle itself is one. */
function cells(mmLong: number): number[] {
  const n = Math.min(MOST_STEPS, 2 * Math.floor(mmLong / STEP_MM / 2) + 1);
  return Array.from({ length: n }, (_, i) => (i + 0.5) / n);
}

/** Less of the sheet than this with scan over it: a bow may be missed. */
const ENOUGH = 0.5;

/** A bow that the fixings do not pull out; a scan that covers little of the sheet. */
export function bowFindings(panel: Panel, surface: PanelSurface, scan: PanelScan | undefined): readonly PanelFinding[] {
  if (scan === undefined || scan.meshes.length === 0) return [];
  const { bowMm, at, asked, met } = scanBow(surface, scan);
  const limit = sheetRule('twist-lies-flat');
  const about = { panel: panel.id, part: scan.part };
  const found: PanelFinding[] = [];
  if (Math.abs(bowMm) > limit.value)
    found.push({
      ...about,
      code: 'panel-bowed',
      level: 'fix',
      text: `${panel.id}: the scan of ${scan.part} stands ${mm(Math.abs(bowMm))} ${bowMm > 0 ? 'out of its outside face' : 'behind its outside face'} between its corners: a bow, or something that stands on it there`,
      value: Number(Math.abs(bowMm).toFixed(1)),
      limit: limit.value,
      unit: 'mm',
      source: limit.source,
      place: placeOf(at),
      cures: ['a corner more on the bow, and a crease to it', 'cut the sheet in two along the bow, with a lap'],
      inputs: [{ name: 'places of the sheet with scan over or under them', value: `${met} of ${asked}` }],
    });
  if (met < ENOUGH * asked)
    found.push({
      ...about,
      code: 'panel-scan-thin',
      level: 'note',
      text: `${panel.id}: only ${Math.round((100 * met) / asked)} % of it has the scan of ${scan.part} within ${mm(WITHIN_MM)}: a bow elsewhere is not seen`,
      value: Math.round((100 * met) / asked),
      limit: 100 * ENOUGH,
      unit: '%',
      source: 'geometry',
      cures: [`scan more of ${scan.part}`, 'lay a straight edge across it'],
    });
  return found;
}
