import { type Outline, outlineArea, scaledOutline } from '#geometry';
import { drillOfAtLeast, drillOfAtMost, drillOfSize, drills } from './drills.ts';
import { type FieldQuad, quadLength, quadMiddle, scaledQuad } from './field-quad.ts';
import { drilledOutline } from './own-outline.ts';
import { mostShare } from './tapered-field.ts';
import { type Cell, type Division, slotCells, trapezoidArea, trapezoidCells, usualCount } from './window-cells.ts';
import {
  hexagonStamp,
  latticeCells,
  type LatticeFit,
  latticeNumber,
  latticeOf,
  mostOfStamp,
  ownStamp,
  roundStamp,
  type Stamp,
} from './window-lattice.ts';
import type { FieldRules } from './window-rules.ts';
import type { WindowSpec } from './window-spec.ts';

/** Openings that fill a field, and how it was divided. */
export interface Divided {
  readonly cells: readonly Cell[];
  readonly count: number;
  readonly rows: number;
  readonly drillMm: number;
  readonly notes: readonly string[];
  /** The same division with this area of openings in all [mm2], no larger than they are now; absent where their size is fixed. */
  readonly ofArea?: (wantedMm2: number) => OfArea | undefined;
}

/** Openings brought to an area; what they are sawn with and the notes where those are others then. */
export interface OfArea {
  readonly cells: readonly Cell[];
  readonly quad: FieldQuad;
  readonly drillMm?: number;
  readonly notes?: readonly string[];
}

/** Divides a field as its spec says, numbers that it leaves open chosen; a why where not one opening fits. */
export function dividedField(quad: FieldQuad, spec: WindowSpec, rules: FieldRules): Divided | { readonly why: string } {
  if (spec.shape === 'trapezoid' || spec.shape === 'slot') return dividedAcross(quad, spec, rules, spec.shape);
  if (spec.shape === 'own') return ownField(quad, spec, rules);
  return grownLattice(quad, spec, rules, spec.shape);
}

function dividedAcross(
  quad: FieldQuad,
  spec: WindowSpec,
  rules: FieldRules,
  shape: 'trapezoid' | 'slot',
): Divided | { readonly why: string } {
  const rows = spec.rows ?? 1;
  const count = spec.count ?? usualCount(shape, quad, rows, rules.webMm, rules.drillMm);
  const division: Division = { count, rows, webMm: rules.webMm, drillMm: rules.drillMm };
  const cellsOf = (of: FieldQuad): Cell[] | undefined =>
    shape === 'slot' ? slotCells(of, division) : trapezoidCells(of, division);
  const cells = cellsOf(quad);
  if (cells === undefined)
    return {
      why: `${count} x ${rows} openings with webs of ${rules.webMm.toFixed(1)} mm leave none large enough for its ${rules.drillMm.toFixed(1)} mm corner drill`,
    };
  const ofArea: Divided['ofArea'] = (wanted) => {
    const at = (times: number): FieldQuad => scaledQuad(quad, quadMiddle(quad), times);
    const areaOf = (of: FieldQuad): number =>
      shape === 'slot' ? openOf(slotCells(of, division)) : trapezoidArea(of, division);
    const times = shareOfArea((s) => areaOf(at(s)), wanted);
    const found = cellsOf(at(times));
    return found && { cells: found, quad: at(times) };
  };
  return { cells, count, rows, drillMm: rules.drillMm, notes: [], ofArea };
}

/** The stamp of a size; undefined where its corners don't fit it. */
const stampOf = (shape: 'round' | 'hexagon', size: number, rules: FieldRules): Stamp | undefined =>
  shape === 'round' ? roundStamp(size, rules.webMm) : hexagonStamp(size, rules.webMm, rules.drillMm);

