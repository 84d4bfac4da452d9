import type { Vec } from '#geometry';
import { type DrawnCircuit, vesselFinder } from '../circuit/drawn-circuit.ts';
import { heightMmG } from '../circuit/pull.ts';

/** A place that air rises to and cannot leave upward. */
export interface AirTrap {
  /** The line it is in; absent where it is at a joint in a part. */
  readonly line?: string;
  /** The joint that is its highest point, where it is one. */
  readonly spot?: string;
  readonly atMm: Vec;
  /** How far air has to be pushed down to get on [mm]. */
  readonly depthMm: number;
  /** Where it then gets on. */
  readonly overMm: Vec;
  /** Air it can hold [m3]. */
  readonly volumeM3: number;
}

/** A point of the circuit that air may pass: of a line, of a joint, or the inside of a vessel. */
interface Point {
  readonly atMm: Vec;
  readonly heightMm: number;
  readonly line?: string;
  readonly spot?: string;
  /** Air that comes here is out. */
  readonly leadsOut: boolean;
}

interface Edge {
  readonly a: number;
  readonly b: number;
  readonly volumeM3: number;
}

/**
 * Where air stays in a circuit, with the car pulled as stated. Points of all lines are joined at the ports and through
 * the parts; from the highest down, the water's body is put together point by point: where two hollows full of air meet,
 * the lower one's peak is a trap as deep as the way down to where they meet. Vessels let air out.
 *
 * @param leastMm - shallower traps are left out: a bubble is swept over them
 */
export function airTraps(drawn: DrawnCircuit, pull: Vec, leastMm: number): readonly AirTrap[] {
  const { points, edges } = web(drawn, pull);
  const order = [...points.keys()].toSorted((i, k) => rank(points[k]!) - rank(points[i]!));
  const parent = Int32Array.from(points.keys());
  const peak = Int32Array.from(points.keys());
  const volume = new Float64Array(points.length);
  const find = (i: number): number => {
    let root = i;
    while (parent[root] !== root) root = parent[root]!;
    while (parent[i] !== root) [parent[i], i] = [root, parent[i]!];
    return root;
  };
  const touching: number[][] = points.map(() => []);
  edges.forEach((edge, e) => {
    touching[edge.a]!.push(e);
    touching[edge.b]!.push(e);
  });
  const isIn = new Uint8Array(points.length);
  const traps: AirTrap[] = [];
  for (const i of order) {
    isIn[i] = 1;
    for (const e of touching[i]!) {
      const { a, b, volumeM3 } = edges[e]!;
      const other = a === i ? b : a;
      if (isIn[other] === 0) continue;
      const [one, two] = [find(i), find(other)];
      if (one === two) {
        volume[one]! += volumeM3;
        continue;
      }
      const [elder, younger] = rank(points[peak[one]!]!) >= rank(points[peak[two]!]!) ? [one, two] : [two, one];
      const top = points[peak[younger]!]!;
      const depthMm = top.heightMm - points[i]!.heightMm;
      if (!top.leadsOut && depthMm >= leastMm) traps.push(trapAt(top, points[i]!, depthMm, volume[younger]!));
      parent[younger] = elder;
      volume[elder]! += volume[younger]! + volumeM3;
    }
  }
  const roots = new Set([...points.keys()].map(find));
  for (const root of roots) {
    const top = points[peak[root]!]!;
    if (!top.leadsOut) traps.push(trapAt(top, lowestOf(points, find, root), Number.POSITIVE_INFINITY, volume[root]!));
  }
  return traps.toSorted((s, t) => t.depthMm - s.depthMm);
}

const rank = (point: Point): number => (point.leadsOut ? Number.POSITIVE_INFINITY : point.heightMm);

const trapAt = (top: Point, over: Point, depthMm: number, volumeM3: number): AirTrap => ({
  ...(top.line === undefined ? {} : { line: top.line }),
  ...(top.spot === undefined ? {} : { spot: top.spot }),
  atMm: top.atMm,
  depthMm,
  overMm: over.atMm,
  volumeM3,
});

function lowestOf(points: readonly Point[], find: (i: number) => number, root: number): Point {
  let lowest = points[root]!;
  points.forEach((point, i) => {
    if (find(i) === root && point.heightMm < lowest.heightMm) lowest = point;
  });
  return lowest;
}

