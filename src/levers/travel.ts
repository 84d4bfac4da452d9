import type { Lever } from '#car';
import { dot, sub, unit, type Vec } from '#geometry';
import { angleBetweenDeg } from './cable-path.ts';
import { type Chain, chainNear, type ChainRun, type ChainState } from './chain.ts';
import { type Crank, pinAt, pinRadius, pinRate } from './crank.ts';
import type { Joint, JointState } from './joint.ts';

const DEG = 180 / Math.PI;

/** One place of a lever's swing. */
export interface RatioRow {
  readonly turnDeg: number;
  /** Along the arc of the handle, from as drawn [mm]. */
  readonly handleMm: number;
  readonly outputMm: number;
  /** Movement of the handle over movement of the output; null on a dead centre. */
  readonly leverRatio: number | null;
}

/** The arm of one joint against its rod or core, from one end of the swing to the other. */
export interface ArmAngle {
  readonly link: string;
  readonly on: string;
  /** 90 = square: the arm moves the rod as much as it can; 0 = dead centre [deg]. */
  readonly angleDeg: readonly [atLowEnd: number, atRest: number, atHighEnd: number];
  readonly leastDeg: number;
  /** Where it is least [mm]. */
  readonly atMm: Vec;
}

export interface DeadCentre {
  readonly turnDeg: number;
  readonly link: string;
  readonly atMm: Vec;
}

/** A joint that stops reaching within the swing: it locks there. */
export interface LockUp extends DeadCentre {
  /** What is left of the swing on that side [deg]. */
  readonly missedDeg: number;
}

/** Where the hand, the foot or what drives it takes hold: the handle, else its first arm. */
export const driveMm = (lever: Lever): Vec | undefined => lever.handle?.atMm ?? lever.arms[0]?.atMm;

/** The curve of a chain through the whole swing. */
export function ratioCurve(run: ChainRun, driveRadiusMm: number): readonly RatioRow[] {
  return run.states.map((state) => ({
    turnDeg: state.turnRad * DEG,
    handleMm: state.turnRad * driveRadiusMm,
    outputMm: state.outputMm,
    leverRatio: ratioAt(state, driveRadiusMm),
  }));
}

/** A ratio beyond this is a dead centre. */
const MOST_RATIO = 1e4;

export function ratioAt(state: ChainState, driveRadiusMm: number): number | null {
  const ratio = driveRadiusMm / Math.abs(state.outputRateMm);
  return Number.isFinite(ratio) && ratio < MOST_RATIO ? ratio : null;
}

/** Whether the output goes the way the handle goes, as drawn. */
export function directionKept(chain: Chain, state: ChainState, drive: Vec): 'kept' | 'reversed' | 'across' {
  const handleWay = unit(pinRate(chain.crank, drive));
  const towards = chain.end.kind === 'pin' ? state.endWay : unit(sub(chain.end.cylinder.farMm, state.endMm));
  const cosine = dot(handleWay, towards) * Math.sign(state.outputRateMm);
  return Math.abs(cosine) < ACROSS ? 'across' : cosine > 0 ? 'kept' : 'reversed';
}

/** Ways more than some 75 degrees apart are neither. */
const ACROSS = 0.25;

/** Turns at which the output turns back though the lever goes on, found by halving. */
export function deadCentres(chain: Chain, run: ChainRun): readonly DeadCentre[] {
  return run.states.slice(1).flatMap((state, i): DeadCentre[] => {
    const before = run.states[i]!;
    if (!(state.outputRateMm * before.outputRateMm < 0)) return [];
    let [low, high] = [before.turnRad, state.turnRad];
    for (let k = 0; k < 30; k++) {
      const middle = (low + high) / 2;
      const rate = chainNear(chain, middle, before)?.outputRateMm ?? Number.NaN;
      if (rate * before.outputRateMm > 0) low = middle;
      else high = middle;
    }
    const at = chainNear(chain, low, before) ?? before;
    const k = at.joints.findIndex((_, n) => before.joints[n]!.inMm * state.joints[n]!.inMm < 0);
    const link = k < 0 ? endLink(chain) : chain.joints[k]!.link.id;
    return [{ turnDeg: low * DEG, link, atMm: k < 0 ? at.endMm : at.joints[k]!.fromPinMm }];
  });
}

