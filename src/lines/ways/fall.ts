import type { Line } from '#car';
import { type Body, type Vec, dot, scale, unit } from '#geometry';
import { dutyNeeds } from '#standards';

/** How a line must run against gravity. */
export interface FallRule {
  /** 1: falls from start to end; -1: rises. */
  readonly sense: 1 | -1;
  /** Downward directions it must hold for: the car level, and leaned every way that is asked. */
  readonly downs: readonly Vec[];
  /** Start within this of plumb [deg]; null if not asked. */
  readonly withinPlumbDeg: number | null;
}

const PLUMB_DEG = 15;
const RAD = Math.PI / 180;

/** What a line's duty and the car file ask of its fall; null where nothing is asked. */
export function fallRule(line: Line): FallRule | null {
  const need = dutyNeeds(line.duty);
  if (need.mustFall || line.fall !== undefined) {
    const withinPlumbDeg = line.fall?.withinPlumbDeg ?? (need.mustFall ? PLUMB_DEG : null);
    return { sense: 1, downs: downs(line.fall?.pitchDeg ?? [0, 0], line.fall?.rollDeg ?? [0, 0]), withinPlumbDeg };
  }
  if (line.rises === true) return { sense: -1, downs: [[0, 0, -1]], withinPlumbDeg: null };
  return null;
}

/** Down as the car sees it, level and at each corner of how far it leans: nose up turns down towards the rear. */
function downs(pitchDeg: readonly [number, number], rollDeg: readonly [number, number]): Vec[] {
  const all: Vec[] = [[0, 0, -1]];
  for (const pitch of pitchDeg)
    for (const roll of rollDeg) {
      if (pitch === 0 && roll === 0) continue;
      all.push(
        unit([
          Math.sin(pitch * RAD),
          Math.sin(roll * RAD) * Math.cos(pitch * RAD),
          -Math.cos(pitch * RAD) * Math.cos(roll * RAD),
        ]),
      );
    }
  return all;
}

export interface FallFault {
  /** How far it runs the wrong way in one go [mm]. */
  readonly wrongMm: number;
  /** The lowest (or highest) place it should not have come back from. */
  readonly at: Vec;
  readonly down: Vec;
}

/** The longest run the wrong way over all leanings; null where there is none worth a name. */
export function fallFault(bodies: readonly Body[], rule: FallRule): FallFault | null {
  let worst: FallFault | null = null;
  for (const down of rule.downs) {
    const fault = wrongRun(bodies, scale(down, rule.sense), down);
    if (fault !== null && fault.wrongMm > (worst?.wrongMm ?? WRONG_MM)) worst = fault;
  }
  return worst;
}

/** A hose laid by hand waves by this much [mm]. */
const WRONG_MM = 4;

function wrongRun(bodies: readonly Body[], on: Vec, down: Vec): FallFault | null {
  let furthest = Number.NEGATIVE_INFINITY;
  let furthestAt: Vec = [0, 0, 0];
  let worst: FallFault | null = null;
  for (const { path } of bodies)
    for (let i = 0; i + 2 < path.length; i += 3) {
      const at: Vec = [path[i]!, path[i + 1]!, path[i + 2]!];
      const s = dot(at, on);
      if (s > furthest) {
        furthest = s;
        furthestAt = at;
      } else if (furthest - s > (worst?.wrongMm ?? 0)) worst = { wrongMm: furthest - s, at: furthestAt, down };
    }
  return worst;
}

/** Angle of the line's first stretch off plumb [deg]. */
export function offPlumbDeg(bodies: readonly Body[]): number {
  const path = bodies[0]!.path;
  const d = unit([path[3]! - path[0]!, path[4]! - path[1]!, path[5]! - path[2]!]);
  return Math.acos(Math.max(-1, Math.min(1, -d[2]))) / RAD;
}
