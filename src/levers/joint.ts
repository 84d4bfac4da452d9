import type { Lever, LeverCable, LeverRod } from '#car';
import { dot, sub, unit, type Vec } from '#geometry';
import { type Crank, pinAt, pinRate } from './crank.ts';
import { apart, turnNear, turnsAtDistance } from './turns-at-distance.ts';

/** A rod or cable between a pin of one crank and a pin of the next. */
export interface Joint {
  readonly kind: 'rod' | 'cable';
  readonly link: LeverRod | LeverCable;
  readonly from: Crank;
  readonly fromPinMm: Vec;
  readonly to: Crank;
  readonly toPinMm: Vec;
  /** The lever at its far end, where it is one. */
  readonly farLever?: Lever;
}

/** How a joint stands at one turn of what drives it. */
export interface JointState {
  readonly fromRad: number;
  readonly toRad: number;
  readonly fromPinMm: Vec;
  readonly toPinMm: Vec;
  /** Movement of rod or core per turn of the driving crank, + towards the other end [mm/rad]. */
  readonly inMm: number;
  /** Movement of rod or core per turn of the driven crank [mm/rad]. */
  readonly outMm: number;
  /** Turn of the driven crank per turn of the driving one; not a number where it stands on a dead centre. */
  readonly rateRatio: number;
}

/** Where the conduit of a cable is held at both ends. */
const heldAt = (cable: LeverCable): readonly [near: Vec, far: Vec] => [cable.pathMm[0]!, cable.pathMm.at(-1)!];

const isCable = (joint: Joint): joint is Joint & { link: LeverCable } => joint.kind === 'cable';

/** What the driven pin must keep its distance from, and how far: a rod from the driving pin, a cable from the end of its conduit. */
function reachOf(joint: Joint, fromPin: Vec): readonly [Vec, number] {
  if (!isCable(joint)) return [fromPin, apart(joint.fromPinMm, joint.toPinMm)];
  const [near, far] = heldAt(joint.link);
  // The core does not stretch: what comes out at one end goes in at the other.
  const core = apart(joint.fromPinMm, near) + apart(joint.toPinMm, far);
  return [far, core - apart(fromPin, near)];
}

/** Which of the two turns the driven crank stands at as drawn. */
export function branchOf(joint: Joint): 1 | -1 {
  const [from, distance] = reachOf(joint, joint.fromPinMm);
  const turns = turnsAtDistance(joint.to, joint.toPinMm, from, distance);
  const off = (branch: 1 | -1): number => Math.abs(turnNear(turns, branch, 0));
  return off(1) <= off(-1) ? 1 : -1;
}

/** How a joint stands with the driving crank at a turn; undefined where it cannot reach: it locks before. */
export function jointState(joint: Joint, branch: 1 | -1, fromRad: number, beforeRad: number): JointState | undefined {
  const fromPin = pinAt(joint.from, joint.fromPinMm, fromRad);
  const [from, distance] = reachOf(joint, fromPin);
  if (!(distance > 0)) return undefined;
  const toRad = turnNear(turnsAtDistance(joint.to, joint.toPinMm, from, distance), branch, beforeRad);
  if (!Number.isFinite(toRad)) return undefined;
  const toPin = pinAt(joint.to, joint.toPinMm, toRad);
  const [inMm, outMm] = linkRates(joint, fromPin, toPin);
  return { fromRad, toRad, fromPinMm: fromPin, toPinMm: toPin, inMm, outMm, rateRatio: inMm / outMm };
}

function linkRates(joint: Joint, fromPin: Vec, toPin: Vec): readonly [number, number] {
  const [vFrom, vTo] = [pinRate(joint.from, fromPin), pinRate(joint.to, toPin)];
  if (!isCable(joint)) {
    const along = unit(sub(toPin, fromPin));
    return [dot(along, vFrom), dot(along, vTo)];
  }
  const [near, far] = heldAt(joint.link);
  const [outOfNear, outOfFar] = [sub(fromPin, near), sub(toPin, far)];
  // A pin that stands at the very end of the conduit has no direction to pull in.
  if (!(dot(outOfNear, outOfNear) > 0 && dot(outOfFar, outOfFar) > 0)) return [Number.NaN, Number.NaN];
  return [-dot(unit(outOfNear), vFrom), dot(unit(outOfFar), vTo)];
}
