import type { PanelWindow } from '#car';
import { addScaled, dot, norm, type Point2, sideCrossings, readyOutline, sub, unit, type Vec } from '#geometry';
import type { PanelLayout } from '../layout.ts';

import { onCar, onFlat } from '../surface/facet-at.ts';
import { carFromFlat, flatFromCar } from '../surface/flat-frame.ts';
import { isRow, type PanelRow } from './panel-row.ts';
import { type PanelOnLine, rowThroughPanels } from './row-through-panels.ts';
import { clearOf, specOf } from './window-asked.ts';

/** Every row of the car that goes on over several panels, as it falls on each of them; layouts without those rows come in. */
export function panelRows(layouts: readonly PanelLayout[]): readonly PanelRow[] {
  return layouts.flatMap((master) =>
    (master.piece?.number ?? 1) > 1
      ? []
      : (master.panel.windows ?? []).filter(isRow).flatMap((window) => rowOf(master, window, layouts)),
  );
}

function rowOf(master: PanelLayout, window: PanelWindow, layouts: readonly PanelLayout[]): PanelRow[] {
  const refused = (why: string): PanelRow[] => [{ panel: master.panel.id, of: master.panel.id, window, why }];
  const room = master.web === undefined || master.edges.length === 0 ? undefined : { ...master, web: master.web };
  if (room === undefined) return refused(`row ${window.id}: the panel is not laid out`);
  const { highMm, ...spec } = { ...specOf(room, window), highMm: highOf(window) };
  if (highMm === undefined)
    return refused(
      `row ${window.id}: how high it is across its line is not said: give sizeMm, or a hole saw (cornerDrillMm) where it is round`,
    );
  const line = lineInCar(master, spec.along, window.centreAcrossMm);
  const named = [master, ...layouts.filter(({ panel }) => window.inLineWith!.includes(panel.id))];
  const met = named.map((layout) => ({ layout, span: spanOn(layout, line) }));
  const missed = met.filter(({ span }) => span === undefined).map(({ layout }) => layout.panel.id);
  const onLine = met
    .flatMap(({ layout, span }) => (span === undefined ? [] : [{ layout, span }]))
    .toSorted((a, b) => a.span.at - b.span.at);
  const answer = rowThroughPanels(
    onLine.map(
      ({ layout, span }): PanelOnLine => ({
        panel: layout.panel.id,
        outline: layout.web!,
        keepClear: [
          ...clearOf({ ...layout, folds: foldsOf(layout) }),
          ...layout.windows.flatMap((field) => field.openings.map(({ name, outline }) => ({ name, shape: outline }))),
        ],
        line: span,
      }),
    ),
    { ...spec, highMm },
  );
  if ('why' in answer) return refused(answer.why);
  return [
    ...answer.rows.map((row) => ({ ...row, of: master.panel.id, window })),
    ...missed.map((panel) => ({
      panel,
      of: master.panel.id,
      window,
      why: `row ${window.id}: its line does not pass over it`,
    })),
  ];
}

const foldsOf = ({ flats }: PanelLayout) => flats[0]?.folds ?? [];

const highOf = ({ sizeMm, shape, cornerDrillMm, outlineMm }: PanelWindow): number | undefined =>
  sizeMm?.[1] ?? (shape === 'round' ? cornerDrillMm : outlineMm === undefined ? undefined : 0);

interface LineInCar {
  readonly at: Vec;
  readonly along: Vec;
}

/** The middle line of the row: along the window's edge, so far into the panel, or half way over it. */
function lineInCar(
  master: PanelLayout,
  { from, to }: { readonly from: Point2; readonly to: Point2 },
  acrossMm: number | undefined,
): LineInCar {
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const middle: Point2 = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const way: Point2 = [-(to[1] - from[1]) / long, (to[0] - from[0]) / long];
  // The panel may lie to either side of the edge as it is named.
  const inner = spanAlong(master, middle, way);
  const deep = inner === undefined ? 0 : Math.abs(inner[0]) > Math.abs(inner[1]) ? inner[0] : inner[1];
  const across = acrossMm === undefined ? deep / 2 : Math.sign(deep || 1) * acrossMm;
  const put = (p: Point2): Vec => onCar(master.facets, [p[0] + way[0] * across, p[1] + way[1] * across]);
  return { at: put(middle), along: unit(sub(put(to), put(from))) };
}

const FAR_MM = 20_000;

/** Where a line of the drawing enters and leaves the web, as distances from its point: the longest stretch. */
function spanAlong({ web }: PanelLayout, at: Point2, way: Point2): readonly [number, number] | undefined {
  if (web === undefined) return undefined;
  const end = (s: number): Point2 => [at[0] + way[0] * s, at[1] + way[1] * s];
  const whole = { a: end(-FAR_MM), b: end(FAR_MM) };
  const places = readyOutline(web)
    .sides.flatMap((side) => sideCrossings(whole, side).map(({ one }) => (2 * one - 1) * FAR_MM))
    .toSorted((a, b) => a - b);
  const stretches = places.flatMap((from, i) =>
    i % 2 === 0 && i + 1 < places.length ? [[from, places[i + 1]!] as const] : [],
  );
  return stretches.toSorted((a, b) => b[1] - b[0] - (a[1] - a[0]))[0];
}

/** The line laid straight down on a panel, from where it enters to where it leaves; and how far along it that is. */
function spanOn(layout: PanelLayout, line: LineInCar): (PanelOnLine['line'] & { readonly at: number }) | undefined {
  const { facet, at } = onFlat(layout.facets, nearestTo(layout, line));
  const flat = flatFromCar(facet.frame, addScaled(carFromFlat(facet.frame, at), line.along, 100));
  const long = Math.hypot(flat[0] - at[0], flat[1] - at[1]);
  if (long < 1) return undefined;
  const way: Point2 = [(flat[0] - at[0]) / long, (flat[1] - at[1]) / long];
  const span = spanAlong(layout, at, way);
  if (span === undefined || span[1] - span[0] < 1) return undefined;
  const [from, to] = span.map((s): Point2 => [at[0] + way[0] * s, at[1] + way[1] * s]) as [Point2, Point2];
  return { from, to, at: dot(sub(carFromFlat(facet.frame, from), line.at), line.along) };
}

/** The place of the line beside the middle of a panel. */
function nearestTo({ corners }: Pick<PanelLayout, 'corners'>, { at, along }: LineInCar): Vec {
  const middle = corners.reduce<Vec>((sum, corner) => addScaled(sum, corner.at, 1 / corners.length), [0, 0, 0]);
  const s = dot(sub(middle, at), along);
  return norm(along) === 0 ? at : addScaled(at, along, s);
}
