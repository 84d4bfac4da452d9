import { addScaled, distance, dot, lerp, scale, sub, type Vec } from '#geometry';
import { mm, type PanelFinding, placeOf } from '../finding.ts';
import type { PanelLayout } from '../layout.ts';
import { type EdgeOnCar, edgesOnCar, profileAt } from './edge-profile.ts';

/** A flange as it stands: along its edge, and up it. */
interface Standing {
  readonly of: EdgeOnCar;
  readonly from: Vec;
  readonly along: Vec;
  readonly up: Vec;
  readonly heightMm: number;
}

/** Looked at in so many places along a flange; up it every half thickness, so that nothing slips between; the height is then halved in to this [mm]. */
const ALONG = 16;
const WITHIN_MM = 0.1;

/** Flanges of one panel on edges that do not meet in a corner, which run into each other when both are folded. */
export function flangeClashes(layout: PanelLayout): readonly PanelFinding[] {
  const standing = edgesOnCar(layout).flatMap(flangeOf);
  return standing.flatMap((one, i) =>
    standing.slice(i + 1).flatMap((other): PanelFinding[] => {
      if (meetAtCorner(one.of, other.of)) return [];
      const clear = clearHeight(one, other, layout.sheet.thicknessMm);
      return clear === undefined ? [] : [told(layout, one, other, clear)];
    }),
  );
}

function flangeOf(of: EdgeOnCar): Standing[] {
  const piece = (at: Vec) => profileAt(of, at).find(({ name }) => name === 'flange');
  const [start, end] = [piece(of.from), piece(of.to)];
  if (start === undefined || end === undefined) return [];
  // Through the middle of its thickness.
  const mid = scale(start.out, -of.sheet.thicknessMm / 2);
  const from = addScaled(start.from, mid, 1);
  return [
    {
      of,
      from,
      along: sub(end.from, start.from),
      up: sub(start.to, start.from),
      heightMm: distance(start.from, start.to),
    },
  ];
}

const meetAtCorner = ({ edge: a }: EdgeOnCar, { edge: b }: EdgeOnCar): boolean =>
  a.from === b.to || a.to === b.from || a.from === b.from || a.to === b.to;

/** How high the first may stand where the other does, both sheets thick; undefined where both stand as they are. */
function clearHeight(one: Standing, other: Standing, thicknessMm: number): number | undefined {
  const hits = (share: number): boolean =>
    Array.from({ length: ALONG + 1 }, (_, i) => i / ALONG).some((along) => {
      const at = addScaled(addScaled(one.from, one.along, along), one.up, share);
      return toFlange(at, other) < thicknessMm;
    });
  const rows = Math.ceil((2 * one.heightMm) / thicknessMm);
  const first = Array.from({ length: rows + 1 }, (_, k) => k / rows).find(hits);
  if (first === undefined) return undefined;
  let [free, hit] = [Math.max(0, first - 1 / rows), first];
  while ((hit - free) * one.heightMm > WITHIN_MM) {
    const half = (free + hit) / 2;
    if (hits(half)) hit = half;
    else free = half;
  }
  return free * one.heightMm;
}

function toFlange(at: Vec, { from, along, up }: Standing): number {
  const share = (of: Vec): number => Math.min(1, Math.max(0, dot(sub(at, from), of) / dot(of, of)));
  return distance(at, addScaled(addScaled(from, along, share(along)), up, share(up)));
}

function told({ panel }: PanelLayout, one: Standing, other: Standing, clearMm: number): PanelFinding {
  const [a, b] = [one.of.edge, other.of.edge];
  return {
    code: 'panel-flanges-clash',
    level: 'stop',
    panel: panel.id,
    at: a.id,
    text: `${panel.id}: the flanges of ${a.id} and ${b.id} run into each other when both are folded; with ${b.id} as it is, ${a.id} may be ${mm(clearMm)} high`,
    value: Number(one.heightMm.toFixed(1)),
    limit: Number(clearMm.toFixed(1)),
    unit: 'mm',
    source: 'geometry',
    place: placeOf(addScaled(lerp(one.of.from, one.of.to, 0.5), one.up, clearMm / one.heightMm)),
    cures: [
      ...(clearMm < 1 ? [] : [`${a.id} no higher than ${mm(Math.floor(clearMm))}`]),
      `one of the two folded the other way, or by less`,
      'make one of them a strip of its own',
    ],
  };
}
