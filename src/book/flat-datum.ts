import { sideArc, type Point2 } from '#geometry';
import type { FlatPattern } from '#panels';
import { flatBounds } from './panel-frame.ts';

/** An edge counts as a straight side to measure from where it is this much of the flat's length or height. */
const LONG_SHARE = 0.5;
const LEVEL_MM = 0.01;

/**
 * Where a flat is measured from on paper: the first corner; or, where a flange lies beyond the first edge or the left one, the
 * straight edge of the sheet there, since nobody can lay a rule against a line that is only drawn.
 */
export function flatDatum(pattern: FlatPattern): Point2 {
  const { minX, minY, maxX, maxY } = flatBounds(pattern);
  const hasEdge = (axis: 0 | 1, at: number, least: number): boolean =>
    pattern.outline.some((corner, i) => {
      const next = pattern.outline[(i + 1) % pattern.outline.length]!;
      const isLevel = Math.abs(corner.at[axis] - at) < LEVEL_MM && Math.abs(next.at[axis] - at) < LEVEL_MM;
      const other = axis === 0 ? 1 : 0;
      return (
        isLevel && sideArc(pattern.outline, i) === undefined && Math.abs(next.at[other] - corner.at[other]) >= least
      );
    });
  return [
    minX < -LEVEL_MM && hasEdge(0, minX, LONG_SHARE * (maxY - minY)) ? minX : 0,
    minY < -LEVEL_MM && hasEdge(1, minY, LONG_SHARE * (maxX - minX)) ? minY : 0,
  ];
}