const endLink = (chain: Chain): string =>
  chain.end.kind === 'cylinder' ? chain.end.cylinder.id : (chain.joints.at(-1)?.link.id ?? chain.lever.id);

export function lockUps(chain: Chain, run: ChainRun): readonly LockUp[] {
  return run.locks.map(({ joint, turnRad, state }): LockUp => {
    const k = chain.joints.indexOf(joint);
    const end = chain.crank.turnRad[turnRad < 0 ? 0 : 1];
    return {
      turnDeg: turnRad * DEG,
      link: joint.link.id,
      atMm: state.joints[k]?.toPinMm ?? joint.toPinMm,
      missedDeg: Math.abs(end - turnRad) * DEG,
    };
  });
}

/** The angle of every arm of a chain to its rod or core: at both ends of the swing, at rest, and where it is least. */
export function armAngles(chain: Chain, run: ChainRun): readonly ArmAngle[] {
  const { states, restIndex } = run;
  const row = (link: string, on: string, angleAt: (state: ChainState) => readonly [number, Vec]): ArmAngle => {
    const all = states.map(angleAt);
    const least = all.reduce((best, one) => (one[0] < best[0] ? one : best));
    return {
      link,
      on,
      angleDeg: [all[0]![0], all[restIndex]![0], all.at(-1)![0]],
      leastDeg: least[0],
      atMm: least[1],
    };
  };
  const out = chain.joints.flatMap((joint, k) => [
    row(joint.link.id, joint.from.id, (state) => [armAngleIn(joint, state.joints[k]!), state.joints[k]!.fromPinMm]),
    row(joint.link.id, joint.to.id, (state) => [armAngleOut(joint, state.joints[k]!), state.joints[k]!.toPinMm]),
  ]);
  const { end } = chain;
  if (end.kind === 'pin') return out;
  const radius = pinRadius(end.crank, end.pinMm);
  return [
    ...out,
    row(end.cylinder.id, end.crank.id, (state) => {
      const way = unit(sub(end.cylinder.farMm, state.endMm));
      return [leverage(dot(way, state.endWay) * radius, radius), state.endMm];
    }),
  ];
}

/** The rod's part along the way its pin goes, as the angle that a plane lever would have there [deg]. */
const leverage = (rateMm: number, radiusMm: number): number =>
  Math.asin(Math.min(1, Math.abs(rateMm) / radiusMm)) * DEG;

const armAngleIn = (joint: Joint, state: JointState): number =>
  leverage(state.inMm, pinRadius(joint.from, joint.fromPinMm));
const armAngleOut = (joint: Joint, state: JointState): number =>
  leverage(state.outMm, pinRadius(joint.to, joint.toPinMm));

/** How far the core of a cable stands off the line of its conduit's end, at most over the swing [deg]. */
export function leadIn(
  states: readonly { readonly pinMm: Vec }[],
  endMm: Vec,
  outwards: Vec,
): { readonly mostDeg: number; readonly atMm: Vec } {
  return states.reduce(
    (most, { pinMm }) => {
      const core = sub(pinMm, endMm);
      const deg = dot(core, core) > 0 ? angleBetweenDeg(core, outwards) : 0;
      return deg > most.mostDeg ? { mostDeg: deg, atMm: pinMm } : most;
    },
    { mostDeg: 0, atMm: endMm },
  );
}

/** How far a place of a lever goes: along its arc to both ends, and straight from end to end [mm]. */
export function swing(crank: Crank, placeMm: Vec) {
  const radiusMm = pinRadius(crank, placeMm);
  const [low, high] = crank.turnRad;
  const [from, to] = [pinAt(crank, placeMm, low), pinAt(crank, placeMm, high)];
  return {
    radiusMm,
    travelMm: [radiusMm * low, radiusMm * high] as const,
    straightMm: Math.hypot(...sub(to, from)),
    fromMm: from,
    toMm: to,
  };
}
