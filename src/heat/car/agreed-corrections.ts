import type { Car } from '#car';
import type { HeatCase } from '../heat-answer.ts';
import type { CarHeat } from './car-heat.ts';
import { bayRisesOf, type Corrections, noCorrections, risesOf } from './readings.ts';

/** The air of a bay is brought to what was read to this share of its rise, or in so many rounds. */
const NEAR = 0.02;
const MOST_ROUNDS = 6;
/** Beyond these a reading tells of something else than how much air passes. */
const LEAST_SHARE = 0.01;
const MOST_SHARE = 100;

/**
 * What the readings that the builder agreed to correct, first the air of bays, then what stands in it. A bay comes to what was read when
 * its air carries off another share of the heat than was worked out: that share divided by the factor that its rise is off, until it is
 * not off any more, since heat and draught change with the air. The work is left corrected by the shares.
 *
 * @param answers - the cases that were read in, or all, not corrected
 */
export function agreedCorrections(car: Car, work: CarHeat, answers: readonly HeatCase[]): Corrections {
  let now = answers;
  let airShares = noCorrections.airShares;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const off = [...bayRisesOf(car, now)].filter(([, factor]) => factor > 0 && Math.abs(factor - 1) > NEAR);
    if (off.length === 0) break;
    const before = airShares;
    airShares = new Map([...before, ...off.map(([bay, factor]) => [bay, shareOf(before.get(bay), factor)] as const)]);
    work.correctBy({ ...noCorrections, airShares });
    now = now.map(({ case: at }) => work.inCase(at));
  }
  return { rises: risesOf(car, now), airShares };
}

const shareOf = (before = 1, factor: number): number => Math.min(MOST_SHARE, Math.max(LEAST_SHARE, before / factor));
