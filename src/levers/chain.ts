import type { Car, Lever, LeverCylinder } from '#car';
import { dot, sub, unit, type Vec } from '#geometry';
import { type Crank, farCrank, leverCrank, pinAt, pinRadius, pinRate } from './crank.ts';
import { branchOf, type Joint, type JointState, jointState } from './joint.ts';
import { apart } from './turns-at-distance.ts';

/** From a lever through rods and cables, lever after lever, to what moves in the end: a pin, or the rod of a cylinder. */
export interface Chain {
  readonly lever: Lever;
  readonly crank: Crank;
  readonly joints: readonly Joint[];
  readonly end:
    | { readonly kind: 'pin'; readonly crank: Crank; readonly pinMm: Vec }
    | { readonly kind: 'cylinder'; readonly crank: Crank; readonly pinMm: Vec; readonly cylinder: LeverCylinder };
}

/** Levers one behind another are followed as far as this. */
const MOST_JOINTS = 8;

/** Every chain that begins at a lever. A ring of levers is followed once round, not again. */
export function chainsOf(car: Pick<Car, 'levers' | 'movers'>, lever: Lever): readonly Chain[] {
  return following(car, lever, lever, [], new Set([lever.id]));
}

function following(
  car: Pick<Car, 'levers' | 'movers'>,
  first: Lever,
  at: Lever,
  joints: readonly Joint[],
  seen: ReadonlySet<string>,
): readonly Chain[] {
  const crank = leverCrank(at);
  const pinOf = (arm: string): Vec | undefined => at.arms.find((row) => row.id === arm)?.atMm;
  const out: Chain[] = (at.cylinders ?? []).flatMap((cylinder): Chain[] => {
    const pinMm = pinOf(cylinder.arm);
    return pinMm === undefined
      ? []
      : [{ lever: first, crank: leverCrank(first), joints, end: { kind: 'cylinder', crank, pinMm, cylinder } }];
  });
  const links = [
    ...(at.rods ?? []).map((link) => ({ kind: 'rod', link }) as const),
    ...(at.cables ?? []).map((link) => ({ kind: 'cable', link }) as const),
  ];
  for (const { kind, link } of links) {
    const [pin, far] = [pinOf(link.arm), farCrank(car, link.to)];
    if (pin === undefined || far === undefined) continue;
    const farLever = far.lever;
    const joint: Joint = {
      kind,
      link,
      from: crank,
      fromPinMm: pin,
      to: far.crank,
      toPinMm: far.pinMm,
      ...(farLever === undefined ? {} : { farLever }),
    };
    const on = [...joints, joint];
    const further =
      farLever === undefined || seen.has(farLever.id) || on.length >= MOST_JOINTS
        ? []
        : following(car, first, farLever, on, new Set([...seen, farLever.id]));
    out.push(
      ...(further.length > 0
        ? further
        : [
            {
              lever: first,
              crank: leverCrank(first),
              joints: on,
              end: { kind: 'pin', crank: far.crank, pinMm: far.pinMm },
            } as const,
          ]),
    );
  }
  return out;
}

/** How a chain stands at one turn of its lever. */
export interface ChainState {
  readonly turnRad: number;
  readonly joints: readonly JointState[];
  /** How far its end has moved from as drawn: a pin along its arc, a cylinder's rod inwards [mm]. */
  readonly outputMm: number;
  /** Movement of its end per turn of the lever [mm/rad]. */
  readonly outputRateMm: number;
  /** Where its end is [mm]. */
  readonly endMm: Vec;
  /** Which way its end moves as the lever turns on; length 1. */
  readonly endWay: Vec;
}

/** How many places a swing is looked at in, either way: curves are drawn and limits sought between them. */
const STEPS = 60;

/** How a chain stands from one end of the lever's swing to the other, and the joint that stops it at an end, if one does. */
export interface ChainRun {
  readonly states: readonly ChainState[];
  readonly restIndex: number;
  readonly locks: readonly { readonly joint: Joint; readonly turnRad: number; readonly state: ChainState }[];
}

