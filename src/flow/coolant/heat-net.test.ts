import { describe, expect, it } from 'vitest';
import { seeded } from '../../../test/flow/fluids-for-tests.ts';
import { type HeatBranch, heatNet } from './heat-net.ts';

const lMin = 1 / 60_000;
/** Round numbers: a litre a minute carries 70 W for each kelvin. */
const CAPACITY = 4.2e6;

describe('temperatures round a net of water', () => {
  it('of two ways that mix, worked by hand', () => {
    // 8.4 kW into 60 L/min: 2 K. 40 L/min through a core of 1400 W/K: carried 2800 W/K, so half of the difference to the
    // air at 20 C goes; 20 L/min by. All heat must go off there: entry over the air = 8400/1400 = 6 K.
    const net: HeatBranch[] = [
      { id: 'engine', from: 'in', to: 'out', flowM3S: 60 * lMin, heatW: 8400 },
      { id: 'core', from: 'out', to: 'in', flowM3S: 40 * lMin, offWPerK: 1400 },
      { id: 'by', from: 'in', to: 'out', flowM3S: -20 * lMin },
    ];
    const answer = heatNet(net, CAPACITY, 20)!;
    expect(answer.branchC.get('core')!.inC).toBeCloseTo(26, 9);
    expect(answer.branchC.get('core')!.outC).toBeCloseTo(23, 9);
    // Mixed at the inlet: (40 * 23 + 20 * 26)/60 = 24.
    expect(answer.placeC.get('in')).toBeCloseTo(24, 9);
    expect(answer.branchC.get('engine')!.outC).toBeCloseTo(26, 9);
    expect(answer.branchC.get('by')!.outC).toBeCloseTo(26, 9);
  });

  it('balances to 1e-9 in random rings with branches, heat in and off', () => {
    const draw = seeded(5);
    for (let round = 0; round < 200; round++) {
      const n = 3 + Math.floor(draw(0, 12));
      const branches: HeatBranch[] = [];
      // Flows that balance: rings laid over each other, each through random places.
      for (let ring = 0; ring < 4; ring++) {
        const flow = draw(0.1, 80) * lMin;
        const places = ring === 0 ? [...Array(n).keys()] : [...Array(n).keys()].filter(() => draw() < 0.6);
        if (places.length < 2) continue;
        places.forEach((place, i) => {
          const next = places[(i + 1) % places.length]!;
          const back = draw() < 0.3;
          branches.push({
            id: `${ring}-${i}`,
            from: `p${back ? next : place}`,
            to: `p${back ? place : next}`,
            flowM3S: back ? -flow : flow,
            heatW: draw() < 0.4 ? draw(0, 1e5) : 0,
            offWPerK: draw() < 0.4 || i === 0 ? draw(1, 3000) : 0,
          });
        });
      }
      const answer = heatNet(branches, CAPACITY, 25)!;
      expect(answer.heatInW).toBeGreaterThanOrEqual(0);
      expect(Math.abs(answer.heatInW - answer.heatOutW)).toBeLessThanOrEqual(1e-9 * Math.max(1, answer.heatInW));
      expect(answer.imbalanceW).toBeLessThanOrEqual(1e-9 * Math.max(1, answer.heatInW));
      for (const celsius of answer.placeC.values()) expect(celsius).toBeGreaterThanOrEqual(25 - 1e-9);
    }
  });

  it('has none where heat goes in and none can go off', () => {
    const ring: HeatBranch[] = [
      { id: 'engine', from: 'a', to: 'b', flowM3S: 1e-3, heatW: 1000 },
      { id: 'pipe', from: 'b', to: 'a', flowM3S: 1e-3 },
    ];
    expect(heatNet(ring, CAPACITY, 20)).toBeUndefined();
    expect(heatNet([{ ...ring[0]! }, { ...ring[1]!, offWPerK: 5 }], CAPACITY, 20)).toBeDefined();
  });
});
