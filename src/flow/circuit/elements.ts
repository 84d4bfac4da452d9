import type { Case, Fluid, Passage, Pump } from '#car';
import type { FluidState } from '../fluids/fluid-state.ts';
import { entranceLoss } from '../losses/fitting-loss.ts';
import { lineLoss } from '../losses/line-loss.ts';
import { type Flowing, type Loss, seriesLaw } from '../losses/loss.ts';
import { FlowError } from '../flow-error.ts';
import { measuredLoss } from '../losses/measured-loss.ts';
import { checkValveLoss } from '../losses/check-valve.ts';
import { reliefValveLoss } from '../losses/relief-valve.ts';
import { restrictorLoss } from '../losses/restrictor-loss.ts';
import { boreRoughnessM } from '../losses/roughness.ts';
import { screenLoss } from '../losses/screen-loss.ts';
import { thermostatLoss } from '../losses/thermostat-loss.ts';
import type { LossLaw } from '../network/loss-law.ts';
import { centrifugalPumpLaw } from '../pumps/centrifugal-pump.ts';
import { displacementPumpLaw } from '../pumps/displacement-pump.ts';
import { stateOf } from './circuit-fluid.ts';
import { OPEN_AIR } from './changed-circuit.ts';
import { type DrawnCircuit, nameOf, partOf, vesselFinder } from './drawn-circuit.ts';
import { type LinePiece, linePieces } from './line-element.ts';
import type { LineRun } from './line-run.ts';

/** One element of a circuit between two spots: its law follows from the fluid and the case. */
export interface Element {
  readonly id: string;
  readonly kind: 'line' | 'passage' | 'pump' | 'relief';
  readonly from: string;
  readonly to: string;
  readonly words: string;
  readonly run?: LineRun;
  readonly pieces?: readonly LinePiece[];
  readonly passage?: Passage;
  readonly pump?: Pump;
  readonly law: (fluid: FluidState, at: Case, temperatureC: number) => LossLaw;
}

/** The elements of a circuit; what cannot be one is said in a line, with what it is about. */
export interface Elements {
  readonly elements: readonly Element[];
  readonly faults: readonly { readonly text: string; readonly line?: string; readonly part?: string }[];
}

/** Usual figures where a builder gives none. Common practice, no source. */
const USUAL = {
  /** A good gear or lobe stage at 4 bar with oil of 12 cSt and 50 turns a second. */
  volumetric: { efficiency: 0.92, pa: 4e5, viscosityPaS: 0.01, turnsPerS: 50 },
  measuredAtC: { 'dry-sump': 100, coolant: 90, fuel: 20, other: 20 },
  screenWireM: 0.4e-3,
  reliefBoreM: 0.012,
  checkCoefficient: 2,
  checkLeak: { flowM3S: 1e-7, atPa: 1e5 },
  thermostat: { openCoefficient: 4, bleedShare: 0.02 },
} as const;

const LMIN = 1 / 60_000;
/** An electric pump holds its flow to a thousandth over a bar. */
const STEADY = { pa: 1e5, share: 1e-3 } as const;

/** Draws the elements of a circuit up; `fluid` gives the viscosity at which curves were measured. */
export function elementsOf(drawn: DrawnCircuit, fluid: Fluid): Elements {
  const elements: Element[] = [];
  const faults: { text: string; line?: string; part?: string }[] = [];
  const attempt = (about: { line?: string; part?: string }, make: () => Element[]) => {
    try {
      elements.push(...make());
    } catch (error) {
      if (!(error instanceof FlowError)) throw error;
      faults.push({ text: error.message.replace(/^flow: /, ''), ...about });
    }
  };
  const vesselOf = vesselFinder(drawn);
  const inVessel = (spot: string): boolean => spot === OPEN_AIR || vesselOf(spot) !== undefined;
  for (const run of drawn.runs) {
    attempt({ line: run.line }, () => {
      const pieces = linePieces(run, { fromVessel: inVessel(run.from), toVessel: inVessel(run.to) }, (where, atC) =>
        measuredIn(fluid, atC ?? USUAL.measuredAtC[drawn.circuit.kind], where),
      );
      const law = lawOf(pieces.map(({ loss }) => loss));
      return [{ id: run.line, kind: 'line', from: run.from, to: run.to, words: run.line, run, pieces, law }];
    });
  }
  for (const passage of drawn.passages) {
    if (passage.open !== true) attempt({ part: partOf(passage.from) }, () => [passageElement(passage, drawn, fluid)]);
  }
  for (const pump of drawn.pumps) attempt({ part: partOf(pump.from) }, () => pumpElements(pump));
  return { elements, faults };
}

/** The law of losses in a row; the last one is kept, since a case asks for the same fluid again and again. */
function lawOf(losses: readonly Loss[]): (fluid: FluidState) => LossLaw {
  let last: { readonly fluid: FluidState; readonly law: LossLaw } | undefined;
  return (fluid) => {
    if (last?.fluid !== fluid) last = { fluid, law: seriesLaw(losses.map((loss) => loss.under(fluid))) };
    return last.law;
  };
}

/** Fluid as it was where a curve was measured. */
function measuredIn(fluid: Fluid, temperatureC: number, where: string): Flowing {
  const state = stateOf(fluid, temperatureC);
  if (typeof state === 'string') throw new FlowError(`${where}, atC`, temperatureC, state);
  return state;
}

