import type { Panel, PanelEdge } from '#car';
import { cross, dot, scale, sub, type Vec } from '#geometry';
import { bestPlane } from './best-plane.ts';

/** Corners of a panel, counter-clockwise seen on its outside face. */
export interface Ring {
  /** Place of each in the car's list: the first two are the ends of the first edge. */
  readonly order: readonly number[];
  readonly outside: Vec;
  /** The outside face is not stated: it was taken to be the one that sees the corners counter-clockwise. */
  readonly guessed: boolean;
  /** How squarely the stated outside looks out of the sheet: 1 square, 0 along it. */
  readonly squareness: number;
}

/**
 * Which way round the corners go, seen from outside. Where they go clockwise the drawing begins at the second corner and its
 * x runs back to the first: so y still points into the panel and the drawing is never a mirror image.
 */
export function ringOf(corners: readonly Vec[], outside: Panel['outside']): Ring {
  const plane = bestPlane(corners);
  const turn = dot(turningOf(corners), plane.normal) < 0 ? -1 : 1;
  const seen = scale(plane.normal, turn);
  const order = corners.map((_, k) => k);
  if (outside === undefined) return { order, outside: seen, guessed: true, squareness: 1 };
  const long = Math.hypot(outside[0], outside[1], outside[2]);
  const lean = (outside[0] * seen[0] + outside[1] * seen[1] + outside[2] * seen[2]) / long;
  if (lean >= 0) return { order, outside: seen, guessed: false, squareness: lean };
  return {
    order: [1, 0, ...order.slice(2).reverse()],
    outside: scale(seen, -1),
    guessed: false,
    squareness: -lean,
  };
}

/** Twice the area that the corners go round, as a vector. */
function turningOf(corners: readonly Vec[]): Vec {
  const from = corners[0]!;
  let [x, y, z] = [0, 0, 0];
  for (let i = 1; i + 1 < corners.length; i++) {
    const c = cross(sub(corners[i]!, from), sub(corners[i + 1]!, from));
    [x, y, z] = [x + c[0], y + c[1], z + c[2]];
  }
  return [x, y, z];
}

/** What the car says of the edge between two corners, whichever way it names them. */
export function edgeSpec(panel: Panel, from: string, to: string): PanelEdge | undefined {
  return panel.edges?.find((edge) => (edge.from === from && edge.to === to) || (edge.from === to && edge.to === from));
}
