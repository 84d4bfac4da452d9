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
  const text = `${title}: OUTSIDE FACE`;
  const taken = openings.map((opening) => boxOf(outlinePoints(opening, 1)));
  // Read with the top edge upwards.
  const topDeg = degOf([-line.along[0], -line.along[1]]);
  const spots = ALONG_TOP.map((share) =>
    plus(plus(line.at, line.along, top.lengthMm * share), rightOf(line.along), -INSIDE_MM),
  );
  const at = spots.find((spot) => isClear(taken, spot, [halfOf(TOP), halfOf(TOP)])) ?? spots[0]!;
  return [
    begun(
      text,
      onMetal(
        text,
        middle,
        edges.map((edge) => edge.line[0]),
        taken,
      ),
      0,
    ),
    begun(TOP, at, topDeg),
  ];
}

/** The same on a flat without edges, such as one from a template: which way is up on the car, `up` on the flat; absent: it is not placed. */
export function outlineWords(
  title: string,
  outline: Outline,
  openings: readonly Outline[],
  up: Point2 | undefined,
): FlatPattern['words'] {
  const rim = outlinePoints(outline, 1);
  const [x0, y0, x1, y1] = boxOf(rim);
  const middle: Point2 = [(x0 + x1) / 2, (y0 + y1) / 2];
  const taken = openings.map((opening) => boxOf(outlinePoints(opening, 1)));
  const text = `${title}: OUTSIDE FACE`;
  const words = [begun(text, onMetal(text, middle, rim, taken), 0)];
  if (up === undefined || Math.hypot(...up) < LEVEL) return words;
  const size = Math.hypot(...up);
  const way: Point2 = [up[0] / size, up[1] / size];
  const highest = rim.reduce((a, b) => (b[0] * way[0] + b[1] * way[1] > a[0] * way[0] + a[1] * way[1] ? b : a));
  // From the highest point towards the middle, until it lies on metal.
  const spots = [0.15, 0.25, 0.35, 0.45].map(
    (share): Point2 => [highest[0] + (middle[0] - highest[0]) * share, highest[1] + (middle[1] - highest[1]) * share],
  );
  const at = spots.find((spot) => isClear(taken, spot, [halfOf(TOP), halfOf(TOP)])) ?? spots[0]!;
  return [...words, begun(TOP, at, degOf([way[1], -way[0]]))];
}

/** A panel that lies flatter than this has no top [sine]. */
const LEVEL = 0.1;

const TOP = 'TOP';
/** Tried along the top edge, its middle first. */
const ALONG_TOP = [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9];
/** A letter is no wider than this share of its height, roughly: enough to keep words off openings. */
const LETTER_SHARE = 0.8;
const halfOf = (text: string): number => (text.length * HEIGHT_MM * LETTER_SHARE) / 2;
const STEPS = 12;

type Box = readonly [number, number, number, number];

/** Words with their middle there: they begin half their length before it, and stand on their line. */
function begun(text: string, [x, y]: Point2, turnDeg: number): FlatPattern['words'][number] {
  const turn = (turnDeg * Math.PI) / 180;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const [back, down] = [halfOf(text), HEIGHT_MM / 2];
  return { at: [x - back * c + down * s, y - back * s - down * c], text, heightMm: HEIGHT_MM, turnDeg };
}

const isClear = (boxes: readonly Box[], [x, y]: Point2, [w, h]: Point2): boolean =>
  boxes.every(([a, b, c, d]) => x + w < a || x - w > c || y + h < b || y - h > d);

/** The place nearest to the middle where the words lie on the sheet and not over an opening; the middle where there is none. */
function onMetal(text: string, middle: Point2, corners: readonly Point2[], boxes: readonly Box[]): Point2 {
  const [w, h] = [halfOf(text), HEIGHT_MM];
  const web = straightOutline(corners);
  const [x0, y0, x1, y1] = boxOf(corners);
  const isFree = ([x, y]: Point2): boolean =>
    isClear(boxes, [x, y], [w, h]) &&
    [-w, 0, w].every((dx) => [-h, h].every((dy) => isInOutline(web, [x + dx, y + dy])));
  const steps = Array.from({ length: STEPS + 1 }, (_, i) => i / STEPS);
  const places = steps.flatMap((u) => steps.map((v): Point2 => [x0 + (x1 - x0) * u, y0 + (y1 - y0) * v]));
  const far = ([x, y]: Point2): number => Math.hypot(x - middle[0], y - middle[1]);
  return [middle, ...places.toSorted((p, q) => far(p) - far(q))].find(isFree) ?? middle;
}

const boxOf = (points: readonly Point2[]): Box => {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
};
