import type { Line } from '#car';
import type { Way, WayEnd, WayFail } from '../way.ts';
import type { LinesWorld } from '../world.ts';

/** A line that could not be drawn at all, and why. */
export function refusedWay(world: LinesWorld, line: Line, fails: readonly WayFail[]): Way {
  const end = (port: string): WayEnd => ({
    port,
    makeUp: [],
    parts: [],
    angleDeg: 0,
    clockDeg: null,
    words: 'nothing fits',
    clockHow: 'none',
    tightening: [],
  });
  const at = world.bay.ports.get(line.from)?.at;
  return {
    rank: 1,
    feasible: false,
    cost: 0,
    ends: [end(line.from), end(line.to)],
    joints: [],
    pieces: [],
    clamps: [],
    bodies: [],
    gaps: [],
    fails: fails.map((fail) => (at === undefined ? fail : { atMm: at, ...fail })),
    notes: [],
    reasons: fails.map((fail) => fail.text),
  };
}
