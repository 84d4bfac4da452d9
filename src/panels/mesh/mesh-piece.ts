import { type Outline, outlineLength, type Point2, readyOutline, straightOutline } from '#geometry';
import type { WindowField } from '../windows/window-spec.ts';

/** A piece of mesh behind a field: what to cut, and the frame that is riveted over it all round. */
export interface MeshPiece {
  /** Cut size of the mesh [mm], along and across. */
  readonly cutMm: readonly [number, number];
  /** The mesh's outline on the flat, and the inside of its frame. */
  readonly outline: Outline;
  readonly frameInside: Outline;
  /** Places of the fixings, in the middle of the frame. */
  readonly fixings: readonly Point2[];
  /** Length of frame strip round it [mm]. */
  readonly frameLongMm: number;
}

/** Width of a frame, and most distance of its fixings where nothing is said [mm]. Source: common-practice. */
export const USUAL_FRAME_MM = 12;
export const USUAL_PITCH_MM = 50;

/** One rectangle of mesh over a field of openings, larger all round by its frame; fixings in the frame's middle, evenly spaced. */
export function meshPiece(
  field: WindowField,
  turn: number,
  frameMm = USUAL_FRAME_MM,
  pitchMm = USUAL_PITCH_MM,
): MeshPiece {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const inField = field.openings.map(({ outline }) =>
    readyOutline(outline.map(({ at: [x, y], ...rest }) => ({ at: [c * x + s * y, c * y - s * x] as const, ...rest }))),
  );
  const [x0, y0, x1, y1] = [
    Math.min(...inField.map(({ box }) => box[0])),
    Math.min(...inField.map(({ box }) => box[1])),
    Math.max(...inField.map(({ box }) => box[2])),
    Math.max(...inField.map(({ box }) => box[3])),
  ];
  const box = (by: number): Point2[] =>
    (
      [
        [x0 - by, y0 - by],
        [x1 + by, y0 - by],
        [x1 + by, y1 + by],
        [x0 - by, y1 + by],
      ] as const
    ).map(([x, y]): Point2 => [c * x - s * y, s * x + c * y]);
  const middle = box(frameMm / 2);
  const fixings = middle.flatMap((a, i) => {
    const b = middle[(i + 1) % 4]!;
    const n = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / pitchMm));
    return Array.from(
      { length: n },
      (_, k): Point2 => [a[0] + (k / n) * (b[0] - a[0]), a[1] + (k / n) * (b[1] - a[1])],
    );
  });
  return {
    cutMm: [x1 - x0 + 2 * frameMm, y1 - y0 + 2 * frameMm],
    outline: straightOutline(box(frameMm)),
    frameInside: straightOutline(box(0)),
    fixings,
    frameLongMm: outlineLength(straightOutline(middle)),
  };
}
