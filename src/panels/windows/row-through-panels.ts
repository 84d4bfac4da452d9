import type { Outline, Point2 } from '#geometry';
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
  /** Why there are none on this panel. */
  readonly why?: string;
}

/** What a row over several panels is asked to be: openings all alike, none across a joint. */
export interface RowSpec
  extends Pick<WindowSpec, 'id' | 'thicknessMm' | 'webMm' | 'edgeMm' | 'cornerDrillMm' | 'meshShare' | 'drills'> {
  readonly shape: 'trapezoid' | 'slot';
  /** Openings in all. */
  readonly count: number;
  /** Height of the row across the line [mm]. */
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
  const least =
    spec.shape === 'slot'
      ? rules.drillMm
      : (drillOfAtLeast(rules.drillMm, spec.drills ?? drills)?.mm ?? rules.drillMm) + 1;
  if (allAt(least) < spec.count)
    return { why: `row ${spec.id}: ${spec.count} openings wanted, ${allAt(least)} is the most between the joints` };
  const most = Math.max(...rooms);
  // Wider openings are fewer: the widest at which there are still enough.
  const wideMm =
    spec.shape === 'slot'
      ? least
      : least + (most - least) * mostShare((s) => allAt(least + s * (most - least)) >= spec.count, 40);
  let left = spec.count;
  const rows = panels.map(({ panel, outline, keepClear, line }, i): RowOnPanel => {
    const n = Math.min(left, countsAt(wideMm)[i]!);
    if (n === 0) return { panel, why: 'no opening fits between its joints' };
    left -= n;
    const long = Math.hypot(line.to[0] - line.from[0], line.to[1] - line.from[1]);
    const { highMm, ...rest } = spec;
    const answer = windowField(outline, keepClear, {
      ...rest,
      count: n,
      rows: 1,
      along: line,
      centreAlongMm: long / 2,
      centreAcrossMm: 0,
      sizeMm: [n * wideMm + (n - 1) * rules.webMm, highMm],
    });
    return answer.ok ? { panel, field: answer.field } : { panel, why: answer.why };
  });
  return { wideMm, rows };
}
