import type { Car, Port } from '#car';
import type { Vec } from '#geometry';
import type { ReadyCircuit } from './circuit-state.ts';
import { redrawn } from './circuit-state.ts';
import { partOf } from './drawn-circuit.ts';
import type { LineRun } from './line-run.ts';
import type { VesselInside } from './vessel-state.ts';

/** How much higher a port is put [mm]; nothing for those that stay. */
type RiseOf = (spot: string) => number;

/** A part of the circuit put higher, with its inside, its ports and the ends of its lines. */
export function raisedPart(ready: ReadyCircuit, part: string, mm: number): ReadyCircuit {
  const moved = movedPorts(ready, (spot) => (spot.includes('.') && partOf(spot) === part ? mm : 0));
  const insides = moved.insides.map((inside): VesselInside => {
    if (inside.drawn.vessel.part !== part || inside.tank === null) return inside;
    const { mesh } = inside.tank;
    const centre = higher(mesh.centre, mm);
    return { ...inside, tank: { ...inside.tank, mesh: { ...mesh, centre } } };
  });
  return { ...moved, insides };
}

/** Ports put higher, with the lines that end there: they come up with their end, the more the nearer to it. */
export function movedPorts(ready: ReadyCircuit, riseOf: RiseOf): ReadyCircuit {
  const port = (part: string, row: Port): Port => {
    const mm = riseOf(`${part}.${row.id}`);
    return mm === 0 ? row : { ...row, atMm: [row.atMm[0], row.atMm[1], row.atMm[2] + mm] };
  };
  const car: Car = {
    ...ready.car,
    parts: ready.car.parts.map((row) => ({ ...row, ports: row.ports.map((at) => port(row.id, at)) })),
  };
  const vessels = ready.drawn.vessels.map((row) => ({
    ...row,
    ports: row.ports.map((at) => port(row.part.id, at)),
  }));
  const insides = ready.insides.map((inside, i) => ({ ...inside, drawn: vessels[i] ?? inside.drawn }));
  const runs = ready.drawn.runs.map((run) => leaned(run, riseOf(run.from), riseOf(run.to)));
  return redrawn({ ...ready, car, insides }, { ...ready.drawn, vessels, runs });
}

/** A run whose ends are put higher, what lies between in proportion to how far along it lies. */
function leaned(run: LineRun, fromMm: number, toMm: number): LineRun {
  if (fromMm === 0 && toMm === 0) return run;
  const total = run.stretches.reduce((sum, { pathMm }) => sum + alongOf(pathMm), 0);
  let along = 0;
  let last: Readonly<Vec> | undefined;
  const stretches = run.stretches.map((row) => ({
    ...row,
    pathMm: row.pathMm.map((point): Vec => {
      along += last === undefined ? 0 : stepOf(last, point);
      last = point;
      return higher(point, fromMm + (toMm - fromMm) * (total === 0 ? 0 : Math.min(1, along / total)));
    }),
  }));
  return { ...run, stretches };
}

const stepOf = (a: Readonly<Vec>, b: Readonly<Vec>): number => Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
const alongOf = (path: readonly Readonly<Vec>[]): number =>
  path.slice(1).reduce((sum, at, i) => sum + stepOf(path[i]!, at), 0);

const higher = (at: Readonly<Vec>, mm: number): Vec => [at[0], at[1], at[2] + mm];
