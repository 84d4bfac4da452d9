import type { Car, Case, Circuit, Fluid } from '#car';
import type { Known } from '#sources';
import { fluidAt } from '../fluids/fluid-at.ts';
import type { FluidSpec } from '../fluids/fluid-spec.ts';
import type { FluidState } from '../fluids/fluid-state.ts';

/** The fluid of a circuit as the car file states it. */
export function fluidOf(car: Car, circuit: Circuit): Fluid | undefined {
  return (car.fluids ?? []).find(({ id }) => id === circuit.fluid);
}

/** Fluids that each kind of circuit is worked with. */
const WORKED_WITH = {
  'dry-sump': ['oil'],
  coolant: ['water', 'glycol'],
  fuel: ['fuel'],
} as const;

/** Why a circuit of this kind cannot be worked with this fluid, in words; null where it can. */
export function unfitFluid({ kind, id }: Circuit, fluid: Fluid): string | null {
  if (kind === 'other' || fluid.other !== undefined) return null;
  const wanted: readonly (keyof Fluid)[] = WORKED_WITH[kind];
  if (wanted.some((key) => fluid[key] !== undefined)) return null;
  const has = (['oil', 'water', 'glycol', 'fuel', 'air'] as const).find((key) => fluid[key] !== undefined);
  return `circuit ${id} is of kind ${kind} and holds ${fluid.id}, which is ${has ?? 'nothing stated'}; allowed: ${wanted.join(' or ')}`;
}

/** What `fluidAt` is asked for. Undefined for a fluid that is not worked with. */
export function specOf(fluid: Fluid): FluidSpec | undefined {
  if (fluid.oil !== undefined) {
    const { grade, points, densityAt15KgM3 } = fluid.oil;
    return {
      kind: 'oil',
      ...(grade === undefined ? {} : { grade }),
      ...(points === undefined
        ? {}
        : { points: points.map(({ atC, viscosityCst }) => ({ temperatureC: atC, cSt: viscosityCst })) }),
      ...(densityAt15KgM3 === undefined ? {} : { densityAt15KgM3 }),
    };
  }
  if (fluid.glycol !== undefined) return { kind: 'glycol', massFraction: fluid.glycol.massPercent / 100 };
  if (fluid.water !== undefined) return { kind: 'water' };
  if (fluid.air !== undefined) return { kind: 'air' };
  if (fluid.fuel === undefined) return undefined;
  const { ethanolPercent = 0, densityAt15KgM3, viscosityCst, reidKpa } = fluid.fuel;
  return {
    kind: 'fuel',
    ethanolFraction: ethanolPercent / 100,
    ...(densityAt15KgM3 === undefined ? {} : { densityAt15KgM3 }),
    ...(viscosityCst === undefined ? {} : { viscosityCSt: viscosityCst }),
    ...(reidKpa === undefined ? {} : { reidKpa }),
  };
}

/** Usual temperatures of a fluid where a case does not say [C]. Common practice, no source. */
const USUAL_C = { 'dry-sump': 100, coolant: 90, fuel: 25, other: 20 } as const;

/** Temperature of a circuit's fluid in a case [C], and how it is known. */
export function temperatureIn(circuit: Circuit, at: Case): { readonly temperatureC: number; readonly known: Known } {
  const stated =
    circuit.kind === 'dry-sump'
      ? at.oilC
      : circuit.kind === 'coolant'
        ? at.coolantC
        : circuit.kind === 'fuel'
          ? (at.fuelC ?? at.airC)
          : at.airC;
  return stated === undefined
    ? { temperatureC: USUAL_C[circuit.kind], known: 'practice' }
    : { temperatureC: stated, known: 'read' };
}

/** The state of a fluid, and its thickest where it is known as a band only; or in one line why there is none. */
export function statesOf(
  fluid: Fluid,
  temperatureC: number,
): { readonly state: FluidState; readonly thickest: FluidState } | string {
  const spec = specOf(fluid);
  if (spec === undefined) return `fluid ${fluid.id} is not worked with`;
  const answer = fluidAt(spec, temperatureC);
  return answer.ok ? { state: answer.state, thickest: answer.spread?.most ?? answer.state } : answer.faults.join('; ');
}

/** The state of a fluid, or in one line why there is none. */
export function stateOf(fluid: Fluid, temperatureC: number): FluidState | string {
  const states = statesOf(fluid, temperatureC);
  return typeof states === 'string' ? states : states.state;
}
