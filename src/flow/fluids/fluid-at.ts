import type { Finding } from '#sources';
import { standardAtmospherePa } from '#units';
import { airConductivity, airDensity, airSpecificHeat, airViscosity } from './air.ts';
import type { FluidState } from './fluid-state.ts';
import { type FluidAnswer, type FluidSpec, type FuelSpec, type KnownState, remark } from './fluid-spec.ts';
import {
  blendConductivity,
  blendDensity,
  blendSpecificHeat,
  blendVapourPressure,
  blendViscosity,
  statedViscosityC,
  usualBlendAt15KgM3,
  usualReidOf,
} from './fuel-blend.ts';
import {
  glycolConductivity,
  glycolDensity,
  glycolFitEndsC,
  glycolSpecificHeat,
  glycolVapourPressure,
  glycolViscosity,
} from './glycol.ts';
import { oilAt } from './oil-at.ts';
import { waterVapourPressure } from './saturation.ts';
import { specFaults } from './spec-faults.ts';
import { waterConductivity, waterDensity, waterSpecificHeat, waterViscosity } from './water.ts';

/** Where the measurements behind the glycol correlation end [C]. */
const glycolMeasuredToC = 40;

/** That it boils, where it does. */
const boiling = (vapourAbsPa: number, pressureAbsPa: number | undefined, source: Finding['source']): Finding[] =>
  pressureAbsPa === undefined || pressureAbsPa >= vapourAbsPa
    ? []
    : [
        {
          ...remark('boils', 'it boils at this pressure; the figures are those of the liquid just before', source),
          value: pressureAbsPa,
          limit: vapourAbsPa,
          unit: 'Pa',
        },
      ];

function waterAt(temperatureC: number, pressureAbsPa: number | undefined): KnownState {
  const vapourAbsPa = waterVapourPressure(temperatureC);
  const liquidAbsPa = Math.max(pressureAbsPa ?? standardAtmospherePa, vapourAbsPa);
  const densityKgM3 = waterDensity(temperatureC, liquidAbsPa);
  return {
    state: {
      densityKgM3,
      viscosityPaS: waterViscosity(temperatureC, densityKgM3),
      specificHeatJKgK: waterSpecificHeat(temperatureC, liquidAbsPa),
      conductivityWMK: waterConductivity(temperatureC, densityKgM3),
      vapourAbsPa,
    },
    remarks: boiling(vapourAbsPa, pressureAbsPa, 'iapws-if97'),
  };
}

function glycolAt(massFraction: number, temperatureC: number, pressureAbsPa: number | undefined): KnownState {
  const vapourAbsPa = glycolVapourPressure(temperatureC, massFraction);
  const rule = remark(
    'glycol-vapour-by-raoult',
    "vapour pressure is water's times its share of the molecules",
    'raoult',
  );
  const reach =
    temperatureC <= glycolMeasuredToC
      ? []
      : [
          remark(
            'glycol-above-measured',
            `above ${glycolMeasuredToC} C the correlation is not measured: viscosity to 15 %, density to 1 %${temperatureC > glycolFitEndsC ? `; above ${glycolFitEndsC} C it is drawn on` : ''}`,
            'melinder-2010',
          ),
        ];
  return {
    state: {
      densityKgM3: glycolDensity(temperatureC, massFraction),
      viscosityPaS: glycolViscosity(temperatureC, massFraction),
      specificHeatJKgK: glycolSpecificHeat(temperatureC, massFraction),
      conductivityWMK: glycolConductivity(temperatureC, massFraction),
      vapourAbsPa,
    },
    remarks: [rule, ...reach, ...boiling(vapourAbsPa, pressureAbsPa, 'raoult')],
  };
}

/** Fuel's own viscosity keeps the usual blend's shape over temperature. */
function fuelViscosity(spec: FuelSpec, temperatureC: number, at15KgM3: number): number {
  const usual = blendViscosity(temperatureC, spec.ethanolFraction);
  if (spec.viscosityCSt === undefined) return usual;
  const stated = spec.viscosityCSt * 1e-6 * blendDensity(statedViscosityC, spec.ethanolFraction, at15KgM3);
  return (usual * stated) / blendViscosity(statedViscosityC, spec.ethanolFraction);
}

