import type { Car, Lever, Mover } from '#car';
import { add, cross, dot, norm, scale, sub, turned, unit, type Vec } from '#geometry';

/** Something that swings about an axis: a lever, or a mover of the car. */
export interface Crank {
  readonly id: string;
  readonly name: string;
  readonly pivotMm: Vec;
  /** Length 1. */
  readonly axis: Vec;
  /** Its swing from as drawn [rad]. */
  readonly turnRad: readonly [low: number, high: number];
}

const RAD = Math.PI / 180;

export const leverCrank = (lever: Pick<Lever, 'id' | 'name' | 'pivotMm' | 'axis' | 'turnDeg'>): Crank => ({
  id: lever.id,
  name: lever.name ?? lever.id,
  pivotMm: lever.pivotMm,
  axis: unit(lever.axis),
  turnRad: [lever.turnDeg[0] * RAD, lever.turnDeg[1] * RAD],
});

/** A mover as a crank; undefined where it does not swing. What it slides is left out: it goes with what carries it. */
export function moverCrank(mover: Mover): Crank | undefined {
  if (mover.pivotMm === undefined || mover.axis === undefined || mover.turnDeg === undefined) return undefined;
  const { id, pivotMm, axis, turnDeg } = mover;
  return { id, name: mover.name ?? id, pivotMm, axis: unit(axis), turnRad: [turnDeg[0] * RAD, turnDeg[1] * RAD] };
}

/** Where a pin of a crank is, turned from as drawn [mm]. */
export const pinAt = (crank: Crank, pinMm: Vec, turnRad: number): Vec =>
  add(crank.pivotMm, turned(sub(pinMm, crank.pivotMm), crank.axis, turnRad));

/** How a pin moves as its crank turns [mm/rad]. */
export const pinRate = (crank: Crank, pinNowMm: Vec): Vec => cross(crank.axis, sub(pinNowMm, crank.pivotMm));

/** How far a pin is from its axis [mm]. */
export const pinRadius = (crank: Crank, pinMm: Vec): number => norm(pinRate(crank, pinMm));

/** The foot of a pin on its axis [mm]. */
export const footOnAxis = (crank: Crank, pinMm: Vec): Vec =>
  add(crank.pivotMm, scale(crank.axis, dot(crank.axis, sub(pinMm, crank.pivotMm))));

/** The crank at the far end of a rod or cable, with its pin; undefined where the car does not have it. */
export function farCrank(
  car: Pick<Car, 'levers' | 'movers'>,
  to: {
    readonly lever?: string | undefined;
    readonly arm?: string | undefined;
    readonly mover?: string | undefined;
    readonly atMm?: Vec | undefined;
  },
): { readonly crank: Crank; readonly pinMm: Vec; readonly lever?: Lever } | undefined {
  if (to.lever !== undefined) {
    const lever = car.levers?.find((row) => row.id === to.lever);
    const arm = lever?.arms.find((row) => row.id === to.arm);
    return lever === undefined || arm === undefined ? undefined : { crank: leverCrank(lever), pinMm: arm.atMm, lever };
  }
  const mover = car.movers.find((row) => row.id === to.mover);
  const crank = mover === undefined ? undefined : moverCrank(mover);
  return crank === undefined || to.atMm === undefined ? undefined : { crank, pinMm: to.atMm };
}