/** Round or hexagon openings as large as so many can be; a hole saw that exists where the size is free. */
function grownLattice(
  quad: FieldQuad,
  spec: WindowSpec,
  rules: FieldRules,
  shape: 'round' | 'hexagon',
): Divided | { readonly why: string } {
  const fixed = shape === 'round' ? spec.cornerDrillMm : undefined;
  const least = shape === 'round' ? 1 : rules.drillMm;
  const span = Math.max(quadLength(quad), 1);
  const largest =
    span *
    mostShare((share) => {
      const stamp = share * span <= least ? undefined : stampOf(shape, share * span, rules);
      return stamp !== undefined && latticeOf(quad, stamp, spec.count, spec.rows ?? 1) !== undefined;
    }, 40);
  let size = fixed ?? largest;
  const isSawn = shape === 'round' && fixed === undefined && spec.freeMm2 === undefined;
  if (isSawn) size = drillOfAtMost(size, spec.drills ?? drills)?.mm ?? size;
  const stamp = size <= least ? undefined : stampOf(shape, size, rules);
  const fit =
    stamp === undefined
      ? undefined
      : mostOfStamp(quad, stamp, spec.count, spec.rows ?? (fixed === undefined ? 1 : undefined));
  if (stamp === undefined || fit === undefined)
    return { why: `no ${shape} opening of ${Math.max(size, least).toFixed(1)} mm fits between its webs and edges` };
  const ofArea: Divided['ofArea'] = (wanted) => {
    const at = (share: number): Stamp | undefined =>
      share * size <= least ? undefined : stampOf(shape, share * size, rules);
    const found = stampsOfArea(quad, at, fit, wanted);
    if (found === undefined || shape !== 'round') return found;
    // A round one is as large as what it is sawn with.
    const drillMm = 2 * Math.sqrt(found.cells[0]!.areaMm2 / Math.PI);
    return { ...found, drillMm, notes: sawNotes(quad, fit, drillMm, rules, spec) };
  };
  const cells = latticeCells(quad, stamp, fit)!;
  const notes = shape === 'round' ? sawNotes(quad, fit, size, rules, spec) : [];
  return {
    cells,
    ...fit,
    drillMm: shape === 'round' ? size : rules.drillMm,
    notes,
    ...(fixed === undefined ? { ofArea } : {}),
  };
}

/** Where no hole saw has that size: the next that does, and what is open with it; the next smaller one where there is no room. */
function sawNotes(quad: FieldQuad, fit: LatticeFit, sizeMm: number, rules: FieldRules, spec: WindowSpec): string[] {
  const stock = spec.drills ?? drills;
  if (drillOfSize(sizeMm, stock) !== undefined) return [];
  const openWith = (saw: { readonly mm: number } | undefined): string[] => {
    const cells = saw && latticeCells(quad, roundStamp(saw.mm, rules.webMm), fit);
    if (cells === undefined) return [];
    return [
      `with one of ${Number(saw!.mm.toFixed(1))} mm ${((openOf(cells) * (spec.meshShare ?? 1)) / 100).toFixed(1)} cm2 are free`,
    ];
  };
  const [first] = [...openWith(drillOfAtLeast(sizeMm, stock)), ...openWith(drillOfAtMost(sizeMm, stock))];
  return [`no usual hole saw is ${sizeMm.toFixed(1)} mm${first === undefined ? '' : `: ${first}`}`];
}

