import type { LeverCable } from '#car';
import { cablePath } from './cable-path.ts';
import { type Chain, type ChainState } from './chain.ts';
import { pinRadius } from './crank.ts';
import { capstanShare } from './effort-formulas.ts';
import type { Joint } from './joint.ts';
import { limits } from './limits.ts';

/** What one joint takes from the force that goes through it. */
export interface JointLoss {
  /** Force out over force in, seals aside [-]. */
  readonly passesShare: number;
  /** Drag of the two end seals, each [N]. */
  readonly sealN: number;
}

const lossOf = (joint: Joint): JointLoss =>
  joint.kind === 'cable' ? cableLoss(joint.link as LeverCable) : { passesShare: 1 - rodLost(joint), sealN: 0 };

const rodLost = (joint: Joint): number =>
  ('lostShare' in joint.link ? joint.link.lostShare : undefined) ?? limits.rodLostShare.value;

export const cableLoss = (cable: LeverCable): JointLoss => ({
  passesShare: capstanShare(cable.frictionRatio ?? limits.cableFriction.value, cablePath(cable.pathMm, 0).bendDeg),
  sealN: cable.sealDragN ?? 0,
});

/** Forces along a chain with the lever held at one place. */
export interface ChainForces {
  /** On each rod or core, where it leaves the driving lever [N]. */
  readonly linkN: readonly number[];
  /** On the pin at the end, along its arc; or on the cylinder's rod, losses of the cylinder not yet off [N]. */
  readonly outputN: number;
}

/** What a hand force does at the end of a chain, losses taken off; undefined on a dead centre, where no force is told. */
export function forcesFromHandle(
  chain: Chain,
  state: ChainState,
  driveRadiusMm: number,
  handN: number,
): ChainForces | undefined {
  let torque = handN * driveRadiusMm;
  const linkN: number[] = [];
  for (const [k, joint] of state.joints.entries()) {
    const { passesShare, sealN } = lossOf(chain.joints[k]!);
    const link = torque / Math.abs(joint.inMm);
    linkN.push(link);
    torque = Math.max(0, Math.max(0, link - sealN) * passesShare - sealN) * Math.abs(joint.outMm);
  }
  const outputN = torque / endArm(chain, state);
  return [...linkN, outputN].every(Number.isFinite) ? { linkN, outputN } : undefined;
}

/** The hand force that a force at the end of a chain asks for; undefined on a dead centre. */
export function handleFor(chain: Chain, state: ChainState, driveRadiusMm: number, outputN: number): number | undefined {
  let torque = outputN * endArm(chain, state);
  for (let k = state.joints.length - 1; k >= 0; k--) {
    const joint = state.joints[k]!;
    const { passesShare, sealN } = lossOf(chain.joints[k]!);
    torque = ((torque / Math.abs(joint.outMm) + sealN) / passesShare + sealN) * Math.abs(joint.inMm);
  }
  const handN = torque / driveRadiusMm;
  return Number.isFinite(handN) ? handN : undefined;
}

/** Torque on the last crank over force at its end [mm]. */
function endArm(chain: Chain, state: ChainState): number {
  if (chain.end.kind === 'pin') return pinRadius(chain.end.crank, chain.end.pinMm);
  const turns = state.joints.reduce((rate, joint) => rate * joint.rateRatio, 1);
  return Math.abs(state.outputRateMm / turns);
}
