import { type Body, bodyGap, bodyShape } from '#geometry';
import { type BayPart, isOwnPart } from './bay-part.ts';
import type { BayPort } from './bay-port.ts';

/** The least length of line that counts as near a port [mm]. Own choice: about one hose end and its first straight. */
export const LEAST_NEAR_MM = 60;

/** A stretch of a line with one limit to one part. */
export interface Region {
  readonly fromMm: number;
  readonly toMm: number;
  /** The keep-off there [mm]. */
  readonly limitMm: number;
  /** The limit is relaxed because the stretch is near a port. */
  readonly near: boolean;
  /** The stretch is near a port on this very part: how the two stand to each other is not in doubt. */
  readonly own: boolean;
}

export interface LineEnds {
  readonly bodies: readonly Body[];
  readonly lengthMm: number;
  /** The ports it runs between; null: an end at no port of the car, with no near zone. */
  readonly from: BayPort | null;
  readonly to: BayPort | null;
  /** Adapter, hose end and first straight at either port [mm]; at least 60 counts. */
  readonly nearMm: readonly [number, number];
}

interface Zone {
  readonly fromMm: number;
  readonly toMm: number;
  readonly limitMm: number;
  readonly own: boolean;
}

/**
 * How a line's length splits for one part. Near a port the line ignores its own part's keep-off (not its solid, except as deep
 * as the port face itself sits in it); to any other part the keep-off is the lesser of its rule and the port face's own gap,
 * never below touching; `near` on the port says otherwise for the parts it names.
 *
 * @param ruleMm - the part's keep-off for this line [mm]
 * @param skip - stretches where the line passes through the part and the part does not count
 */
export function regions(
  part: BayPart,
  line: LineEnds,
  ruleMm: number,
  skip: readonly (readonly [number, number])[] = [],
): readonly Region[] {
  const length = line.lengthMm;
  const zones: Zone[] = [];
  const start = zoneAt(part, line.from, line.bodies, false, line.nearMm[0], ruleMm);
  if (start !== null) zones.push({ fromMm: 0, toMm: Math.min(length, start.mm), ...start });
  const end = zoneAt(part, line.to, line.bodies, true, line.nearMm[1], ruleMm);
  if (end !== null) zones.push({ fromMm: Math.max(0, length - end.mm), toMm: length, ...end });
  const marks = [0, length, ...zones.flatMap((z) => [z.fromMm, z.toMm]), ...skip.flat()].filter(
    (m) => m >= 0 && m <= length,
  );
  const places = [...new Set(marks)].sort((a, b) => a - b);
  const out: Region[] = [];
  for (let i = 0; i + 1 < places.length; i++) {
    const [a, b] = [places[i]!, places[i + 1]!];
    const mid = (a + b) / 2;
    if (skip.some(([s, e]) => mid > s && mid < e)) continue;
    const here = zones.filter((z) => mid > z.fromMm && mid < z.toMm);
    out.push({
      fromMm: a,
      toMm: b,
      limitMm: here.length === 0 ? ruleMm : Math.min(...here.map((z) => z.limitMm)),
      near: here.length > 0,
      own: here.some((z) => z.own),
    });
  }
  return out;
}

function zoneAt(
  part: BayPart,
  port: BayPort | null,
  bodies: readonly Body[],
  last: boolean,
  nearMm: number,
  ruleMm: number,
): { readonly mm: number; readonly limitMm: number; readonly own: boolean } | null {
  if (port === null) return null;
  const own = isOwnPart(part, port.partId);
  const usual = Math.max(LEAST_NEAR_MM, nearMm);
  const said = port.near?.parts.includes(part.id) === true ? port.near : undefined;
  const mm = said?.mm ?? usual;
  if (said?.keepOffMm !== undefined) return { mm, limitMm: said.keepOffMm, own };
  const face = faceGap(part, bodies, last, ruleMm);
  if (own) return { mm, limitMm: Math.min(0, face), own };
  if (face >= ruleMm) return null;
  return { mm, limitMm: Math.max(0, face), own };
}

/** How long the disc that stands for a port face is [mm]: a flat disc, no more than rounding thick. */
const FACE_MM = 1e-4;

/** The gap between a part and the flat face of the line's first (or last) body [mm]; Infinity from `beyondMm` on. */
export function faceGap(part: BayPart, bodies: readonly Body[], last: boolean, beyondMm: number): number {
  const body = last ? bodies.at(-1) : bodies[0];
  if (body === undefined) return Infinity;
  const { points: p, tangents: t, pieces } = bodyShape(body);
  const i = last ? 3 * pieces : 0;
  const k = last ? 3 * (pieces - 1) : 0;
  const s = last ? -FACE_MM : FACE_MM;
  const path = Float64Array.of(
    p[i]!,
    p[i + 1]!,
    p[i + 2]!,
    p[i]! + t[k]! * s,
    p[i + 1]! + t[k + 1]! * s,
    p[i + 2]! + t[k + 2]! * s,
  );
  const face: Body = { part: 'port face', path, radiusMm: body.radiusMm };
  let least = Infinity;
  for (const solid of part.solids) least = Math.min(least, bodyGap(face, solid, Math.min(least, beyondMm)).gapMm);
  return least;
}
