import { type BayPart, jointPoses, solidsSeenFrom } from '#bay';
import { distanceToBounds, isInOutline, type Solid, straightOutline, type Vec } from '#geometry';
import type { LinesWorld } from '#lines';
import { carFromFlat, type Facet, flatFromCar, type PanelFinding, type PanelLayout } from '#panels';

/** A part near a panel: their least gap as drawn and at the worst of their movement [mm], and where. */
export interface PanelNeighbour {
  readonly panel: string;
  readonly part: string;
  readonly gapMm: number;
  readonly movedMm: number;
  readonly at: Vec;
}

/** Looked at on the sheet this far apart; from the nearest it is followed to the least gap [mm]. */
const PITCH_MM = 12;
/** Further away nothing is said [mm]. */
const NEAR_MM = 40;
/** Left to what is fixed and to what shakes on mounts, over all movement [mm]. */
const ROOM_MM = 6;

/** Which parts stand near a panel, or through it. A part that the panel lies on or is cut from is not asked. */
export function panelNeighbours(world: LinesWorld, layout: PanelLayout): readonly PanelNeighbour[] {
  const { panel } = layout;
  const samples = layout.facets.flatMap((facet) => gridOn(facet).map((at) => ({ facet, at })));
  if (samples.length === 0) return [];
  const mover = panel.movesWith ?? null;
  const panels = new Set(world.car.panels?.map(({ id }) => id));
  return world.bay.parts.flatMap((part): PanelNeighbour[] => {
    if (panels.has(part.id)) return [];
    if (part.id === panel.on || part.id === panel.onScan || part.solids.length === 0) return [];
    const drawn = leastGap(samples, part.solids);
    if (drawn === undefined) return [];
    const moved = jointPoses(world.bay.movers, { from: mover, to: mover, part: part.moverId }).map(
      ({ from, part: to }) => leastGap([drawn, ...samples], solidsSeenFrom(part, from, to)),
    );
    const least = Math.min(drawn.gap, ...moved.map((one) => one?.gap ?? Infinity));
    return [{ panel: panel.id, part: part.id, gapMm: drawn.gap, movedMm: least, at: drawn.at }];
  });
}

interface OnSheet {
  readonly facet: Facet;
  readonly at: Vec;
}

function leastGap(samples: readonly OnSheet[], solids: readonly Solid[]): (OnSheet & { gap: number }) | undefined {
  let best: (OnSheet & { gap: number }) | undefined;
  let limit = NEAR_MM;
  for (const { facet, at } of samples) {
    for (const solid of solids) {
      if (distanceToBounds(solid.bounds, ...at) > Math.max(limit, 0)) continue;
      const gap = solid.distanceWithin(at[0], at[1], at[2], limit);
      if (gap < limit) best = { facet, at, gap: (limit = gap) };
    }
  }
  return best === undefined ? undefined : followed(best, solids);
}

/** From a point on the sheet to the part and back, until it comes no nearer. */
function followed(start: OnSheet & { gap: number }, solids: readonly Solid[]): OnSheet & { gap: number } {
  let best = start;
  for (let round = 0; round < 20; round++) {
    const nearest = solids
      .map((solid) => solid.closest(...best.at))
      .reduce((a, b) => (b.distance < a.distance ? b : a));
    const flat = flatFromCar(best.facet.frame, nearest.point);
    if (!isInOutline(straightOutline(best.facet.polygon), flat)) return best;
    const at = carFromFlat(best.facet.frame, flat);
    const gap = Math.min(...solids.map((solid) => solid.distance(...at)));
    if (!(gap < best.gap - 1e-3)) return best;
    best = { facet: best.facet, at, gap };
  }
  return best;
}

function gridOn({ polygon, frame }: Facet): Vec[] {
  const xs = polygon.map(([x]) => x);
  const ys = polygon.map(([, y]) => y);
  const outline = straightOutline(polygon);
  const along = (low: number, high: number): number[] => {
    const count = Math.max(1, Math.ceil((high - low) / PITCH_MM));
    return Array.from({ length: count + 1 }, (_, i) => low + ((high - low) * i) / count);
  };
  const inside = along(Math.min(...xs), Math.max(...xs)).flatMap((x) =>
    along(Math.min(...ys), Math.max(...ys)).flatMap((y) => (isInOutline(outline, [x, y]) ? [[x, y] as const] : [])),
  );
  return [...polygon, ...inside].map((at) => carFromFlat(frame, at));
}

/** What stands through a panel, or comes to touch it when it moves. */
export function neighbourFindings(world: LinesWorld, layout: PanelLayout): readonly PanelFinding[] {
  const crossed = new Set(layout.holes.map(({ line }) => line));
  return panelNeighbours(world, layout).flatMap((near): PanelFinding[] => {
    const part = world.bay.partById.get(near.part)!;
    if (crossed.has(part.id)) return [];
    const doubt = part.knownToMm + (layout.panel.knownToMm ?? 3);
    const worst = near.movedMm - doubt;
    if (near.gapMm >= 0 && worst >= 0) return [];
    return [near.gapMm < 0 ? throughIt(layout, part, near) : maybeTouches(layout, part, near, worst)];
  });
}

const tenth = (mm: number): string => (Math.abs(mm) < 10 ? mm.toFixed(1) : mm.toFixed(0));

function throughIt({ panel }: PanelLayout, part: BayPart, near: PanelNeighbour): PanelFinding {
  const deep = -near.gapMm;
  return {
    code: 'part-through-panel',
    level: 'stop',
    panel: panel.id,
    part: part.id,
    text: `${panel.id}: ${part.name} stands in its way, they overlap by ${tenth(deep)} mm`,
    value: near.gapMm,
    limit: 0,
    unit: 'mm',
    source: 'the car file',
    place: near.at,
    cures: [
      `set the panel out by ${Math.ceil(deep + ROOM_MM)} mm there`,
      'an opening for it, with room for movement all round, written among the holes of the panel',
    ],
  };
}

function maybeTouches({ panel }: PanelLayout, part: BayPart, near: PanelNeighbour, worst: number): PanelFinding {
  const moves = near.gapMm - near.movedMm;
  return {
    code: 'part-touches-panel',
    level: part.class === 'fixed' ? 'fix' : 'stop',
    panel: panel.id,
    part: part.id,
    text: `${panel.id}: ${part.name} clears it by ${tenth(near.gapMm)} mm as drawn${moves > 0.05 ? `, ${tenth(near.movedMm)} mm as it moves` : ''}; as well as both are known it may touch (${tenth(worst)} mm at worst)`,
    value: worst,
    limit: 0,
    unit: 'mm',
    source: 'how well both are known, and movement',
    place: near.at,
    cures: [`set the panel out by ${Math.ceil(ROOM_MM - worst)} mm there`, 'measure both there again'],
  };
}
