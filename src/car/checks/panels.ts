import type { Car, Panel } from '../schema/car.ts';
import type { Tell } from './car-view.ts';
import { tellTwice } from './car-view.ts';
import { panelCornerIds } from '../panel-corners.ts';
import { findNearest } from '../nearest.ts';

type Between = { readonly from: string; readonly to: string };

/** Ids twice, and corners named that the panel does not have. What a panel names on the car is judged where it is laid out. */
export function checkPanels(car: Pick<Car, 'panels'>, tell: Tell): void {
  const panels = car.panels ?? [];
  tellTwice(
    panels.map((panel) => panel.id),
    ['panels'],
    'id',
    tell,
  );
  panels.forEach((panel, i) => checkCorners(panel, i, tell));
}

function checkCorners(panel: Panel, i: number, tell: Tell): void {
  const at = ['panels', i] as const;
  for (const list of ['corners', 'windows', 'holes'] as const)
    tellTwice(
      (panel[list] ?? []).map((row) => row.id),
      [...at, list],
      'id',
      tell,
    );
  if (panel.corners !== undefined && panel.corners.length < 3)
    tell([...at, 'corners'], `${panel.corners.length} corners`, 'three corners or more');
  const ids = panelCornerIds(panel);
  const known = new Set(ids);
  const check = (row: Between | undefined, path: readonly (string | number)[]) => {
    if (row === undefined) return;
    for (const end of ['from', 'to'] as const)
      if (!known.has(row[end])) tell([...path, end], `"${row[end]}"`, () => cornerWords(row[end], ids));
    if (row.from === row.to) tell([...path, 'to'], `"${row.to}" again`, 'another corner than "from"');
  };
  check(panel.top, [...at, 'top']);
  panel.tapes?.forEach((row, k) => check(row, [...at, 'tapes', k]));
  panel.creases?.forEach((row, k) => check(row, [...at, 'creases', k]));
  panel.windows?.forEach((row, k) => check(row.along, [...at, 'windows', k, 'along']));
  panel.edges?.forEach((row, k) => {
    check(row, [...at, 'edges', k]);
    if (known.has(row.from) && known.has(row.to) && !neighbours(ids, row))
      tell([...at, 'edges', k], `"${row.from}" to "${row.to}"`, 'two corners that follow each other round the panel');
  });
}

function neighbours(ids: readonly string[], { from, to }: Between): boolean {
  const step = Math.abs(ids.indexOf(from) - ids.indexOf(to));
  return step === 1 || step === ids.length - 1;
}

function cornerWords(word: string, ids: readonly string[]): string {
  const nearest = findNearest(word, ids);
  return nearest === undefined ? 'a corner of this panel; it has none' : `a corner of this panel (nearest: ${nearest})`;
}
