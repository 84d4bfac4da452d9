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
  'vent-speed': {
    equation: 'V = Q/(pi d^2/4) of the gas',
    range: 'steady; mean over the bore',
    formulas: ['line-velocity'],
  },
  'gas-pressure': {
    equation: 'p_gas at which what comes in leaves through vents and breather',
    range: 'steady; seals are taken as tight',
    formulas: losses,
  },
  'drain-capacity': {
    equation: 'Q of the drain half full, laminar (exact) or turbulent, over the foam of the oil that comes',
    range: 'steady, by gravity alone, at its least fall; foam three times the oil, from memory',
    formulas: ['drain-laminar-full', 'drain-laminar-ratio', 'drain-turbulent'],
  },
  'drain-falls': {
    equation: 'fall = asin(drop along the pull/length), least along the line',
    range: 'the way as taken',
  },
  'outlet-bare': {
    equation: 'height of the surface over the highest point of the bore, surface square to the pull',
    range: 'a surface at rest; it swings past this before it settles',
    formulas: ['oil-surface-angle', 'oil-wall-rise'],
  },
  'outlet-g': {
    equation:
      'least g at which the surface, square to the pull and over the same oil, comes down to the top of the bore',
    range: 'g held; 1 g downward; up to 3 g',
    formulas: ['oil-surface-angle', 'hoof-volume'],
  },
  'least-fill': {
    equation: 'oil below the surface that just covers the bore, the most of all cases',
    range: 'g held; the tank as drawn',
    formulas: ['hoof-volume'],
  },
  'runs-bare': {
    equation: 't = oil over the bore/(drawn - brought back), what pans keep back missing meanwhile',
    range: 'g held; steady flow',
  },
  'pan-bare': { equation: 'oil below the lowest edge of the bores at this g', range: 'g held; the pan as drawn' },
  'pan-keeps': { equation: 'oil below the lowest edge of the bores, level', range: 'the pan as drawn' },
  'outlet-wave': {
    equation: 'rest (1 + exp(-pi z/sqrt(1 - z^2))) against the top of the bore',
    range: 'the first wave of a smooth upright tank, linear, after a step of g',
    formulas: ['slosh-round-frequency', 'slosh-box-frequency', 'slosh-overshoot', 'slosh-ring-damping'],
  },
  bubbles: {
    equation: 'd = sqrt(18 mu depth/(g (rho - rho_air) dwell))',
    range: 'slow rise of rigid bubbles, Reynolds below 1; oil goes through the tank evenly',
    formulas: ['dwell-time', 'rise-of-rigid-bubble', 'smallest-risen-bubble'],
  },
  'tank-air': { equation: 'volume of the tank - oil in it while it runs', range: 'the tank as drawn or stated' },
  'lap-air': {
    equation: 'time in which part of the bore stands over the swinging surface',
    range: 'one plane that swings as the first wave; steps by error control',
    formulas: ['slosh-round-frequency', 'slosh-overshoot'],
  },
  'lap-pressure': {
    equation: 'p_gallery where pump, lines and engine balance, at each moment of the log',
    range: 'steady at each moment; no static head',
    formulas: losses,
  },
  'lap-level': {
    equation: 'oil brought back - oil drawn, over the log',
    range: 'nothing is lost: what leaves one vessel comes into another',
  },
  'too-hot': {
    equation: 'T at which heat in = effectiveness C_least (T - T_air) of the core, round the circuit',
    range: 'core by its one measured point; shares of air and water side from memory',
    formulas: ['cross-flow-effectiveness', 'core-conductance'],
  },
  settles: {
    equation: 'T at which heat in = effectiveness C_least (T - T_air) of the core, round the circuit',
    range: 'core by its one measured point; shares of air and water side from memory',
    formulas: ['cross-flow-effectiveness', 'core-conductance'],
  },
  'heat-stays': {
    equation: 'heat in against effectiveness C_least (T - T_air) of the core at the hottest water worked with',
    range: 'core by its one measured point',
    formulas: ['cross-flow-effectiveness', 'core-conductance'],
  },
  boiling: {
    equation: 'T_boil(p_abs) - T at the place where that is least',
    range: 'pure water by its saturation line, glycol by Raoult; no local boiling at hot walls',
    formulas: ['water-boiling-point', 'glycol-vapour-pressure', 'standard-pressure'],
  },
  'pump-pulls': {
    equation: 'p_inlet = p_header + rho g h - sum of losses(Q) - rho V^2/2',
    range: 'steady flow',
    formulas: ['pump-inlet-pressure', 'suction-head-available'],
  },
  'water-speed': { equation: 'V = Q/(pi d^2/4)', range: 'mean over the bore', formulas: ['line-velocity'] },
  'bleed-flow': {
    equation: 'Q where pump curve and losses of all ways balance',
    range: 'steady flow',
    formulas: losses,
  },
  'air-trap': {
    equation: 'highest point of the line over the lower of its ways up, the car level and leant by 3 degrees',
    range: 'the ways as taken; air that is not swept along',
  },
  'header-height': {
    equation: 'bottom of the header - highest water outside it, along the pull',
    range: 'level, nose up and down, leant to either side by 3 degrees',
  },
  'bleed-dips': { equation: 'highest point so far - height, the most along the bleed', range: 'the way as taken' },
  siphon: {
    equation: '(rho_cold - rho_hot) g H = sum of losses(Q); W = rho c Q (T_boil - T)',
    range: 'switched off, hot leg at boiling, the rest as it is',
    formulas: ['laminar-thermosiphon'],
  },
  'siphon-stalls': {
    equation: 'height that warmth lifts, (rho_cold - rho_hot)/rho_cold H, against what is to be lifted',
    range: 'switched off, hot leg at boiling, the rest as it is',
    formulas: ['laminar-thermosiphon'],
  },
  'lift-short': { equation: 'Q_lift/Q_burnt', range: 'full load, steady' },
  'rail-short': { equation: 'Q_pressure/Q_burnt', range: 'full load, steady' },
  'pot-short': { equation: 't = volume of the pot/Q_burnt', range: 'the lift draws air; a full pot' },
  'vapour-lock': {
    equation: 'p_abs at the inlet - p_vapour(T)',
    range: 'vapour pressure by blend and Reid pressure; weathered fuel has less',
    formulas: ['blend-vapour-pressure', 'petrol-vapour-pressure', 'pump-inlet-pressure'],
  },
  'fuel-draws-air': {
    equation: 'lowest edge of the bore - surface of the fuel',
    range: 'the cell as drawn, at this g',
  },
  'return-loss': { equation: 'sum of losses of the return at what goes back', range: 'steady flow', formulas: losses },
  'vent-small': { equation: 'losses of the vent at the air that the burn lets in', range: 'steady', formulas: losses },
  'vent-in-corner': {
    equation: 'highest point of the vent - surface of the fuel, along the pull of this case',
    range: 'the way as taken; fuel at rest at a held g, no sloshing',
  },
  'vent-under-fuel': {
    equation: 'highest point of the vent - surface of the fuel, in each way the car may lie',
    range: 'the way as taken; fuel at rest',
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
