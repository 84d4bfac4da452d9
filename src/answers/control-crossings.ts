import type { Part } from '#car';
import { distance, lerp, movedPoint, sub, unit, type Vec } from '#geometry';
import { leverParts } from '#levers';
import type { LinesWorld } from '#lines';
import type { PanelCrossing, PanelLayout } from '#panels';
import { grommetHole, meetings } from './sheet-meetings.ts';

/** Cables and levers that go through a panel: a grommet for a cable, a slot as long as its swing for a lever. */
export function controlCrossings(world: LinesWorld, layout: PanelLayout): readonly PanelCrossing[] {
  const { parts, cableParts } = leverParts(world.car);
  return [
    ...cableParts.flatMap((cable) => cableCrossings(world, layout, cable)),
    ...parts.flatMap((lever) => leverCrossing(world, layout, lever)),
  ];
}

const tubesOf = ({ shapes }: Part) => shapes.flatMap(({ tube }) => (tube === undefined ? [] : [tube]));

function cableCrossings({ shelf }: LinesWorld, { panel, facets }: PanelLayout, cable: Part): PanelCrossing[] {
  return tubesOf(cable).flatMap(({ pointsMm, radiusMm }) =>
    meetings(pointsMm, facets).map(
      (meets): PanelCrossing => ({
        ...meets,
        panel: panel.id,
        line: cable.id,
        odMm: 2 * radiusMm,
        kind: 'grommet',
        ...grommetHole(shelf, 2 * radiusMm),
      }),
    ),
  );
}

/** Where a lever meets the sheet over its whole swing: one slot, from the first such place to the last. */
function leverCrossing(world: LinesWorld, { panel, facets }: PanelLayout, lever: Part): PanelCrossing[] {
  const swing = world.bay.movers.get(lever.id)?.poses ?? [];
  const met = swing.flatMap((pose) =>
    tubesOf(lever).flatMap(({ pointsMm, radiusMm }) =>
      meetings(
        pointsMm.map((at) => movedPoint(pose, at)),
        facets,
      ).map((meets) => ({ ...meets, odMm: 2 * radiusMm })),
    ),
  );
  if (met.length === 0) return [];
  const [from, to] = furthest(met.map(({ at }) => at));
  const long = distance(from, to);
  // At the end of its swing it leans the most through the sheet.
  const leaning = met.find(({ at }) => at === from)!;
  return [
    {
      at: lerp(from, to, 0.5),
      along: leaning.along,
      panel: panel.id,
      line: lever.id,
      odMm: Math.max(...met.map(({ odMm }) => odMm)),
      kind: 'plain',
      seal: 'a gaiter over the slot, clamped to the lever',
      ...(long < 0.5 ? {} : { movesMm: long / 2, movesAlong: unit(sub(to, from)) }),
    },
  ];
}

function furthest(places: readonly Vec[]): readonly [Vec, Vec] {
  const pairs = places.flatMap((a, i) => places.slice(i).map((b) => [a, b] as const));
  return pairs.reduce((best, pair) => (distance(...pair) > distance(...best) ? pair : best));
}
