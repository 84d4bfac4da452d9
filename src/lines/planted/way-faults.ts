import { type Disc, type WrittenBody, discsOf, sampledGap } from './body-skin.ts';
import { endFaults } from './end-faults.ts';
import { hoseFaults } from './hose-faults.ts';
import { type Inserts, type ReadCar, type ReadPart, type ReadWay, portAt } from './read-way.ts';
import { type Distance, type Meshes, type Point, leastDistance, shapeDistance } from './solid-distance.ts';

const LISTED_MM = 150;
/** Contract: gaps are right to this [mm]. */
const GAP_MM = 0.1;
const STEP_MM = 3;
const MEET_MM = 0.01;
/** Rounding of what is printed, and what a limit may lack by it [mm]. */
const GRACE_MM = 0.15;
const LEAST_NEAR_MM = 60;
const CLASS_MM = { hot: 100, hotShielded: 50, moving: 25, fixed: 6, line: 3 } as const;

/** What is wrong with one feasible way of a line of one hose: nothing, if the planner is right. */
export function wayFaults(car: ReadCar, meshes: Meshes, way: ReadWay, inserts: Inserts): string[] {
  if (!way.feasible) return ['the way is not feasible'];
  const { bodies } = way;
  const hose = bodies.findIndex((body) => body.part === 'hose');
  if (hose < 0) return ['there is no hose'];
  const discs = discsOf(bodies);
  return [
    ...(way.fails.length > 0 ? ['a feasible way has fails'] : []),
    ...pathFaults(car, way),
    ...hoseFaults(way, hose, inserts),
    ...endFaults(car, way, hose),
    ...car.parts.flatMap((part) => partFaults(car, meshes, way, hose, discs, part)),
  ];
}

const distanceOf = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

/** Bodies run from port face to port face, meet, and have close points. */
function pathFaults(car: ReadCar, way: ReadWay): string[] {
  const faults: string[] = [];
  const paths = way.bodies.map((body) => body.pathMm);
  if (!paths.flat(2).every(Number.isFinite)) return ['a body has a coordinate that is no number'];
  for (const [n, path] of paths.entries()) {
    for (let i = 0; i + 1 < path.length; i++) {
      const step = distanceOf(path[i]!, path[i + 1]!);
      if (step > STEP_MM + 0.002) faults.push(`body ${n} steps ${step.toFixed(3)} mm`);
    }
    const next = paths[n + 1];
    if (next !== undefined && distanceOf(path.at(-1)!, next[0]!) > MEET_MM)
      faults.push(`bodies ${n} and ${n + 1} do not meet`);
  }
  for (const [i, end] of way.ends.entries()) {
    const face = i === 0 ? paths[0]![0]! : paths.at(-1)!.at(-1)!;
    const off = distanceOf(face, portAt(car, end.port).atMm);
    if (off > MEET_MM) faults.push(`the line ends ${off.toFixed(2)} mm off ${end.port}`);
  }
  return faults;
}

function ruleMm(car: ReadCar, part: ReadPart): number {
  const kind = part.class === 'hot' && part.shielded === true ? 'hotShielded' : part.class;
  return part.keepOffMm ?? car.keepOffMm?.[kind] ?? CLASS_MM[kind];
}

const lengthOf = (bodies: readonly WrittenBody[]): number =>
  bodies.reduce(
    (sum, { pathMm }) => sum + pathMm.reduce((s, p, i) => s + (i === 0 ? 0 : distanceOf(p, pathMm[i - 1]!)), 0),
    0,
  );

/** The stated gap is the sampled one, and the keep-offs are kept by the contract's rules. */
function partFaults(
  car: ReadCar,
  meshes: Meshes,
  way: ReadWay,
  hose: number,
  discs: readonly Disc[],
  part: ReadPart,
): string[] {
  const distance = leastDistance(part.shapes.map((shape) => shapeDistance(shape, meshes)));
  const { gapMm } = sampledGap(discs, distance, LISTED_MM);
  const stated = way.gaps.find((gap) => gap.part === part.id);
  const faults: string[] = [];
  if (stated === undefined && gapMm < LISTED_MM - GAP_MM)
    faults.push(`${part.id} stands ${gapMm.toFixed(2)} mm off and is not listed`);
  if (
    stated !== undefined &&
    Math.abs(stated.gapMm - gapMm) > GAP_MM &&
    !(stated.gapMm <= GAP_MM && gapMm < 0.3 && stated.gapMm >= -GAP_MM)
  ) {
    faults.push(`${part.id}: gap ${stated.gapMm} stated, ${gapMm.toFixed(3)} sampled`);
  }
  return [...faults, ...keepOffFaults(car, way, hose, discs, part, distance)];
}

function keepOffFaults(
  car: ReadCar,
  way: ReadWay,
  hose: number,
  discs: readonly Disc[],
  part: ReadPart,
  distance: Distance,
): string[] {
  const rule = ruleMm(car, part);
  const total = lengthOf(way.bodies);
  const straight = Math.max(way.bodies[hose]!.odMm, 25.4);
  const near = [
    Math.max(LEAST_NEAR_MM, lengthOf(way.bodies.slice(0, hose)) + straight),
    Math.max(LEAST_NEAR_MM, lengthOf(way.bodies.slice(hose + 1)) + straight),
  ] as const;
  const limits = way.ends.map((end, i) => {
    if (part.ports.some((port) => `${part.id}.${port.id}` === end.port)) return 0;
    const face = i === 0 ? discs.slice(0, 1) : discs.slice(-1);
    return Math.max(0, Math.min(rule, sampledGap(face, distance, rule).gapMm));
  });
  const zoneLimit = (disc: Disc): number => {
    const first = disc.alongMm <= near[0] ? limits[0]! : rule;
    const last = disc.alongMm >= total - near[1] ? limits[1]! : rule;
    return Math.min(first, last);
  };
  const faults: string[] = [];
  for (const limit of new Set([rule, ...limits])) {
    const there = discs.filter((disc) => zoneLimit(disc) === limit);
    const { gapMm } = sampledGap(there, distance, limit);
    if (gapMm < limit - GRACE_MM)
      faults.push(`${part.id}: ${gapMm.toFixed(2)} mm off where ${limit.toFixed(1)} is wanted`);
  }
  return faults;
}
