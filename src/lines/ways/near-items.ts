import { type BayPort, LEAST_NEAR_MM, faceGap, isOwnPart, keepOff, planningItems } from '#bay';
import type { Line } from '#car';
import { type Body, type Vec, addScaled, distanceToBounds } from '#geometry';
import type { LinesWorld } from '../world.ts';
import type { NearItem, SlackReading } from './span.ts';

/** Parts further than this from a port do not matter to its fittings [mm]; a long 180 degree end with its adapter is 200. */
const AROUND_MM = 320;

/** Readings of the rest may be this much too strict [mm]. */
const SPARE_MM = 1;

/** What a line may come nearer to beside a port than elsewhere, and the reading of all the rest. */
export interface Beside {
  readonly items: readonly NearItem[];
  readonly rest: Pick<SlackReading, 'slackAndGradient' | 'closely'>;
}

/** The relaxed keep-offs beside a port: the same rules as the judgement's. */
export function beside(world: LinesWorld, port: BayPort, line: Line, faceRadiusMm: number): Beside {
  const face: Body = { part: 'port face', path: pathOut(port.at, port.faces), radiusMm: faceRadiusMm };
  const items = world.bay.parts.flatMap((part) => {
    const rule = keepOff(world.bay, part, line).mm;
    const own = isOwnPart(part, port.partId);
    const said = port.near?.parts.includes(part.id) === true ? port.near.keepOffMm : undefined;
    const close = part.solids.filter((s) => distanceToBounds(s.bounds, ...port.at) < AROUND_MM + rule);
    if (close.length === 0) return [];
    const gap = faceGap(part, [face], false, rule);
    const keepOffMm = own ? Math.min(0, gap) : (said ?? Math.max(0, Math.min(rule, gap)));
    // A flat face may stand closer than a round one could: such a part is looked at by itself too.
    const clear = close.every((s) => s.distance(...port.at) >= rule + faceRadiusMm + SPARE_MM);
    if (!own && keepOffMm >= rule && clear) return [];
    return close.map((solid): NearItem => ({ part: part.id, solid, keepOffMm, own }));
  });
  return { items, rest: restOf(world, line, items) };
}

/** Everything close to a port, kept off no further than by not touching it. */
export function solidsBeside(world: LinesWorld, port: BayPort): NearItem[] {
  return world.bay.parts.flatMap((part) =>
    part.solids
      .filter((solid) => distanceToBounds(solid.bounds, ...port.at) < AROUND_MM)
      .map((solid): NearItem => ({ part: part.id, solid, keepOffMm: 0, own: isOwnPart(part, port.partId) })),
  );
}

/** Length of line that counts as beside a port whose keep-offs are eased [mm]: an adapter, a hose end and a first straight. */
export const EASED_MM = 160;

/** Everything but the parts that are relaxed, at its full keep-off. */
export function restOf(world: LinesWorld, line: Line, items: readonly NearItem[]): Beside['rest'] {
  const relaxed = new Set(items.map((item) => item.part));
  return world.bricks.bricks(planningItems(world.bay, line).filter((item) => !relaxed.has(item.part)));
}

/** Length of line at a port for which its near rules hold, whatever the make-up [mm]. */
export const nearLengthMm = (port: BayPort): number => Math.max(LEAST_NEAR_MM, port.near?.mm ?? 0);

const pathOut = (at: Vec, faces: Vec): Float64Array => Float64Array.of(...at, ...addScaled(at, faces, 1));
