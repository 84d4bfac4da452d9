import { type Outline, outlinePoints, type Point2, sideArc } from '#geometry';
import type { FlatPattern } from '#panels';
import type { PathShape, PathStep, Spot } from './drawing.ts';

/** The room that a flat takes, in its own axes: x right, y up [mm]. */
export interface FlatBounds {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

export function boundsOf(outlines: readonly Outline[]): FlatBounds {
  const box = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };
  for (const outline of outlines)
    for (const [x, y] of outlinePoints(outline, 0.01)) {
      box.minX = Math.min(box.minX, x);
      box.minY = Math.min(box.minY, y);
      box.maxX = Math.max(box.maxX, x);
      box.maxY = Math.max(box.maxY, y);
    }
  return box;
}

export const flatBounds = (pattern: FlatPattern): FlatBounds => boundsOf([pattern.outline]);

/** How a flat lies on a drawing, whose y goes down. */
export interface FlatFrame {
  /** Length on the drawing over length of the flat; 1 for full size. */
  readonly scale: number;
  readonly spot: (point: Point2) => Spot;
}

/** The flat with the top left corner of its bounds at `at`. */
export const frameAt = (bounds: FlatBounds, at: Spot, scale = 1): FlatFrame => ({
  scale,
  spot: ([x, y]) => [at[0] + (x - bounds.minX) * scale, at[1] + (bounds.maxY - y) * scale],
});

/** An arc is written in steps no longer than this, where its ends and radius still give its centre to a hair [rad]. */
const ARC_STEP = Math.PI / 2;

/** An outline as a closed path, its arcs as arcs. */
export function outlinePath(outline: Outline, frame: FlatFrame): PathShape {
  const steps = outline.flatMap((_, i): PathStep[] => {
    const to = outline[(i + 1) % outline.length]!.at;
    const arc = sideArc(outline, i);
    if (arc === undefined) return [{ to: frame.spot(to) }];
    const parts = Math.max(1, Math.ceil(Math.abs(arc.through) / ARC_STEP - 1e-9));
    return Array.from({ length: parts }, (__, k): PathStep => {
      const angle = arc.from + (arc.through * (k + 1)) / parts;
      const end: Point2 =
        k === parts - 1
          ? to
          : [arc.centre[0] + arc.radius * Math.cos(angle), arc.centre[1] + arc.radius * Math.sin(angle)];
      return { to: frame.spot(end), radius: arc.radius * frame.scale, isClockwise: arc.through < 0 };
    });
  });
  return { kind: 'path', start: frame.spot(outline[0]!.at), steps, isClosed: true };
}
