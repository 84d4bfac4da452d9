import type { Car, Case, Fluid, Line } from '#car';
import { type FlowAnswer, fluidAt, type FluidSpec } from '#flow';
import type { Catalogue } from '#standards';
import { flowFromLMin } from '#units';
import { airOfPower } from '../air/vent-formulas.ts';
import { lineBoreMm } from './line-wall.ts';
import { fluidC, isSwitchedOff, partWarmth } from './part-warmth.ts';

export type Carries = 'oil' | 'water' | 'fuel' | 'air' | 'brake-fluid';

/** What runs in a line in one case. */
export interface LineFluid {
  readonly carries: Carries;
  readonly inC: number;
  /** Positive from its first port to its second; 0: it stands [m3/s]. */
  readonly flowM3S: number;
  readonly densityKgM3: number;
  readonly specificHeatJKgK: number;
  readonly viscosityPaS: number;
  readonly conductivityWMK: number;
  readonly spec: FluidSpec | null;
  /** What was taken as usual, in words. */
  readonly assumed?: string;
  /** Where it lies beyond what is known of it, in words. */
  readonly leaves?: string;
  /** Nobody states its flow: it runs as such lines usually do. */
  readonly isUsualFlow: boolean;
}

export function carriesOf({ duty }: Line): Carries {
  if (duty === 'brake' || duty === 'clutch') return 'brake-fluid';
  if (duty === 'air' || duty === 'charge-air' || duty.endsWith('-vent')) return 'air';
  if (duty.startsWith('oil')) return 'oil';
  return duty.startsWith('fuel') ? 'fuel' : 'water';
}

/** Recalled: glycol ether brake fluid, hot. */
const brakeFluid = { densityKgM3: 1030, specificHeatJKgK: 2300, viscosityPaS: 1.5e-3, conductivityWMK: 0.15 } as const;

function specFor(car: Car, line: Line, carries: Carries): FluidSpec | null {
  if (carries === 'brake-fluid') return null;
  if (carries === 'air') return { kind: 'air' };
  const circuit = (car.circuits ?? []).find(({ lines }) => lines.includes(line.id));
  const fluid = (car.fluids ?? []).find(({ id }) => id === circuit?.fluid);
  return (fluid === undefined ? null : statedSpec(fluid)) ?? usualSpec(carries);
}

function statedSpec({ oil, glycol, fuel }: Fluid): FluidSpec | null {
  if (oil !== undefined) {
    const points = oil.points?.map(({ atC, viscosityCst }) => ({ temperatureC: atC, cSt: viscosityCst }));
    return {
      kind: 'oil',
      ...(oil.grade === undefined ? {} : { grade: oil.grade }),
      ...(points === undefined ? {} : { points }),
    };
  }
  if (glycol !== undefined) return { kind: 'glycol', massFraction: glycol.massPercent / 100 };
  if (fuel === undefined) return null;
  const { ethanolPercent = 0, reidKpa } = fuel;
  return { kind: 'fuel', ethanolFraction: ethanolPercent / 100, ...(reidKpa === undefined ? {} : { reidKpa }) };
}

const usualSpec = (carries: Carries): FluidSpec =>
  carries === 'oil'
    ? { kind: 'oil', grade: '10W-40' }
    : carries === 'fuel'
      ? { kind: 'fuel', ethanolFraction: 0.05 }
      : carries === 'water'
        ? { kind: 'water' }
        : { kind: 'air' };

/** Where it comes in, by what it carries [degC]. */
function inletC(car: Car, line: Line, carries: Carries, at: Case): { readonly c: number; readonly assumed?: string } {
  if (carries === 'oil' || line.duty === 'oil-vent') return { c: fluidC(at, 'oil') };
  if (carries === 'water') return { c: fluidC(at, 'coolant') };
  if (carries === 'fuel') return { c: fluidC(at, 'fuel') };
  if (line.duty !== 'charge-air') return { c: fluidC(at, 'outside-air') };
  if (line.temperatureC !== undefined) return { c: line.temperatureC };
  const part = car.parts.find(({ id }) => id === line.from.split('.')[0]);
  const given = part === undefined ? null : partWarmth(part, at).c;
  if (part !== undefined && given !== null)
    return {
      c: given,
      assumed: `air comes into ${line.id} as hot as ${part.name ?? part.id} (${given} degC): state its temperatureC if you know better`,
    };
  return {
    c: fluidC(at, 'outside-air'),
    assumed: `air in ${line.id} is counted as cold as outside: state its temperatureC`,
  };
}

/** How fast it usually runs, where no circuit and no one says; a vent stands [m/s]. Common practice, no source. */
const USUAL_M_S: Readonly<Record<Carries, number>> = { oil: 1, water: 1, fuel: 0.5, air: 0, 'brake-fluid': 0 };
const BLEED_M_S = 0.2;

