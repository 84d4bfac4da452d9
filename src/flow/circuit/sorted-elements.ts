import { type DrawnCircuit, vesselFinder } from './drawn-circuit.ts';
import type { Element } from './elements.ts';
import { Joints } from './joints.ts';

/** A scavenge stage with the lines and passages before and behind it; both carry oil and air. */
export interface ScavengeStage {
  readonly pump: Element;
  /** The pan or pot that it draws from. */
  readonly drains: string;
  readonly suction: readonly Element[];
}

/** Stages that deliver into one return, with what the return leads through. */
export interface ScavengeReturn {
  readonly stages: readonly ScavengeStage[];
  readonly elements: readonly Element[];
  /** The vessel it ends in. */
  readonly to: string | undefined;
}

/** The elements of a circuit by what they carry. */
export interface SortedElements {
  readonly liquid: readonly Element[];
  readonly scavenge: readonly ScavengeReturn[];
  readonly gas: readonly Element[];
  /** Lines that run by gravity, part full. */
  readonly drains: readonly Element[];
}

const GAS_DUTIES: ReadonlySet<string> = new Set(['oil-vent', 'fuel-vent']);

/** Sorts the elements: a stage that draws from a pan or pot carries oil and air, and so does all that hangs on it. */
export function sortedElements(drawn: DrawnCircuit, elements: readonly Element[]): SortedElements {
  const dutyOf = (element: Element): string | undefined => drawn.lines.get(element.id)?.duty;
  const vesselOf = vesselFinder(drawn);
  const kindOf = new Map(drawn.vessels.map(({ vessel }) => [vessel.part, vessel.kind]));
  const gas = elements.filter((element) => element.kind === 'line' && GAS_DUTIES.has(dutyOf(element) ?? ''));
  const drains = elements.filter((element) => element.kind === 'line' && dutyOf(element) === 'oil-drain');
  const apart = new Set([...gas, ...drains]);
  const wet = elements.filter((element) => !apart.has(element));
  const pipes = wet.filter(({ kind }) => kind === 'line' || kind === 'passage');
  const groups = new Joints();
  const spotKey = (spot: string): string => (vesselOf(spot) === undefined ? drawn.joints.of(spot) : `in ${spot}`);
  for (const { from, to } of pipes) groups.join(spotKey(from), spotKey(to));
  const groupOf = (spot: string): string => groups.of(spotKey(spot));
  const inGroup = (group: string): Element[] => pipes.filter(({ from }) => groupOf(from) === group);
  const vesselsIn = (group: string): string[] =>
    inGroup(group).flatMap(({ from, to }) => [from, to].flatMap((spot) => vesselOf(spot) ?? []));
  const stages = wet.flatMap((pump): (ScavengeStage & { readonly returnGroup: string })[] => {
    if (pump.kind !== 'pump' || drawn.circuit.kind !== 'dry-sump') return [];
    const group = groupOf(pump.from);
    const direct = vesselOf(pump.from);
    const drained = [...vesselsIn(group), ...(direct === undefined ? [] : [direct])].find((id) =>
      ['pan', 'pot'].includes(kindOf.get(id) ?? ''),
    );
    if (drained === undefined) return [];
    return [{ pump, drains: drained, suction: inGroup(group), returnGroup: groupOf(pump.to) }];
  });
  const returnGroups = [...new Set(stages.map(({ returnGroup }) => returnGroup))];
  const scavenge = returnGroups.map((group): ScavengeReturn => {
    const kept = inGroup(group);
    const own = stages.filter(({ returnGroup }) => returnGroup === group);
    return { stages: own, elements: kept, to: vesselsIn(group)[0] };
  });
  const frothy = new Set<Element>(
    scavenge.flatMap(({ stages: own, elements: kept }) => [
      ...kept,
      ...own.flatMap(({ pump, suction }) => [pump, ...suction]),
    ]),
  );
  const pumpsOf = new Set([...frothy].flatMap(({ pump }) => pump ?? []));
  const liquid = wet.filter(
    (element) => !frothy.has(element) && !(element.pump !== undefined && pumpsOf.has(element.pump)),
  );
  return { liquid, scavenge, gas, drains };
}
