import type { DrySumpState } from './dry-sump-state.ts';
import type { TankInCase } from './tank-answer.ts';

/** A pan whose pick-ups draw only air, until it has filled up to them or what the car does is over. */
export interface PanUntil {
  /** Until a pick-up draws oil; Infinity where none comes. */
  readonly untilS: number;
  readonly seconds: number;
  /** In the tank then. */
  readonly inTankM3: number;
  /** In the pan then. */
  readonly inPanM3: number;
  readonly isBare: boolean;
}

/** How a pan that draws no oil below `firstM3` fills, and what the tank is left with. */
export function panUntil(state: DrySumpState, tank: TankInCase, vessel: string, firstM3: number): PanUntil {
  const stands = state.asked.vessels.get(vessel)?.fillM3 ?? 0;
  const comes = state.oilInto(vessel);
  const lacks = Math.max(0, firstM3 - stands);
  const untilS = lacks === 0 ? 0 : comes > 0 ? lacks / comes : Infinity;
  const seconds = Math.min(state.asked.at.lastsS ?? Infinity, untilS);
  const gone = Number.isFinite(seconds) ? comes * seconds : 0;
  const inTankM3 = Math.max(0, tank.oilM3 - gone);
  return {
    untilS,
    seconds,
    inTankM3,
    inPanM3: stands + gone,
    isBare: tank.leastM3 === null || inTankM3 < tank.leastM3,
  };
}