/** Which lines run as such lines usually do because nobody says, in words; null: none. */
export function usualFlowText(lines: readonly Line[], fluids: readonly LineFluid[]): string | null {
  const usual = lines.filter((_, i) => fluids[i]!.isUsualFlow).map(({ id }) => id);
  if (usual.length === 0) return null;
  return `nobody says how much runs in ${usual.join(', ')}: counted as ${USUAL_M_S.oil} m/s, fuel ${USUAL_M_S.fuel}, a bleed ${BLEED_M_S}; state flowLMin, or put them into a circuit`;
}

function usualFlow(line: Line, shelf: Catalogue): number {
  const speed = line.duty === 'water-bleed' ? BLEED_M_S : USUAL_M_S[carriesOf(line)];
  return speed * (Math.PI / 4) * (lineBoreMm(line, shelf) / 1000) ** 2;
}

function unworkedFlow({ line, shelf, at }: FluidAsk): { readonly m3S: number; readonly isUsual: boolean } {
  if (line.flowLMin !== undefined) return { m3S: flowFromLMin(line.flowLMin), isUsual: false };
  if (line.duty === 'charge-air') return { m3S: chargeM3S(at), isUsual: false };
  const m3S = isSwitchedOff(at) ? 0 : usualFlow(line, shelf);
  return { m3S, isUsual: m3S > 0 };
}

/** Volume that the engine draws, at the density outside [m3/s]: charge air, where nobody states its flow. */
const chargeM3S = (at: Case): number => airOfPower(at.powerKw ?? 0) / DENSITY_KG_M3;
const DENSITY_KG_M3 = 1.2;

export interface FluidAsk {
  readonly car: Car;
  readonly line: Line;
  readonly shelf: Catalogue;
  readonly at: Case;
  readonly flow: FlowAnswer | null;
  /** Nothing moves any more. */
  readonly isOff: boolean;
}

/** What runs in a line in one case: as its circuit was worked out, else as the car file states its flow, else as such lines usually do. */
export function lineFluid(ask: FluidAsk): LineFluid {
  const { car, line, at, flow, isOff } = ask;
  const carries = carriesOf(line);
  const worked = flow?.circuits
    .flatMap(({ states }) => states)
    .filter((state) => state.case.id === at.id)
    .flatMap(({ lines }) => lines)
    .find((row) => row.line === line.id);
  const { c, assumed } = inletC(car, line, carries, at);
  const unworked = worked === undefined && !isOff ? unworkedFlow(ask) : null;
  const flowM3S = isOff ? 0 : (worked?.flowM3S ?? unworked?.m3S ?? 0);
  const spec = specFor(car, line, carries);
  const { state, leaves } = spec === null ? { state: brakeFluid, leaves: undefined } : stateAt(spec, c);
  return {
    carries,
    inC: c,
    flowM3S: carries === 'brake-fluid' ? 0 : flowM3S,
    densityKgM3: state.densityKgM3,
    specificHeatJKgK: state.specificHeatJKgK,
    viscosityPaS: state.viscosityPaS,
    conductivityWMK: state.conductivityWMK,
    spec,
    ...(assumed === undefined ? {} : { assumed }),
    ...(leaves === undefined ? {} : { leaves }),
    isUsualFlow: unworked?.isUsual ?? false,
  };
}

/** Where a fluid is not known at its own temperature (frozen, or stated so that it cannot be), it is counted as at this one [degC]. */
const KNOWN_C = 20;

/** A fluid as it comes in; beyond what is known of it as at the nearest that is, and that is said. */
function stateAt(spec: FluidSpec, c: number): { readonly state: FluidProperties; readonly leaves?: string } {
  const [least, most] = TABLE_C[spec.kind];
  const nearC = inTable(spec, c);
  const known = fluidAt(spec, nearC, undefined);
  if (known.ok && nearC === c) return { state: known.state };
  const said = `${spec.kind} of ${c.toFixed(0)} degC`;
  if (known.ok)
    return {
      state: known.state,
      leaves: `${said} lies beyond its tables (${least} to ${most}): it is counted as at ${nearC}`,
    };
  const warm = fluidAt(spec, KNOWN_C, undefined);
  return {
    state: warm.ok ? warm.state : brakeFluid,
    leaves: `${said} is not known (${known.faults[0] ?? ''}): it is counted as ${warm.ok ? `at ${KNOWN_C} degC` : 'brake fluid'}`,
  };
}

type FluidProperties = Pick<LineFluid, keyof typeof brakeFluid>;

/** What a fluid's properties are known over [degC]. */
const TABLE_C: Readonly<Record<FluidSpec['kind'], readonly [least: number, most: number]>> = {
  oil: [-40, 160],
  glycol: [-50, 130],
  water: [0, 150],
  fuel: [-30, 80],
  air: [-80, 800],
};
export const inTable = ({ kind }: FluidSpec, c: number): number =>
  Math.min(TABLE_C[kind][1], Math.max(TABLE_C[kind][0], c));
