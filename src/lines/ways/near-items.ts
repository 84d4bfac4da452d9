import { type Bay, type BayPort, LEAST_NEAR_MM, faceGap, keepOff } from '#bay';
import type { Line } from '#car';
import { type Body, type Vec, addScaled, distanceToBounds } from '#geometry';
import type { NearItem } from './span.ts';

/** Parts further than this from a port do not matter to its fittings [mm]; a long 180 degree end with its adapter is 200. */
const AROUND_MM = 320;

/** What stands near a port, with the keep-offs that hold beside it: the same rules as the judgement's. */
export function nearItems(bay: Bay, port: BayPort, line: Line, faceRadiusMm: number): NearItem[] {
  const face: Body = { part: 'port face', path: pathOut(port.at, port.faces), radiusMm: faceRadiusMm };
  return bay.parts.flatMap((part) => {
    const rule = keepOff(bay, part, line).mm;
    const own = part.id === port.partId;
    const said = port.near?.parts.includes(part.id) === true ? port.near.keepOffMm : undefined;
    const close = part.solids.filter((s) => distanceToBounds(s.bounds, ...port.at) < AROUND_MM + rule);
    if (close.length === 0) return [];
    const gap = faceGap(part, [face], false, rule);
    const keepOffMm = own ? Math.min(0, gap) : (said ?? Math.max(0, Math.min(rule, gap)));
    return close.map((solid): NearItem => ({ part: part.id, solid, keepOffMm, own }));
  });
}

/** Length of line at a port for which its near rules hold, whatever the make-up [mm]. */
export const nearLengthMm = (port: BayPort): number => Math.max(LEAST_NEAR_MM, port.near?.mm ?? 0);

const pathOut = (at: Vec, faces: Vec): Float64Array => Float64Array.of(...at, ...addScaled(at, faces, 1));
