import type { Panel } from '#car';
import type { Point2, Vec } from '#geometry';
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
  return [
    { at: middle, text: `${title}: OUTSIDE FACE`, heightMm: HEIGHT_MM, turnDeg: 0 },
    // Read with the top edge upwards.
    { at, text: 'TOP', heightMm: HEIGHT_MM, turnDeg: degOf([-line.along[0], -line.along[1]]) },
  ];
}
