import type { FlowFinding } from '#flow';
import type { Opens } from './opened-number.ts';

interface Row {
  readonly equation: string;
  readonly range: string;
  readonly formulas?: readonly string[];
}

const losses = ['friction-all-regimes', 'bore-reynolds'] as const;

/** What the numbers of the flow room are made of, by what was found. */
const rows: Readonly<Record<string, Row>> = {
  'feed-draws-air': {
    equation: 'p_inlet = p_gas + rho g h - sum of losses(Q) - rho V^2/2, held against the least inlet pressure',
    range: 'steady flow; ends and adapters are known to a factor of two, hose friction to a tenth',
    formulas: losses,
  },
  vacuum: {
    equation: '-p_inlet held against the vacuum that the hose is rated for',
    range: 'steady flow; hot hose collapses earlier than a rating taken cold',
    formulas: losses,
  },
  'feed-speed': { equation: 'V = Q/(pi d^2/4)', range: 'mean over the bore', formulas: ['bore-reynolds'] },
  'suction-depth': {
    equation: 'p_inlet = p_pan - sum of losses of oil and air at the swept volume',
    range: 'oil and air at one speed; viscosity of the froth by five models, least to most',
    formulas: losses,
  },
  'pan-floods': {
    equation: 'oil into the pan held against V n of the stages that draw from it',
    range: 'steady flow',
    formulas: ['displacement-pump-flow'],
  },
  'relief-open': {
    equation: 'Q_relief where the pressure behind the pump stands above cracking',
    range: 'valve by its cracking and full-flow pressure; thick oil passes less',
    formulas: ['displacement-pump-flow'],
  },
  'gallery-pressure': {
    equation: 'p_gallery where pump, lines, filter and engine balance',
    range: 'the engine by its measured curve; its clearances wear',
    formulas: losses,
  },
  'scavenge-ratio': {
    equation: 'sum of V n over the scavenge stages / V n of the pressure stage',
    range: 'displacement, not what is delivered',
  },
  'no-vent': {
    equation: 'gas in = gas out over every space; what is left over has no way',
    range: 'steady; seals are taken as tight',
  },
  'vent-way': { equation: 'blow-by + scavenged air = what the breathers pass', range: 'steady' },
  'outlet-bare': {
    equation: 'height of the surface over the highest point of the bore, surface square to the pull',
    range: 'a surface at rest; it swings past this before it settles',
  },
};

/** How to open the number of a finding; undefined where there is no more to say than its rule. */
export function flowOpens(finding: FlowFinding): Opens | undefined {
  const row = rows[finding.code];
  if (row === undefined) return undefined;
  return {
    equation: row.equation,
    inputs: finding.inputs ?? [],
    range: row.range,
    ...(row.formulas === undefined ? {} : { formulas: row.formulas }),
  };
}
