import type { Outline, Point2 } from '#geometry';
import type { FlatPattern } from '../flat-pattern.ts';

/** A flat pattern turned about its first corner (from x towards y), then shifted; all that is on it goes along. */
export function movedPattern(pattern: FlatPattern, turnDeg: number, by: Point2): FlatPattern {
  const quarter = ((Math.round(turnDeg / 90) % 4) + 4) % 4;
  const isQuarter = turnDeg % 90 === 0;
  const angle = (turnDeg * Math.PI) / 180;
  // Quarter turns without rounding errors.
  const c = isQuarter ? [1, 0, -1, 0][quarter]! : Math.cos(angle);
  const s = isQuarter ? [0, 1, 0, -1][quarter]! : Math.sin(angle);
  const point = ([x, y]: Point2): Point2 => [x * c - y * s + by[0], x * s + y * c + by[1]];
  const outline = (corners: Outline): Outline => corners.map((corner) => ({ ...corner, at: point(corner.at) }));
  const ends = <T extends { readonly from: Point2; readonly to: Point2 }>(line: T): T => ({
    ...line,
    from: point(line.from),
    to: point(line.to),
  });
  const placed = <T extends { readonly at: Point2 }>(thing: T): T => ({ ...thing, at: point(thing.at) });
  const turned = <T extends { readonly at: Point2; readonly turnDeg: number }>(thing: T): T => ({
    ...placed(thing),
    turnDeg: thing.turnDeg + turnDeg,
  });
  return {
    ...pattern,
    ...(pattern.grainDeg === undefined ? {} : { grainDeg: pattern.grainDeg + turnDeg }),
    outline: outline(pattern.outline),
    cutOuts: pattern.cutOuts.map((cut) => ({ ...cut, outline: outline(cut.outline) })),
    holes: pattern.holes.map(placed),
    slots: pattern.slots.map(turned),
    folds: pattern.folds.map(ends),
    ...(pattern.slits === undefined ? {} : { slits: pattern.slits.map(ends) }),
    marks: pattern.marks.map(ends),
    words: pattern.words.map(turned),
    corners: pattern.corners.map(placed),
  };
}
