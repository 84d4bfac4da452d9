import { type Outline, type Point2, readyOutline } from '#geometry';
import { drillOfAtLeast, drills } from './drills.ts';
import { mostShare } from './tapered-field.ts';
import { windowField } from './window-field.ts';
import { fieldRules } from './window-rules.ts';
import type { KeepClear, WindowField, WindowSpec } from './window-spec.ts';

/** A panel that a common line runs through: the line in the panel's own flat axes, from where it enters to where it leaves. */
export interface PanelOnLine {
  readonly panel: string;
  readonly outline: Outline;
  readonly keepClear: readonly KeepClear[];
  /** Middle line of the row, in this panel's axes; the row runs from `from` to `to`, joint to joint. */
  readonly line: { readonly from: Point2; readonly to: Point2 };
}

/** The row as it falls on one panel. */
export interface RowOnPanel {
  readonly panel: string;
  readonly field?: WindowField;
  /** Way of the row on this panel's flat [rad]. */
  readonly turn?: number;
  /** Why there are none on this panel. */
  readonly why?: string;
}

/** What a row over several panels is asked to be: openings all alike, none across a joint. */
export interface RowSpec
  extends Pick<
    WindowSpec,
    'id' | 'shape' | 'thicknessMm' | 'webMm' | 'edgeMm' | 'cornerDrillMm' | 'meshShare' | 'drills' | 'outline'
  > {
  /** Openings in all; absent: as many as there is room for, trapezoids about as wide as high. */
  readonly count?: number;
  /** Height of the row across the line [mm]; round openings have it as their diameter, an outline of one's own has its own. */
  readonly highMm: number;
}

/**
 * A row of equal openings through neighbouring panels in one line: as wide as so many can be with a web between them and the
 * edge distance kept at every joint. A joint takes the place of a web, so no opening crosses one.
 */
export function rowThroughPanels(
  panels: readonly PanelOnLine[],
  spec: RowSpec,
): { readonly wideMm: number; readonly rows: readonly RowOnPanel[] } | { readonly why: string } {
  const rules = fieldRules(spec);
  const rooms = panels.map(({ line: { from, to } }) => Math.hypot(to[0] - from[0], to[1] - from[1]) - 2 * rules.edgeMm);
  const countsAt = (wide: number): number[] =>
    rooms.map((room) => Math.max(0, Math.floor((room + rules.webMm) / (wide + rules.webMm) + 1e-9)));
  const allAt = (wide: number): number => countsAt(wide).reduce((sum, n) => sum + n, 0);
  const least = leastWide(spec, rules.drillMm);
  const count = spec.count ?? allAt(spec.shape === 'trapezoid' ? Math.max(least, spec.highMm) : least);
  if (count === 0 || allAt(least) < count)
    return {
      why: `row ${spec.id}: ${spec.count ?? 'some'} openings wanted, ${allAt(least)} is the most between the joints`,
    };
  const most = Math.max(...rooms);
  // Wider openings are fewer: the widest at which there are still enough.
  const wideMm =
    spec.shape === 'trapezoid'
      ? least + (most - least) * mostShare((s) => allAt(least + s * (most - least)) >= count, 40)
      : least;
  let left = count;
  const rows = panels.map(({ panel, outline, keepClear, line }, i): RowOnPanel => {
    const n = Math.min(left, countsAt(wideMm)[i]!);
    if (n === 0) return { panel, why: 'no opening fits between its joints' };
    left -= n;
    const long = Math.hypot(line.to[0] - line.from[0], line.to[1] - line.from[1]);
    const wide = n * wideMm + (n - 1) * rules.webMm;
    const { highMm, ...rest } = spec;
    const answer = windowField(outline, keepClear, {
      ...rest,
      // A hole saw of the row's height, on every panel the same.
      ...(spec.shape === 'round' ? { cornerDrillMm: highMm } : {}),
      count: n,
      rows: 1,
      ends: 'square',
      along: line,
      centreAlongMm: long / 2,
      centreAcrossMm: 0,
      sizeMm: [wide, spec.shape === 'own' ? sizeOf(spec.outline ?? [])[1] + ROUNDING_MM : highMm],
    });
    const turn = Math.atan2(line.to[1] - line.from[1], line.to[0] - line.from[0]);
    return answer.ok ? { panel, field: answer.field, turn } : { panel, why: answer.why };
  });
  return { wideMm, rows };
}

/** An outline of one's own is held to its chords: its field is this much larger than it [mm]. */
const ROUNDING_MM = 0.05;

/** Points of a hexagon stand this much further apart than its flats: it stands on a point, and its corners are round. */
const HEXAGON = Math.sqrt(3) / 2;

/** How wide an opening is at the least; all but trapezoids are as wide as their shape has them [mm]. */
function leastWide(spec: RowSpec, drillMm: number): number {
  switch (spec.shape) {
    case 'trapezoid':
      return (drillOfAtLeast(drillMm, spec.drills ?? drills)?.mm ?? drillMm) + 1;
    case 'slot':
      return drillMm;
    case 'round':
      return spec.highMm;
    case 'hexagon':
      return HEXAGON * spec.highMm;
    case 'own':
      return sizeOf(spec.outline ?? [])[0] + ROUNDING_MM;
  }
}

function sizeOf(outline: Outline): readonly [number, number] {
  if (outline.length < 2) return [0, 0];
  const [x0, y0, x1, y1] = readyOutline(outline).box;
  return [x1 - x0, y1 - y0];
}