/** Points and edges of the circuit: its lines point by point, joints, and straight through its parts. */
function web(drawn: DrawnCircuit, pull: Vec): { readonly points: readonly Point[]; readonly edges: readonly Edge[] } {
  const points: Point[] = [];
  const edges: Edge[] = [];
  const spots = new Map<string, number>();
  const size = Math.hypot(pull[0], pull[1], pull[2]);
  const scale = size > 0 ? 1 / size : 0;
  const vesselOf = vesselFinder(drawn);
  const add = (atMm: Vec, about: Pick<Point, 'line' | 'spot'>, leadsOut: boolean): number =>
    points.push({ atMm, heightMm: heightMmG(pull, atMm) * scale, ...about, leadsOut }) - 1;
  /** Every port keeps its own height. Air that gets down to the port of a vessel, and no higher up, is out there. */
  const spotPoint = (spot: string, atMm: Vec): number => {
    const known = spots.get(spot);
    if (known !== undefined) return known;
    const made = add(atMm, { spot }, false);
    spots.set(spot, made);
    if (vesselOf(spot) !== undefined) edges.push({ a: made, b: add(atMm, {}, true), volumeM3: 0 });
    return made;
  };
  for (const run of drawn.runs) {
    let last = -1;
    run.stretches.forEach((stretch, s) => {
      const area = (Math.PI / 4) * (stretch.boreMm / 1000) ** 2;
      const ends = s === run.stretches.length - 1;
      stretch.pathMm.forEach((at, k) => {
        if (last >= 0 && k === 0) return;
        const isEnd = ends && k === stretch.pathMm.length - 1;
        const here =
          last < 0 ? spotPoint(run.from, at) : isEnd ? spotPoint(run.to, at) : add(at, { line: run.line }, false);
        if (last >= 0 && last !== here) {
          const apartMm = apart(points[last]!.atMm, at);
          let before = last;
          for (const middle of between(points[last]!.atMm, at, apartMm)) {
            const next = add(middle, { line: run.line }, false);
            edges.push({ a: before, b: next, volumeM3: (area * apart(points[before]!.atMm, middle)) / 1000 });
            before = next;
          }
          edges.push({ a: before, b: here, volumeM3: (area * apart(points[before]!.atMm, at)) / 1000 });
        }
        last = here;
      });
    });
  }
  throughParts(drawn, spots, points, edges, (spot, atMm) => spotPoint(spot, atMm));
  return { points, edges };
}

/** Points of a path further apart than this are looked at in between: how much air a straight stretch holds hangs on it [mm]. */
const STEP_MM = 25;

function between(a: Vec, b: Vec, apartMm: number): Vec[] {
  const steps = Math.ceil(apartMm / STEP_MM);
  return Array.from({ length: Math.max(0, steps - 1) }, (_, i): Vec => {
    const share = (i + 1) / steps;
    return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share, a[2] + (b[2] - a[2]) * share];
  });
}

/** Passages and pumps lead air from port to port; a part's inside without a place takes the ports it meets together. */
function throughParts(
  drawn: DrawnCircuit,
  spots: ReadonlyMap<string, number>,
  points: readonly Point[],
  edges: Edge[],
  spotPoint: (spot: string, atMm: Vec) => number,
): void {
  const inside = new Map<string, string[]>();
  const link = (a: string, b: string) => {
    const [i, k] = [spots.get(a), spots.get(b)];
    if (i !== undefined && k !== undefined) edges.push({ a: i, b: k, volumeM3: 0 });
  };
  for (const row of [...drawn.passages, ...drawn.pumps]) {
    const [from, to] = [spots.has(row.from), spots.has(row.to)];
    if (from && to) link(row.from, row.to);
    else if (from) inside.set(row.to, [...(inside.get(row.to) ?? []), row.from]);
    else if (to) inside.set(row.from, [...(inside.get(row.from) ?? []), row.to]);
  }
  for (const [spot, ports] of inside) {
    // The inside of a part is taken at the height of the highest port it opens to: its own shape within is not known.
    const top = ports.map((port) => points[spots.get(port)!]!).toSorted((a, b) => b.heightMm - a.heightMm)[0]!;
    spotPoint(spot, top.atMm);
    for (const port of ports) link(spot, port);
  }
  for (const row of [...drawn.passages, ...drawn.pumps])
    if (!row.from.includes('.') && !row.to.includes('.')) link(row.from, row.to);
}

const apart = (a: Vec, b: Vec): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
