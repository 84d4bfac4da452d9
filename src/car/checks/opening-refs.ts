import type { Car, Panel } from '../schema/car.ts';

/**
 * Everything that a pressure or a fan may name: bay openings by their id, panels, and their windows and holes as "panel.window".
 * A mirror of another panel has that one's windows and holes where it gives none of its own.
 */
export function openingRefs(car: Pick<Car, 'bays' | 'panels'>): ReadonlySet<string> {
  const panels = car.panels ?? [];
  return new Set([
    ...(car.bays ?? []).flatMap((bay) => (bay.openings ?? []).map((opening) => opening.id)),
    ...panels.map((panel) => panel.id),
    ...panels.flatMap((panel) => {
      const other = panels.find((each) => each.id === panel.mirrorOf?.panel);
      return [...rows(panel, other, 'windows'), ...rows(panel, other, 'holes')].map((row) => `${panel.id}.${row.id}`);
    }),
  ]);
}

const rows = (panel: Panel, other: Panel | undefined, key: 'windows' | 'holes'): readonly { readonly id: string }[] =>
  panel[key] ?? other?.[key] ?? [];
