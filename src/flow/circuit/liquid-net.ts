import type { Case, Circuit } from '#car';
import { findPort, type Car } from '#car';
import type { Vec } from '#geometry';
import type { FluidState } from '../fluids/fluid-state.ts';
import type { Network, NetworkBranch, NetworkNode } from '../network/network.ts';
import type { DrawnCircuit } from './drawn-circuit.ts';
import { vesselFinder } from './drawn-circuit.ts';
import type { Element } from './elements.ts';
import { heightMmG, STANDARD_FALL } from './pull.ts';
import type { VesselState } from './vessel-state.ts';

/** What a network of liquid is put together from in one case. */
export interface LiquidAsk {
  readonly car: Car;
  readonly drawn: DrawnCircuit;
  readonly elements: readonly Element[];
  readonly at: Case;
  readonly fluid: FluidState;
  readonly temperatureC: number;
  readonly pull: Vec;
  readonly vessels: ReadonlyMap<string, VesselState>;
  /** Gas in a vessel above the air outside [Pa]. */
  readonly gasPa: (vessel: string) => number;
  /** Liquid let in at a joint from outside the net [m3/s]; negative: taken out. */
  readonly inflowM3S?: ReadonlyMap<string, number>;
}

/**
 * The network of pressures counted at one height: p + rho g h, so that static head drops out along every line and all
 * spots of a joint have one value.
 */
export interface LiquidNet {
  readonly network: Network;
  readonly nodeOf: (spot: string) => string;
  /** What to take off a node's value to have the pressure at a place [Pa]. */
  readonly headPa: (atMm: Vec) => number;
}

/** The pressure that a column as high as this place puts on what lies at height nothing [Pa]. */
export const headOf = (fluid: FluidState, pull: Vec, atMm: Vec): number =>
  (fluid.densityKgM3 * STANDARD_FALL * heightMmG(pull, atMm)) / 1000;

export function liquidNet(ask: LiquidAsk): LiquidNet {
  const { drawn, elements, fluid, pull } = ask;
  const headPa = (atMm: Vec): number => headOf(fluid, pull, atMm);
  const vesselOf = vesselFinder(drawn);
  const nodes = new Map<string, NetworkNode>();
  const nodeFor = (spot: string, other: string): string => {
    const vessel = vesselOf(spot);
    if (vessel === undefined) {
      const joint = drawn.joints.of(spot);
      const inflowM3S = ask.inflowM3S?.get(joint);
      nodes.set(joint, { id: joint, ...(inflowM3S === undefined ? {} : { inflowM3S }) });
      return joint;
    }
    const id = `${vessel}: ${spot.includes('.') ? spot : `${spot} from ${other}`}`;
    nodes.set(id, { id, fixedPa: ask.gasPa(vessel) + mouthHeadPa(ask, vessel, spot, other, headPa) });
    return id;
  };
  const branches = elements.map(
    (element): NetworkBranch => ({
      id: element.id,
      from: nodeFor(element.from, element.to),
      to: nodeFor(element.to, element.from),
      law: element.law(fluid, ask.at, ask.temperatureC),
    }),
  );
  return {
    network: { nodes: [...nodes.values()], branches },
    nodeOf: (spot) => drawn.joints.of(spot),
    headPa,
  };
}

/** A covered mouth feels the surface above it; one in the gas lets go at its own height. */
function mouthHeadPa(
  ask: LiquidAsk,
  vessel: string,
  spot: string,
  other: string,
  headPa: (atMm: Vec) => number,
): number {
  const state = ask.vessels.get(vessel);
  const place = findPort(ask.car, spot)?.port.atMm ?? findPort(ask.car, other)?.port.atMm;
  const surface = state?.surfaceMmG;
  const share = state?.mouths.get(spot)?.share;
  const surfacePa =
    surface === null || surface === undefined ? undefined : (ask.fluid.densityKgM3 * STANDARD_FALL * surface) / 1000;
  if (share !== undefined && share > 0 && surfacePa !== undefined) return surfacePa;
  if (place !== undefined) return headPa(place);
  return surfacePa ?? 0;
}

/** Where fuel is burnt: before the regulator, which is the passage with a relief. */
export function burnOf(circuit: Circuit, drawn: DrawnCircuit): ReadonlyMap<string, number> {
  const regulator = drawn.passages.find(({ relief }) => relief !== undefined);
  if (circuit.kind !== 'fuel' || circuit.burnLPerH === undefined || regulator === undefined) return new Map();
  return new Map([[drawn.joints.of(regulator.from), -circuit.burnLPerH / 3.6e6]]);
}
