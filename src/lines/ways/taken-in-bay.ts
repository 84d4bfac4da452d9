import { type Bay, distanceToPart, type LineInBay } from '#bay';
import type { Line, TakenWay } from '#car';
import { type Body, polylineLength } from '#geometry';
import { straightBehindFitting } from '#standards';
import type { Way } from '../way.ts';
import type { DraftBody } from './draft-body.ts';

/** The bodies of a way as solids. */
export const bodiesOfWay = (way: Pick<Way | TakenWay, 'bodies'>): DraftBody[] =>
  way.bodies.map(({ part, pathMm, odMm, row }) => ({
    part,
    ...(typeof row === 'string' ? { row } : {}),
    path: Float64Array.from(pathMm.flat()),
    radiusMm: odMm / 2,
  }));

const isFlexible = (body: { readonly part: string }): boolean => body.part === 'hose';

/** Adapter and hose end at either end of the line [mm]. */
export function endLengths(bodies: readonly Body[]): [number, number] {
  const until = (list: readonly Body[]): number => {
    const first = list.findIndex(isFlexible);
    return list.slice(0, Math.max(0, first)).reduce((sum, body) => sum + polylineLength(body.path), 0);
  };
  return [until(bodies), until([...bodies].reverse())];
}

/** A line whose way was taken earlier, as the bay measures it: laid as its bodies say, or as they have been moved since. */
export function takenInBay(bay: Bay, line: Line, way: Way | TakenWay, bodies: readonly Body[]): LineInBay {
  const ends = endLengths(bodies);
  const hoseOdMm = way.pieces.find((piece) => piece.hose !== undefined)?.odMm ?? 0;
  const straightMm = hoseOdMm === 0 ? 0 : straightBehindFitting(hoseOdMm);
  const { hangSpreadMm: spreadMm, nearMm } = way as Partial<Way>;
  return {
    line,
    bodies,
    from: line.from,
    to: line.to,
    nearMm: isPair(nearMm) ? nearMm : [ends[0] + straightMm, ends[1] + straightMm],
    hangSpreadMm: typeof spreadMm === 'number' && Number.isFinite(spreadMm) ? Math.max(0, spreadMm) : 0,
    crossings: crossingsOf(bay, line, bodies),
  };
}

const isPair = (value: unknown): value is [number, number] =>
  Array.isArray(value) && value.length === 2 && value.every((mm) => typeof mm === 'number' && mm >= 0);

/** What is screwed on a fitting, and a grommet's lip, may stand this close to the panel beside it [mm]. */
const BESIDE_FITTING_MM = 60;
const BESIDE_GROMMET_MM = 16;

/** Where along the line it passes what it passes. */
function crossingsOf(bay: Bay, line: Line, bodies: readonly Body[]): NonNullable<LineInBay['crossings']> {
  const used = new Set<number>();
  return line.through.flatMap(({ part, kind }) => {
    const n = bodies.findIndex((body, i) => body.part === kind && !used.has(i));
    if (n >= 0) {
      used.add(n);
      const start = bodies.slice(0, n).reduce((sum, body) => sum + polylineLength(body.path), 0);
      return [
        {
          part,
          alongMm: [start - BESIDE_FITTING_MM, start + polylineLength(bodies[n]!.path) + BESIDE_FITTING_MM] as const,
        },
      ];
    }
    const panel = bay.partById.get(part);
    if (panel === undefined || panel.solids.length === 0) return [];
    const { alongMm, radiusMm } = nearestTo((x, y, z) => Math.abs(distanceToPart(panel, x, y, z)), bodies);
    return [
      { part, alongMm: [alongMm - radiusMm - BESIDE_GROMMET_MM, alongMm + radiusMm + BESIDE_GROMMET_MM] as const },
    ];
  });
}

function nearestTo(
  distanceAt: (x: number, y: number, z: number) => number,
  bodies: readonly Body[],
): { alongMm: number; radiusMm: number } {
  let along = 0;
  let best = Number.POSITIVE_INFINITY;
  let found = { alongMm: 0, radiusMm: 0 };
  for (const { path, radiusMm } of bodies) {
    for (let i = 0; i + 2 < path.length; i += 3) {
      if (i > 0) along += Math.hypot(path[i]! - path[i - 3]!, path[i + 1]! - path[i - 2]!, path[i + 2]! - path[i - 1]!);
      const d = distanceAt(path[i]!, path[i + 1]!, path[i + 2]!);
      if (d < best) [best, found] = [d, { alongMm: along, radiusMm }];
    }
  }
  return found;
}
