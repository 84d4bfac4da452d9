import type { Panel } from '#car';
import { isInOutline, type Outline, outlinePoints, type Point2, straightOutline, type Vec } from '#geometry';
import type { FlatPattern } from '../flat-pattern.ts';
import type { LaidEdge } from '../layout.ts';
import { degOf, lineThrough, plus, rightOf } from './lines.ts';

const HEIGHT_MM = 8;
/** Words stand this far inside the edge they belong to [mm]. */
const INSIDE_MM = 30;

/** What is written on the flat: what it is, that this is the outside face, and which edge is up. */
export function flatWords(
  panel: Panel,
  edges: readonly LaidEdge[],
  title: string,
  inCar: (at: Point2) => Vec,
  openings: readonly Outline[] = [],
): FlatPattern['words'] {
  const middle = edges.reduce<Point2>(
    (m, { line }) => [m[0] + line[0][0] / edges.length, m[1] + line[0][1] / edges.length],
    [0, 0],
  );
  const named =
    panel.top && edges.find(({ from, to }) => [from, to].every((id) => id === panel.top!.from || id === panel.top!.to));
  const heightOf = (edge: LaidEdge) => (inCar(edge.line[0])[2] + inCar(edge.line[1])[2]) / 2;
  const top = named ?? edges.reduce((a, b) => (heightOf(b) > heightOf(a) + 1e-6 ? b : a));
  const line = lineThrough(...top.line);
  const at = plus(plus(line.at, line.along, top.lengthMm / 2), rightOf(line.along), -INSIDE_MM);
  const text = `${title}: OUTSIDE FACE`;
  return [
    { at: onMetal(text, middle, edges, openings), text, heightMm: HEIGHT_MM, turnDeg: 0 },
    // Read with the top edge upwards.
    { at, text: 'TOP', heightMm: HEIGHT_MM, turnDeg: degOf([-line.along[0], -line.along[1]]) },
  ];
}

/** A letter is no wider than this share of its height, roughly: enough to keep words off openings. */
const LETTER_SHARE = 0.8;
const STEPS = 12;

/** The place nearest to the middle where the words lie on the sheet and not over an opening; the middle where there is none. */
function onMetal(text: string, middle: Point2, edges: readonly LaidEdge[], openings: readonly Outline[]): Point2 {
  const [w, h] = [(text.length * HEIGHT_MM * LETTER_SHARE) / 2, HEIGHT_MM];
  const boxes = openings.map((opening) => boxOf(outlinePoints(opening, 1)));
  const corners = edges.map(({ line }) => line[0]);
  const web = straightOutline(corners);
  const [x0, y0, x1, y1] = boxOf(corners);
  const isFree = ([x, y]: Point2): boolean =>
    boxes.every(([a, b, c, d]) => x + w < a || x - w > c || y + h < b || y - h > d) &&
    [-w, 0, w].every((dx) => [-h, h].every((dy) => isInOutline(web, [x + dx, y + dy])));
  const steps = Array.from({ length: STEPS + 1 }, (_, i) => i / STEPS);
  const places = steps.flatMap((u) => steps.map((v): Point2 => [x0 + (x1 - x0) * u, y0 + (y1 - y0) * v]));
  const far = ([x, y]: Point2): number => Math.hypot(x - middle[0], y - middle[1]);
  return [middle, ...places.toSorted((p, q) => far(p) - far(q))].find(isFree) ?? middle;
}

const boxOf = (points: readonly Point2[]): readonly [number, number, number, number] => {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
};
