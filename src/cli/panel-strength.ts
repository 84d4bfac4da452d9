import type { PanelAnswer } from '#answers';
import { type PanelLayout, type PanelStrength, panelStrengthOf } from '#panels';
import { formatNumber } from '#units';
import type { Lengths } from './lengths.ts';

/** A panel with what its load does to it, where the car file says a load. */
export interface PanelUnderLoad extends PanelAnswer {
  readonly strength?: PanelStrength;
}

/** One panel under its load, with what is found of that behind the rest. */
export function panelUnderLoad(layout: PanelLayout, answer: PanelAnswer): PanelUnderLoad {
  const found = panelStrengthOf(layout);
  if (found === null) return answer;
  return {
    ...answer,
    ...(found.strength === undefined ? {} : { strength: found.strength }),
    findings: [...answer.findings, ...found.findings],
  };
}

const PSI_PER_MPA = 145.037738;

/** Numbers of a panel under its load; each with what two meshes differ by. */
export function strengthRows({ strength }: PanelUnderLoad, lengths: Lengths): string[] {
  if (strength === undefined) return [];
  const inches = lengths.unit === 'in';
  const { frequencyHz, deflectionMm, stressMpa, bucklingFactor } = strength;
  const row = (what: string, of: PanelStrength['frequencyHz'] | undefined, unit: string, times = 1, decimals = 1) =>
    of === undefined
      ? []
      : [
          `  ${what} ${formatNumber(of.value * times, decimals)} ${unit} (±${formatNumber(of.off * times, decimals)} by the mesh)`,
        ];
  return [
    'Under its load:',
    ...row('own frequency', frequencyHz, 'Hz'),
    ...(inches ? row('deflection', deflectionMm, 'in', 1 / 25.4, 3) : row('deflection', deflectionMm, 'mm', 1, 2)),
    ...(inches ? row('bending stress', stressMpa, 'psi', PSI_PER_MPA, 0) : row('bending stress', stressMpa, 'MPa')),
    ...row('buckles at', bucklingFactor, 'times the load on its edges', 1, 2),
  ];
}