function fuelAt(spec: FuelSpec, temperatureC: number, pressureAbsPa: number | undefined): KnownState {
  const at15 = spec.densityAt15KgM3 ?? usualBlendAt15KgM3(spec.ethanolFraction);
  const reidKpa = spec.reidKpa ?? usualReidOf(spec.ethanolFraction);
  const vapourAbsPa = blendVapourPressure(temperatureC, spec.ethanolFraction, reidKpa);
  const assumed: Finding[] = [
    spec.densityAt15KgM3 === undefined
      ? remark(
          'fuel-density-assumed',
          `density ${at15.toFixed(0)} kg/m3 at 15 C is assumed (720 to 800)`,
          'from-memory',
        )
      : undefined,
    spec.viscosityCSt === undefined
      ? remark('fuel-viscosity-assumed', 'viscosity is that of iso-octane and ethanol, to 30 %', 'perry-liquids')
      : undefined,
    spec.reidKpa === undefined
      ? remark(
          'fuel-reid-assumed',
          `Reid vapour pressure ${reidKpa.toFixed(0)} kPa is assumed (45 to 100)`,
          'ethanol-reid',
        )
      : undefined,
  ].filter((row) => row !== undefined);
  return {
    state: {
      densityKgM3: blendDensity(temperatureC, spec.ethanolFraction, at15),
      viscosityPaS: fuelViscosity(spec, temperatureC, at15),
      specificHeatJKgK: blendSpecificHeat(temperatureC, spec.ethanolFraction),
      conductivityWMK: blendConductivity(temperatureC, spec.ethanolFraction),
      vapourAbsPa,
    },
    remarks: [...assumed, ...boiling(vapourAbsPa, pressureAbsPa, 'epa-ap-42-7-1')],
  };
}

const airAt = (temperatureC: number, pressureAbsPa: number | undefined): KnownState => ({
  state: {
    densityKgM3: airDensity(temperatureC, pressureAbsPa ?? standardAtmospherePa),
    viscosityPaS: airViscosity(temperatureC),
    specificHeatJKgK: airSpecificHeat(temperatureC),
    conductivityWMK: airConductivity(temperatureC),
    vapourAbsPa: 0,
  },
  remarks: [],
});

function known(spec: FluidSpec, temperatureC: number, pressureAbsPa: number | undefined): KnownState {
  switch (spec.kind) {
    case 'oil':
      return oilAt(spec, temperatureC);
    case 'glycol':
      return glycolAt(spec.massFraction, temperatureC, pressureAbsPa);
    case 'water':
      return waterAt(temperatureC, pressureAbsPa);
    case 'fuel':
      return fuelAt(spec, temperatureC, pressureAbsPa);
    case 'air':
      return airAt(temperatureC, pressureAbsPa);
  }
}

/** Thicker than pitch: the line through the stated points has left all sense [Pa s]. */
const thickestPaS = 1e5;

const isSound = ({ viscosityPaS, ...rest }: FluidState): boolean =>
  viscosityPaS > 0 && viscosityPaS <= thickestPaS && Object.values(rest).every((value) => Number.isFinite(value));

/**
 * What a fluid is at a temperature and a pressure. Without a pressure: liquids and air at one atmosphere, water that would
 * boil there at its vapour pressure. Bad input comes back as faults, never as a number that is none.
 *
 * @param spec - the fluid as the builder knows it
 * @param temperatureC - [C]
 * @param pressureAbsPa - absolute [Pa]
 */
export function fluidAt(spec: FluidSpec, temperatureC: number, pressureAbsPa?: number): FluidAnswer {
  const faults = specFaults(spec, temperatureC, pressureAbsPa);
  if (faults.length > 0) return { ok: false, faults };
  const answer = known(spec, temperatureC, pressureAbsPa);
  const states = [answer.state, ...Object.values(answer.spread ?? {})];
  if (states.every(isSound)) return { ok: true, ...answer };
  const allowed = `points whose line gives a viscosity above zero and up to ${thickestPaS} Pa s at ${temperatureC} C`;
  const at = spec.kind === 'oil' ? JSON.stringify(spec.points ?? spec.grade) : spec.kind;
  return { ok: false, faults: [`fluid: stands ${at.slice(0, 120)}; allowed: ${allowed}`] };
}
