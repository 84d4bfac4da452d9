import { type Drawing, type Shape, type TextShape, textWidth } from '#book';

/** No printer of the usual kinds prints nearer to the edge [mm]; restated here, not taken from the program. */
const MARGIN_MM = 10;
const LEAST_POINTS = 9;
const POINTS_PER_MM = 72 / 25.4;
/** From the baseline: letters of this font stand so high and hang so low, as shares of their size. */
const [HIGH, LOW] = [0.7, 0.2];
const ROUNDING = 1e-6;

type Point = readonly [number, number];
interface Word {
  readonly text: string;
  readonly size: number;
  /** Four corners, as turned on the page. */
  readonly corners: readonly Point[];
  /** Part of it may be hidden on purpose: it goes on on the neighbouring tile. */
  readonly isClipped: boolean;
}

/** What is wrong with the words of a page: too small, off the part that is printed, lying on each other. */
export function pageFaults(page: Drawing): string[] {
  const words = wordsOf(page);
  const small = words
    .filter((word) => word.size * POINTS_PER_MM < LEAST_POINTS - ROUNDING)
    .map((word) => `${(word.size * POINTS_PER_MM).toFixed(2)} pt: ${word.text}`);
  const off = words
    .filter((word) => !word.isClipped && !word.corners.every((corner) => isPrinted(corner, page)))
    .map((word) => `off the page: ${word.text}`);
  const lapped = words.flatMap((a, i) =>
    words
      .slice(i + 1)
      .filter((b) => doLap(a.corners, b.corners))
      .map((b) => `lie on each other: ${a.text} | ${b.text}`),
  );
  return [...small, ...off, ...lapped].map((text) => `${page.title}: ${text}`);
}

const isPrinted = ([x, y]: Point, page: Drawing): boolean =>
  x >= MARGIN_MM - ROUNDING &&
  y >= MARGIN_MM - ROUNDING &&
  x <= page.width - MARGIN_MM + ROUNDING &&
  y <= page.height - MARGIN_MM + ROUNDING;

export function wordsOf(page: Drawing): Word[] {
  const found: Word[] = [];
  const visit = (shapes: readonly Shape[], x: number, y: number, isClipped: boolean): void => {
    for (const shape of shapes) {
      if (shape.kind === 'group')
        visit(shape.shapes, x + shape.offset[0], y + shape.offset[1], isClipped || shape.clip !== undefined);
      if (shape.kind === 'text' && shape.text.trim() !== '') found.push(wordOf(shape, x, y, isClipped));
    }
  };
  visit(page.shapes, 0, 0, false);
  return found;
}

const share = { start: 0, middle: 0.5, end: 1 } as const;

function wordOf(shape: TextShape, x: number, y: number, isClipped: boolean): Word {
  const width = textWidth(shape.text, shape.size, shape.weight);
  const left = -width * share[shape.anchor];
  const turn = (-(shape.turnDeg ?? 0) * Math.PI) / 180;
  const place = (dx: number, dy: number): Point => [
    x + shape.at[0] + dx * Math.cos(turn) - dy * Math.sin(turn),
    y + shape.at[1] + dx * Math.sin(turn) + dy * Math.cos(turn),
  ];
  const [top, bottom] = [-HIGH * shape.size, LOW * shape.size];
  return {
    text: shape.text,
    size: shape.size,
    corners: [place(left, top), place(left + width, top), place(left + width, bottom), place(left, bottom)],
    isClipped,
  };
}

/** Two turned boxes overlap where no side of either parts them. */
function doLap(a: readonly Point[], b: readonly Point[]): boolean {
  return [a, b].every((box) =>
    [0, 1].every((side) => {
      const [p, q] = [box[side]!, box[side + 1]!];
      const axis: Point = [q[0] - p[0], q[1] - p[1]];
      const length = Math.hypot(...axis) || 1;
      const along = (points: readonly Point[]): number[] =>
        points.map(([x, y]) => (x * axis[0] + y * axis[1]) / length);
      const [one, other] = [along(a), along(b)];
      return Math.min(Math.max(...one), Math.max(...other)) - Math.max(Math.min(...one), Math.min(...other)) > 0.02;
    }),
  );
}
