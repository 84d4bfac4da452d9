import type { HeatFinding } from '#heat';
import type { Opens } from './opened-number.ts';

const BALANCE =
  'e A sigma sum_j D_j (T_j^4 - T^4) + h A (T_air - T) + G (T_fluid - T) = m c dT/dt, the greatest T of the line held against what it stands';

/** What the numbers of heat are made of, by what was found. */
const ranges: Readonly<Record<string, string>> = {
  'heat-hose': 'outside of the hose, under its sleeve; 20 mm of line by 45 degrees round it; convection to 20 %',
  'heat-end': 'mean of the metal that holds the hose',
  'heat-seal': 'mean of the end that the seal sits in; the compound of the ring in your hand decides',
  'heat-fluid': 'mean over the bore; standing fluid is warmed by conduction alone, boiling takes up no heat here',
  'heat-sleeve': 'outside of the sleeve',
  'heat-part': 'one temperature for the whole part',
  'heat-panel': 'cells of 100 mm; sheet conducts between them',
};

const FORMULAS = ['plate-exchange', 'free-cylinder', 'cross-flow-cylinder', 'inside-line'] as const;

/** How to open the number of a finding; undefined where there is no more to say than its rule. */
export function heatOpens(finding: HeatFinding): Opens | undefined {
  const range = ranges[finding.code];
  if (range === undefined) return undefined;
  return { equation: BALANCE, range, inputs: (finding.inputs ?? []).map((row) => ({ ...row })), formulas: FORMULAS };
}
