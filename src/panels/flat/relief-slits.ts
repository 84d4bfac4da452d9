import type { Panel } from '#car';
import { type Outline, type Point2, readyOutline, sideCrossings } from '#geometry';
import { sheetRule } from '#standards';
import type { DrilledHole, FlatSlit, FoldLine } from '../flat-pattern.ts';
import type { PanelSheet } from '../panel-sheet.ts';
import type { PanelSurface } from '../surface/panel-surface.ts';

/** What the reliefs of a twisted panel make of its flat. */
export interface ReliefSlits {
  readonly slits: readonly FlatSlit[];
  /** The hole that each slit ends in. */
  readonly stops: readonly DrilledHole[];
  /** All folds of the flat, those of reliefs as short as their necks. */
  readonly folds: readonly FoldLine[];
}

/** Hole at the end of a slit [mm]: what a bend's relief is, and no less than twice its inside radius. */
export function slitStopMm({ thicknessMm, bendRadiusMm }: Pick<PanelSheet, 'thicknessMm' | 'bendRadiusMm'>): number {
  const least = sheetRule(thicknessMm <= sheetRule('relief-thin-to').value ? 'relief-thin' : 'relief-thick').value;
  return Math.max(least, 2 * bendRadiusMm);
}

/** Metal that a relief leaves at its far corner where the car does not say [mm]. */
export const usualNeckMm = (): number => sheetRule('relief-neck').value;

/**
 * Reliefs are creases that are slit from the corner they begin at to a hole short of the other one: both lips lie in the line in
 * which the two planes meet, so they stay on each other, and only the neck is bent. `folds` begin with the creases in their order.
 */
export function reliefSlits(
  panel: Panel,
  { corners, creases }: Pick<PanelSurface, 'corners' | 'creases'>,
  folds: readonly FoldLine[],
  outline: Outline,
  sheet: PanelSheet,
): ReliefSlits {
  const slits: FlatSlit[] = [];
  const stops: DrilledHole[] = [];
  const shortened = folds.map((fold, k): FoldLine => {
    const ends = creases[k]?.ends.map((place) => corners[place]!.id);
    const relief = panel.creases?.find(
      ({ from, to, kind }) => kind === 'relief' && ends?.includes(from) === true && ends.includes(to),
    );
    if (ends === undefined || relief === undefined) return fold;
    const [begin, end] = ends[0] === relief.from ? [fold.from, fold.to] : [fold.to, fold.from];
    const long = Math.hypot(end[0] - begin[0], end[1] - begin[1]);
    const way: Point2 = [(end[0] - begin[0]) / long, (end[1] - begin[1]) / long];
    const on = (along: number): Point2 => [begin[0] + way[0] * along, begin[1] + way[1] * along];
    const holeMm = slitStopMm(sheet);
    const neck = Math.min(relief.neckMm ?? usualNeckMm(), long / 2);
    const stop = long - neck - holeMm / 2;
    const name = `relief ${relief.from}-${relief.to}`;
    slits.push({ from: on(stop), to: on(mouth(outline, on(stop), way, stop)), name });
    stops.push({ at: on(stop), diameterMm: holeMm, for: `end of ${name}`, corner: true });
    return { ...fold, from: on(stop + holeMm / 2), to: end, name };
  });
  return { slits, stops, folds: shortened };
}

/** How far along the line the slit leaves the outline, looked for from its stop back past its corner. */
function mouth(outline: Outline, stop: Point2, way: Point2, long: number): number {
  const back = long + 1000;
  const whole = { a: stop, b: [stop[0] - way[0] * back, stop[1] - way[1] * back] as Point2 };
  const found = readyOutline(outline).sides.flatMap((side) => sideCrossings(whole, side).map(({ one }) => one * back));
  return found.length === 0 ? 0 : long - Math.min(...found);
}
