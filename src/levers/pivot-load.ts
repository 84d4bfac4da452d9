import { add, dot, scale, sub, unit, type Vec } from '#geometry';
import type { Chain, ChainState } from './chain.ts';
import { pinRate } from './crank.ts';
import type { LeverCable } from '#car';

/**
 * What the pivot of a lever is pushed with while it is held against its load: the hand's force and that of the rod, core or cylinder on its
 * arm, added as they point. The hand pushes along its arc [N].
 *
 * @param linkN - force on the rod, core or cylinder on the lever's own arm
 */
export function pivotLoadN(chain: Chain, state: ChainState, driveAtMm: Vec, handN: number, linkN: number): Vec {
  const joint = chain.joints[0];
  const turnWay = Math.sign(state.outputRateMm) || 1;
  const hand = scale(unit(pinRate(chain.crank, driveAtMm)), handN * turnWay);
  const pinMm = state.joints[0]?.fromPinMm ?? state.endMm;
  const along = joint === undefined ? towardsCylinder(chain, pinMm) : linkWay(chain, state, pinMm);
  // The link pushes back against the way its pin moves.
  const back = Math.sign(dot(along, pinRate(chain.crank, pinMm)) * turnWay) || 1;
  return add(hand, scale(along, -back * linkN));
}

function towardsCylinder({ end }: Chain, pinMm: Vec): Vec {
  return end.kind === 'cylinder' ? unit(sub(end.cylinder.farMm, pinMm)) : [0, 0, 0];
}

function linkWay(chain: Chain, state: ChainState, pinMm: Vec): Vec {
  const joint = chain.joints[0]!;
  const other = joint.kind === 'cable' ? (joint.link as LeverCable).pathMm[0]! : state.joints[0]!.toPinMm;
  return unit(sub(other, pinMm));
}
