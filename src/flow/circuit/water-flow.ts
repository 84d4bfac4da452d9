import { type CaseOf, type LiquidFlow, liquidFlow, type ReadyCircuit } from './circuit-state.ts';
import { vesselFinder } from './drawn-circuit.ts';
import type { Element } from './elements.ts';
import { lineFlow } from './line-flow.ts';
import type { SettledNetwork } from '../network/solve-network.ts';
import type { Refused } from '../refused.ts';

/** Liquid flow of a circuit in which no line draws gas out of a vessel: such lines stand still. */
export interface WaterFlow extends LiquidFlow {
  readonly stillLines: readonly string[];
}

/**
 * The flow of water. A mouth that stands in the gas lets water go at its own height, and none comes out of it: a line that
 * would draw there is shut, and the rest is solved again. It begins from `warm`, where that is of a like net.
 */
export function waterFlow(
  ready: ReadyCircuit,
  asked: CaseOf,
  gasPa: (vessel: string) => number,
  warm?: SettledNetwork,
): WaterFlow | Refused {
  let start = warm;
  const still: Element[] = [];
  const vesselOf = vesselFinder(ready.drawn);
  const isBare = (spot: string): boolean => {
    const vessel = vesselOf(spot);
    const state = vessel === undefined ? undefined : asked.vessels.get(vessel);
    return state?.surfaceMmG !== null && state !== undefined && (state.mouths.get(spot)?.share ?? 1) === 0;
  };
  for (let round = 0; round <= ready.sorted.liquid.length; round++) {
    const open = ready.sorted.liquid.filter((element) => !still.includes(element));
    const flow = liquidFlow({ ...ready, sorted: { ...ready.sorted, liquid: open } }, asked, gasPa, start);
    if ('why' in flow) return flow;
    start = flow.answer;
    const drawing = open.filter(({ id, from, to }) => {
      const here = flow.flowOf.get(id) ?? 0;
      return (here > 0 && isBare(from)) || (here < 0 && isBare(to));
    });
    if (drawing.length === 0) return withStill(flow, still, asked, gasPa, vesselOf);
    still.push(...drawing);
  }
  return { why: 'every way draws gas out of a vessel: none is left for the water', where: ids(still) };
}

const ids = (elements: readonly Element[]): string[] => elements.map(({ id }) => id);

/** Lines that stand still are in the answer too, with the gas of their vessel at both ends. */
function withStill(
  flow: LiquidFlow,
  still: readonly Element[],
  asked: CaseOf,
  gasPa: (vessel: string) => number,
  vesselOf: (spot: string) => string | undefined,
): WaterFlow {
  // Lines taken apart are asked for by few: a case is solved many times before it is told.
  let lines: LiquidFlow['lines'] | undefined;
  const stillLines = (): LiquidFlow['lines'] =>
    still.flatMap((element) => {
      if (element.kind !== 'line') return [];
      const vessel = vesselOf(element.from) ?? vesselOf(element.to);
      const gas = vessel === undefined ? 0 : gasPa(vessel);
      return [lineFlow(element, asked.fluid, 0, { fromPa: gas, toPa: gas }, 'liquid')];
    });
  const { passages, pumps, answer, net, teesOffPa } = flow;
  return {
    passages,
    pumps,
    answer,
    net,
    teesOffPa,
    get lines() {
      return (lines ??= [...flow.lines, ...stillLines()]);
    },
    flowOf: still.length === 0 ? flow.flowOf : new Map([...flow.flowOf, ...still.map(({ id }) => [id, 0] as const)]),
    stillLines: ids(still),
  };
}
