import { describe, expect, it } from 'vitest';
import { seeded } from '../../../test/flow/fluids-for-tests.ts';
import { expectedOf, named, published, type PublishedValue, tolerance } from '../../../test/published/published.ts';
import {
  counterFlowEffectiveness,
  crossFlowEffectiveness,
  crossFlowEffectivenessShort,
  crossFlowMixedEffectiveness,
  ntuOfEffectiveness,
  parallelFlowEffectiveness,
} from './effectiveness.ts';

function near(item: PublishedValue, answers: Readonly<Record<string, number>>): void {
  expect(Object.keys(answers).sort()).toEqual(Object.keys(item.expected as object).sort());
  for (const [name, value] of Object.entries(answers)) {
    const expected = expectedOf(item, name);
    expect(Math.abs(value - expected), `${name}: ${value} for ${expected}`).toBeLessThanOrEqual(
      tolerance(item, expected),
    );
  }
}

const grid = ({ inputs }: PublishedValue): Record<string, number> => {
  const [ntu, ratio] = [inputs['NTU']!, inputs['Cr']!];
  return {
    counterflow: counterFlowEffectiveness(ntu, ratio),
    parallel: parallelFlowEffectiveness(ntu, ratio),
    crossflow_unmixed_exact: crossFlowEffectiveness(ntu, ratio),
    crossflow_unmixed_approx: crossFlowEffectivenessShort(ntu, ratio),
    crossflow_Cmax_mixed_Cmin_unmixed: crossFlowMixedEffectiveness(ntu, ratio, 'greater'),
    crossflow_Cmin_mixed_Cmax_unmixed: crossFlowMixedEffectiveness(ntu, ratio, 'lesser'),
  };
};

/** Each published row, worked as its own page works it. */
function worked(item: PublishedValue): Record<string, number> {
  const g = item.inputs;
  if (item.id.startsWith('ntu-grid-')) return grid(item);
  if (item.id === 'ntu-crossflow-10-7') {
    const [air, water] = [g['C_air']!, g['C_water']!];
    const [ntu, ratio] = [g['UA']! / air, air / water];
    const short = crossFlowEffectivenessShort(ntu, ratio);
    const heat = short * air * (g['T_h_in']! - g['T_c_in']!);
    return {
      NTU: ntu,
      Cr: ratio,
      eff_approx: short,
      eff_exact: crossFlowEffectiveness(ntu, ratio),
      Q_W: heat,
      T_air_out: g['T_h_in']! - heat / air,
    };
  }
  if (item.id === 'ntu-parallel-ex2') {
    const [hot, cold] = [g['C_h']!, g['C_c']!];
    const eff = parallelFlowEffectiveness(g['UA']! / hot, hot / cold);
    return { eff, Q_W: eff * hot * (g['T_h_in']! - g['T_c_in']!) };
  }
  if (item.id === 'ntu-counterflow-hw2') {
    const [cold, hot] = [g['T_c'], g['T_h']] as unknown as [[number, number], [number, number]];
    const heat = g['C_c_W_K']! * (cold[1] - cold[0]);
    const hotCapacity = heat / (hot[0] - hot[1]);
    const ratio = hotCapacity / g['C_c_W_K']!;
    const eff = heat / (hotCapacity * (hot[0] - cold[0]));
    const ntu = ntuOfEffectiveness(eff, (n) => counterFlowEffectiveness(n, ratio))!;
    return { eff, Cr: ratio, NTU: ntu, A_m2: (ntu * hotCapacity) / g['U']! };
  }
  throw new Error(`no one knows how to work ${item.id}`);
}

describe('effectiveness by transfer units', () => {
  it.each(published('heat.hx').map((item) => [named(item), item] as const))('%s', (_, item) => {
    near(item, worked(item));
  });

  it('of unmixed cross-flow lies between parallel flow and counterflow, and rises with the transfer units', () => {
    const draw = seeded(11);
    for (let i = 0; i < 500; i++) {
      const [ntu, ratio] = [draw(0.01, 12), draw(0, 1)];
      const here = crossFlowEffectiveness(ntu, ratio);
      expect(here).toBeGreaterThan(parallelFlowEffectiveness(ntu, ratio) - 1e-12);
      expect(here).toBeLessThan(counterFlowEffectiveness(ntu, ratio) + 1e-12);
      expect(crossFlowEffectiveness(ntu * 1.1, ratio)).toBeGreaterThan(here);
    }
  });

  it('is undone by the search for transfer units, and one that cannot be has none', () => {
    const draw = seeded(12);
    for (let i = 0; i < 100; i++) {
      const [ntu, ratio] = [draw(0.05, 6), draw(0.1, 1)];
      const found = ntuOfEffectiveness(crossFlowEffectiveness(ntu, ratio), (n) => crossFlowEffectiveness(n, ratio));
      expect(found).toBeCloseTo(ntu, 8);
    }
    expect(ntuOfEffectiveness(0.9, (n) => parallelFlowEffectiveness(n, 1))).toBeUndefined();
  });
});
