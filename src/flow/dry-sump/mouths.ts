import type { ReadyCircuit } from '../circuit/circuit-state.ts';
import { partOf } from '../circuit/drawn-circuit.ts';
import type { VesselInside } from '../circuit/vessel-state.ts';
import type { CarG, Levels } from '../tank/level.ts';
import { type Outlet, outletIn, reachMm } from '../tank/outlet.ts';
import type { Tank } from '../tank/tank.ts';
import { FlowError } from '../flow-error.ts';
import { dot, type Vec } from '#geometry';

/** Where oil is drawn from a vessel: the mouth of a line, with the inside that it opens into. */
export interface Mouth {
  /** "part.port". */
  readonly spot: string;
  readonly line: string;
  readonly inside: VesselInside;
  readonly tank: Tank;
  /** Its mouth on the inside. */
  readonly outlet: Outlet;
  /** The pump that draws from it. */
  readonly pump: string;
  readonly words: string;
}

/** What a car does, in its own axes, as the pull on its oil says it: a car that leans is pulled aside. */
export const gOfPull = (pull: Vec): CarG => ({ longitudinalG: pull[0], lateralG: -pull[1], verticalG: -pull[2] });

/** Mouths that feed the engine: suction lines that leave a tank. */
export function feedMouths(ready: ReadyCircuit): Mouth[] {
  return ready.drawn.runs.flatMap((run) => {
    const inside = insideOf(ready, run.from, ['tank']);
    if (inside === undefined || ready.drawn.lines.get(run.line)?.duty !== 'oil-suction') return [];
    const pump = ready.drawn.pumps.find(({ from }) => ready.drawn.joints.of(from) === ready.drawn.joints.of(run.to));
    return mouthOf(inside, run.from, run.line, run.stretches[0]!.boreMm, pump?.id ?? run.to, pump?.name ?? run.to);
  });
}

/** Mouths that empty a pan or pot: one for each scavenge stage that a line leads to. */
export function pickUps(ready: ReadyCircuit): Mouth[] {
  return ready.sorted.scavenge.flatMap(({ stages }) =>
    stages.flatMap(({ pump, suction }) =>
      suction.flatMap(({ run }) => {
        const inside = run === undefined ? undefined : insideOf(ready, run.from, ['pan', 'pot']);
        return run === undefined || inside === undefined
          ? []
          : mouthOf(inside, run.from, run.line, run.stretches[0]!.boreMm, pump.id, pump.words);
      }),
    ),
  );
}

function insideOf(ready: ReadyCircuit, spot: string, kinds: readonly string[]): VesselInside | undefined {
  return ready.insides.find(
    ({ drawn }) => drawn.vessel.part === partOf(spot) && spot.includes('.') && kinds.includes(drawn.vessel.kind),
  );
}

function mouthOf(
  inside: VesselInside,
  spot: string,
  line: string,
  boreMm: number,
  pump: string,
  words: string,
): Mouth[] {
  const port = inside.drawn.ports.find(({ id }) => `${inside.drawn.part.id}.${id}` === spot);
  const { tank } = inside;
  if (port === undefined || tank === null) return [];
  try {
    const outlet = outletIn(tank, { id: spot, atMm: port.atMm, axis: port.faces, boreMm });
    return [{ spot, line, inside, tank, outlet, pump, words }];
  } catch (error) {
    // A port too far from the inside has no say about its level; the vessel's other mouths do.
    if (error instanceof FlowError) return [];
    throw error;
  }
}

/** Oil at which a mouth begins to draw any, is half covered, and draws nothing but oil, looked along as the levels stand. */
export function fillsAt(levels: Levels, outlet: Outlet): readonly [first: number, half: number, whole: number] {
  const middle = dot(levels.up, outlet.atMm);
  const reach = reachMm(outlet, levels.up);
  const at = (mm: number): number => levels.below(mm).volumeM3;
  return [at(middle - reach), at(middle), at(middle + reach)];
}
