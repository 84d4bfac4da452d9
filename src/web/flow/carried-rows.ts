import { type FlowUnits, pressureWords } from '#book';
import { aeratedLiquid, type CircuitState, fluidAt, type LineFlow, standardPressure } from '#flow';
import { formatNumber } from '#units';

interface CarriedRow {
  readonly name: string;
  readonly value: string;
  readonly from: string;
}

const mPas = (viscosityPaS: number): string => formatNumber(viscosityPaS * 1000, viscosityPaS < 1e-4 ? 4 : 2);

/**
 * What a line carries, as it was reckoned with: the fluid of its circuit; air; or oil and air as one, with what each model of its
 * viscosity says and how much it gives under pressure.
 */
export function carriedRows(line: LineFlow, state: CircuitState, units: FlowUnits): readonly CarriedRow[] {
  const { fluid, temperatureC } = state;
  if (fluid === null || temperatureC === null) return [];
  if (line.carries === 'liquid' || line.carries === 'drain')
    return plain(fluid, line.carries === 'drain' ? 'the fluid at this temperature, without foam' : AT_HEAT);
  const absPa = standardPressure(state.case.altitudeM ?? 0) + (line.fromPa + line.toPa) / 2;
  const air = fluidAt({ kind: 'air' }, temperatureC, absPa);
  if (!air.ok) return [];
  if (line.carries === 'gas') return plain(air.state, 'air at the temperature of the oil');
  const mix = aeratedLiquid(fluid, air.state, line.voidShare ?? 0, absPa);
  const { mcAdams, cicchitti, dukler, beattieWhalley, fewBubbles, least, most } = mix.viscosityPaS;
  return [
    {
      name: 'Air in it',
      value: `${formatNumber(100 * mix.voidFraction, 1)} % by volume`,
      from: `what the stage sweeps less the oil that comes, at ${pressureWords((line.fromPa + line.toPa) / 2, units)}`,
    },
    {
      name: 'Viscosity, worked with',
      value: `${mPas(beattieWhalley)} mPa s`,
      from: `Beattie and Whalley; no model is right for all: ${mPas(least)} to ${mPas(most)}`,
    },
    {
      name: 'Other models',
      value: [mcAdams, cicchitti, dukler, fewBubbles].map(mPas).join(', '),
      from: 'McAdams; Cicchitti; Dukler; few bubbles (mPa s)',
    },
    { name: 'Density', value: `${formatNumber(mix.densityKgM3)} kg/m³`, from: 'oil and air at one speed' },
    {
      name: 'Gives under pressure',
      value: `${formatNumber(mix.compressibilityPerPa * 1e7, 2)} % a bar`,
      from: 'the air by Boyle, the oil by its bulk modulus of 1.5 GPa (from memory)',
    },
  ];
}

const AT_HEAT = 'the fluid at this temperature';

const plain = (
  { viscosityPaS, densityKgM3 }: { readonly viscosityPaS: number; readonly densityKgM3: number },
  from: string,
): CarriedRow[] => [
  { name: 'Viscosity', value: `${mPas(viscosityPaS)} mPa s`, from },
  { name: 'Density', value: `${formatNumber(densityKgM3, densityKgM3 < 10 ? 2 : 0)} kg/m³`, from },
];

const FROTH_FORMULAS = [
  'viscosity-beattie-whalley',
  'viscosity-mcadams',
  'viscosity-cicchitti',
  'viscosity-dukler',
  'viscosity-few-bubbles',
  'mixture-compressibility',
] as const;

/** Formulas of what a line carries, beyond those of its losses. */
export const carriedFormulas = ({ carries }: LineFlow): readonly string[] =>
  carries === 'oil and air' ? FROTH_FORMULAS : [];