/** Openings of one's own outline: at its own size, or scaled where an area is asked for. */
function ownField(quad: FieldQuad, spec: WindowSpec, rules: FieldRules): Divided | { readonly why: string } {
  const outline = spec.outline ?? [];
  if (outline.length < 2) return { why: 'a window of shape own has no outline' };
  const stamp = ownStamp(outline, 1, rules.webMm, rules.drillMm);
  const fit = mostOfStamp(quad, stamp, spec.count, spec.rows);
  if (spec.freeMm2 === undefined) {
    if (fit === undefined) return { why: 'not one opening of this outline fits between its webs and edges' };
    return {
      cells: latticeCells(quad, stamp, fit)!,
      ...fit,
      drillMm: rules.drillMm,
      notes: sharpNotes(outline, 1, rules),
    };
  }
  // As many as at its own size, as large as so many can be.
  const [count, rows] = fit === undefined ? [spec.count ?? 1, spec.rows ?? 1] : [fit.count, fit.rows];
  const fitAt = (times: number): LatticeFit | undefined =>
    times > 0 ? latticeOf(quad, ownStamp(outline, times, rules.webMm, rules.drillMm), count, rows) : undefined;
  const largest = OWN_LARGEST * mostShare((share) => fitAt(OWN_LARGEST * share) !== undefined, 30);
  const division = largest === 0 ? undefined : fitAt(largest);
  if (division === undefined) return { why: 'not one opening of this outline fits between its webs and edges' };
  const cells = latticeCells(quad, ownStamp(outline, largest, rules.webMm, rules.drillMm), division)!;
  const ofArea: Divided['ofArea'] = (wanted) => {
    // Round corners take a larger share of a smaller one: somewhat more than as the areas are.
    const share = Math.min(1, OWN_MORE * Math.sqrt(wanted / openOf(cells)));
    return stampsOfArea(
      quad,
      (s) => ownStamp(outline, largest * share * s, rules.webMm, rules.drillMm),
      division,
      wanted,
    );
  };
  return { cells, ...division, drillMm: rules.drillMm, notes: sharpNotes(outline, largest, rules), ofArea };
}

/** An area is met within this share: far below what a saw cuts. */
const AREA_WITHIN = 1e-7;
const MOST_STEPS = 60;

/**
 * The share of 0 to 1 at which openings that grow with it have an area, by the secant between the two nearest (regula falsi, the end
 * that stays halved, as the Illinois rule has it). Every third step halves: below some share there are no openings, and the area jumps.
 */
function shareOfArea(areaAt: (share: number) => number, wanted: number): number {
  if (areaAt(1) <= wanted) return 1;
  let [low, high] = [0, 1];
  let [under, over] = [-wanted, areaAt(1) - wanted];
  for (let k = 1; k <= MOST_STEPS && high - low > 1e-15; k++) {
    const s = k % 3 === 0 ? (low + high) / 2 : low + ((high - low) * under) / (under - over);
    const off = areaAt(s) - wanted;
    if (Math.abs(off) <= AREA_WITHIN * wanted) return s;
    if (off < 0) {
      [low, under] = [s, off];
      over /= 2;
    } else {
      [high, over] = [s, off];
      under /= 2;
    }
  }
  return low;
}

export const openOf = (cells: readonly Cell[] | undefined): number =>
  cells === undefined ? 0 : cells.reduce((sum, { areaMm2 }) => sum + areaMm2, 0);

/** A lattice of the stamp that has the area asked for: the stamp by a share of its largest size. */
function stampsOfArea(
  quad: FieldQuad,
  stampAt: (share: number) => Stamp | undefined,
  division: LatticeFit,
  wanted: number,
): OfArea | undefined {
  const whole = stampAt(1);
  if (whole === undefined) return undefined;
  const n = latticeNumber(whole, division);
  const areaAt = (share: number): number => {
    const stamp = share === 0 ? undefined : stampAt(share);
    return stamp === undefined ? 0 : n * outlineArea(stamp.outline);
  };
  const share = areaAt(1) <= wanted * (1 + 1e-9) ? 1 : shareOfArea(areaAt, wanted);
  const stamp = share === 0 ? undefined : stampAt(share);
  const cells = stamp && latticeCells(quad, stamp, division);
  return cells && { cells, quad };
}

/** Enough for corners that take a third of an opening. */
const OWN_MORE = 1.25;

/** Corners of an outline of one's own that its sides leave no room to drill. */
function sharpNotes(outline: Outline, times: number, { drillMm }: FieldRules): string[] {
  const { sharp } = drilledOutline(scaledOutline(outline, times), drillMm / 2);
  return sharp === 0
    ? []
    : [`its corners stay sharp, and crack: no side is long enough for a ${drillMm.toFixed(1)} mm drill`];
}

/** An outline of one's own is not made larger than this many times what was drawn. */
const OWN_LARGEST = 20;