function passageElement(passage: Passage, drawn: DrawnCircuit, fluid: Fluid): Element {
  const where = nameOf(passage);
  const made = {
    id: passage.id ?? where,
    kind: 'passage' as const,
    from: passage.from,
    to: passage.to,
    words: where,
    passage,
  };
  const { thermostat } = passage;
  const losses = passageLosses(passage, where, drawn, fluid);
  if (thermostat === undefined) return { ...made, law: lawOf(losses) };
  const boreM = (passage.boreMm ?? 35) / 1000;
  return {
    ...made,
    law: (state, _, temperatureC) => {
      const valve = thermostatLoss(
        { where, boreM, opensAtC: thermostat.opensC, fullAtC: thermostat.fullC, ...USUAL.thermostat },
        temperatureC,
      );
      return seriesLaw([...losses, valve].map((loss) => loss.under(state)));
    },
  };
}

function passageLosses(passage: Passage, where: string, drawn: DrawnCircuit, fluid: Fluid): Loss[] {
  if (passage.curveLMinKpa !== undefined) {
    const atC = passage.atC ?? USUAL.measuredAtC[drawn.circuit.kind];
    const { viscosityPaS, densityKgM3 } = measuredIn(fluid, atC, where);
    const points = passage.curveLMinKpa
      .filter(([flow]) => flow > 0)
      .map(([flow, kpa]) => ({ flowM3S: flow * LMIN, dropPa: kpa * 1000, viscosityPaS, densityKgM3 }));
    return [measuredLoss(where, points)];
  }
  if (passage.restrictorMm !== undefined) {
    const discharge = passage.dischargeCoefficient;
    return [
      restrictorLoss({ where, boreM: passage.restrictorMm / 1000, ...(discharge === undefined ? {} : { discharge }) }),
    ];
  }
  if (passage.boreMm !== undefined) {
    const boreM = passage.boreMm / 1000;
    const lengthM = (passage.lengthMm ?? passage.boreMm) / 1000;
    return [
      entranceLoss(where, boreM, 'sharp'),
      lineLoss({ where, boreM, lengthM, roughnessM: boreRoughnessM('steel-pipe') }),
    ];
  }
  if (passage.checkBar !== undefined) {
    return [
      checkValveLoss({
        where,
        boreM: USUAL.reliefBoreM,
        cracksAtPa: passage.checkBar * 1e5,
        openCoefficient: USUAL.checkCoefficient,
        leak: USUAL.checkLeak,
      }),
    ];
  }
  if (passage.relief !== undefined) return [reliefOf(passage.relief, where, passage.relief.fullFlowLMin ?? 10)];
  return [
    screenLoss({
      where,
      boreM: USUAL.reliefBoreM * 2,
      openShare: Math.min(0.99, (passage.screenOpenPercent ?? 50) / 100),
      wireM: USUAL.screenWireM,
    }),
  ];
}

function reliefOf(relief: NonNullable<Pump['relief']>, where: string, fullFlowLMin: number): Loss {
  return reliefValveLoss({
    where,
    cracksAtPa: relief.cracksBar * 1e5,
    fullAtPa: relief.fullFlowBar * 1e5,
    fullFlowM3S: (relief.fullFlowLMin ?? fullFlowLMin) * LMIN,
    boreM: USUAL.reliefBoreM,
  });
}

/** Top speed of an engine where no case says: sizes a relief valve whose full flow is not stated [rpm]. */
const TOP_RPM = 8000;

function pumpElements(pump: Pump): Element[] {
  const where = nameOf(pump);
  const id = pump.id ?? where;
  const made = { id, kind: 'pump' as const, from: pump.from, to: pump.to, words: where, pump };
  const out: Element[] = [{ ...made, law: pumpLaw(pump, where) }];
  if (pump.relief !== undefined) {
    const topLMin = ((pump.displacementCcRev ?? 10) * (pump.driveRatio ?? 1) * TOP_RPM) / 1000;
    const valve = reliefOf(pump.relief, `${where}, relief valve`, topLMin);
    // Back from the outlet to the inlet, inside the pump.
    out.push({
      id: `${id} relief`,
      kind: 'relief',
      from: pump.to,
      to: pump.from,
      words: `${where}, relief valve`,
      pump,
      law: (fluid) => valve.under(fluid),
    });
  }
  return out;
}

function pumpLaw(pump: Pump, where: string): Element['law'] {
  if (pump.displacementCcRev !== undefined && pump.driveRatio !== undefined) {
    const { efficiency, pa, viscosityPaS, turnsPerS } = USUAL.volumetric;
    const stated = pump.volumetricPercent;
    const slip = {
      volumetricEfficiency: Math.min(0.999, stated === undefined ? efficiency : stated / 100),
      atTurnsPerS: turnsPerS,
      atRisePa: pump.volumetricAtBar === undefined ? pa : pump.volumetricAtBar * 1e5,
      atViscosityPaS: pump.volumetricAtCst === undefined ? viscosityPaS : pump.volumetricAtCst * 1e-6 * 850,
    };
    const stage = { where, displacementM3: pump.displacementCcRev * 1e-6, driveRatio: pump.driveRatio, slip };
    return (fluid, at) => displacementPumpLaw(stage, at.engineRpm / 60, fluid);
  }
  if (pump.curveLMinKpa !== undefined && pump.atRpm !== undefined) {
    const { curveLMinKpa, atRpm } = pump;
    return (fluid, at) =>
      centrifugalPumpLaw(
        {
          where,
          curve: curveLMinKpa.map(([flow, kpa]) => ({
            flowM3S: flow * LMIN,
            headM: (kpa * 1000) / (fluid.densityKgM3 * 9.80665),
          })),
          curveTurnsPerS: atRpm / 60,
        },
        at.engineRpm / 60,
        fluid.densityKgM3,
      );
  }
  const steady = (pump.steadyLMin ?? 0) * LMIN;
  const slope = STEADY.pa / (STEADY.share * Math.max(steady, 1e-9));
  return () => (flowM3S) => ({ dropPa: (flowM3S - steady) * slope, slope });
}
