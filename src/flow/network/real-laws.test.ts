import { describe, expect, it } from 'vitest';
import { checkValveLoss } from '../losses/check-valve.ts';
import { lineLoss } from '../losses/line-loss.ts';
import { reliefValveLoss } from '../losses/relief-valve.ts';
import type { LossLaw } from './loss-law.ts';
import { displacementPump, spinningPump } from './planted/plain-laws.ts';
import { soundNetwork } from './planted/random-network.ts';
import { type Seeded, seeded } from './planted/seeded.ts';
import { solveNetwork } from './solve-network.ts';

/** An element of the room's own, in oil, coolant or petrol. */
function realLaw(by: Seeded, fluid: { densityKgM3: number; viscosityPaS: number }): LossLaw {
  const where = 'an element';
  const boreM = by.scale(0.004, 0.05);
  const kind = by.between(0, 1);
  if (kind < 0.1)
    return checkValveLoss({
      where,
      boreM,
      cracksAtPa: by.oneOf([0, 5e3]),
      openCoefficient: 2,
      leak: { flowM3S: by.scale(1e-10, 1e-7), atPa: 1e5 },
    }).under(fluid);
  if (kind < 0.2) {
    const cracksAtPa = by.scale(1e5, 8e5);
    return reliefValveLoss({
      where,
      boreM,
      cracksAtPa,
      fullAtPa: 1.2 * cracksAtPa,
      fullFlowM3S: by.scale(1e-5, 1e-3),
    }).under(fluid);
  }
  if (kind < 0.25) return displacementPump(by.scale(1e-5, 1e-3), by.scale(1e-13, 1e-10));
  if (kind < 0.3) return spinningPump(by.scale(1e4, 3e5), by.scale(1e-4, 5e-3));
  return lineLoss({ where, boreM, lengthM: by.scale(0.05, 4), roughnessM: 1e-5 }).under(fluid);
}

describe('random networks of hoses, valves and pumps with the laws of the room', () => {
  it('settle and balance: seeds 1 to 150', () => {
    const fluids = [
      { densityKgM3: 880, viscosityPaS: 2 },
      { densityKgM3: 840, viscosityPaS: 0.01 },
      { densityKgM3: 1050, viscosityPaS: 0.001 },
      { densityKgM3: 740, viscosityPaS: 0.0005 },
    ];
    for (let seed = 1; seed <= 150; seed++) {
      const by = seeded(seed + 31);
      const network = soundNetwork(seed, 120);
      const fluid = by.oneOf(fluids);
      const branches = network.branches.map((branch) => ({ ...branch, law: realLaw(by, fluid) }));
      const answer = solveNetwork({ ...network, branches });
      expect(answer.ok ? 'settled' : answer.why, `seed ${seed}`).toBe('settled');
      if (!answer.ok) continue;
      const most = answer.flowM3S.reduce((a, q) => Math.max(a, Math.abs(q)), 0);
      expect(answer.imbalanceM3S).toBeLessThanOrEqual(1e-9 * most);
      expect(answer.iterations).toBeLessThan(60);
    }
  });
});