/** A chain run through the whole swing of its lever, both ways from as drawn. */
export function chainRun(chain: Chain, steps = STEPS): ChainRun {
  const branches = chain.joints.map(branchOf);
  const rest = chainState(chain, branches, 0, undefined);
  if ('stuck' in rest) return { states: [], restIndex: 0, locks: [] };
  const sides = chain.crank.turnRad.map((end) => walked(chain, branches, rest, end, steps));
  const [low, high] = [sides[0]!, sides[1]!];
  return {
    states: [...low.states.toReversed(), rest, ...high.states],
    restIndex: low.states.length,
    locks: [low, high].flatMap((side) => side.locks),
  };
}

function walked(
  chain: Chain,
  branches: readonly (1 | -1)[],
  rest: ChainState,
  end: number,
  steps: number,
): Pick<ChainRun, 'states' | 'locks'> {
  const states: ChainState[] = [];
  if (end === 0) return { states, locks: [] };
  let last = rest;
  for (let k = 1; k <= steps; k++) {
    const next = chainState(chain, branches, (end * k) / steps, last);
    if (!('stuck' in next)) {
      states.push((last = next));
      continue;
    }
    const at = lockAt(chain, branches, last, (end * k) / steps);
    if (at.turnRad !== last.turnRad) states.push(at);
    return { states, locks: [{ joint: chain.joints[next.stuck]!, turnRad: at.turnRad, state: at }] };
  }
  return { states, locks: [] };
}

/** The last turn at which the chain still reaches, by halving; right to 1e-9 of a step. */
function lockAt(chain: Chain, branches: readonly (1 | -1)[], good: ChainState, badRad: number): ChainState {
  let last = good;
  let beyond = badRad;
  for (let k = 0; k < 40; k++) {
    const middle = (last.turnRad + beyond) / 2;
    const state = chainState(chain, branches, middle, last);
    if ('stuck' in state) beyond = middle;
    else last = state;
  }
  return last;
}

/** How a chain stands at a turn, going on from how it stood before; the number of the joint that does not reach. */
function chainState(
  chain: Chain,
  branches: readonly (1 | -1)[],
  turnRad: number,
  before: ChainState | undefined,
): ChainState | { readonly stuck: number } {
  const joints: JointState[] = [];
  let [turn, rate] = [turnRad, 1];
  for (const [k, joint] of chain.joints.entries()) {
    const state = jointState(joint, branches[k]!, turn, before?.joints[k]?.toRad ?? 0);
    if (state === undefined) return { stuck: k };
    joints.push(state);
    turn = state.toRad;
    rate *= state.rateRatio;
  }
  return { turnRad, joints, ...endState(chain.end, turn, rate) };
}

function endState(end: Chain['end'], turnRad: number, rateRatio: number) {
  const endMm = pinAt(end.crank, end.pinMm, turnRad);
  const way = pinRate(end.crank, endMm);
  const endWay = unit(way);
  if (end.kind === 'pin') {
    const radius = pinRadius(end.crank, end.pinMm);
    return { outputMm: radius * turnRad, outputRateMm: radius * rateRatio, endMm, endWay };
  }
  const far = end.cylinder.farMm;
  const towards = unit(sub(far, endMm));
  return {
    outputMm: apart(end.pinMm, far) - apart(endMm, far),
    outputRateMm: dot(towards, way) * rateRatio,
    endMm,
    endWay,
  };
}

/** How a chain stands at a turn near to one at which it is known; undefined where it does not reach. */
export function chainNear(chain: Chain, turnRad: number, before: ChainState): ChainState | undefined {
  const state = chainState(chain, chain.joints.map(branchOf), turnRad, before);
  return 'stuck' in state ? undefined : state;
}

/** How a chain stands at one turn; undefined where it does not reach. Walks there from as drawn, so that it stays on its branch. */
export function chainAt(chain: Chain, turnRad: number): ChainState | undefined {
  const branches = chain.joints.map(branchOf);
  let last: ChainState | undefined;
  for (let k = 0; k <= STEPS; k++) {
    const next = chainState(chain, branches, (turnRad * k) / STEPS, last);
    if ('stuck' in next) return undefined;
    last = next;
  }
  return last;
}
