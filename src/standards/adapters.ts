import { bossAdapters, taperAdapters } from './boss-adapters.ts';
import { lineAdapters } from './line-adapters.ts';
import { metricAdapters, washerAdapters } from './metric-adapters.ts';
import type { AdapterRow } from './rows.ts';

/** Drilled restrictors sold for turbo feeds [mm]. */
const restrictorsMm = [1, 1.2, 1.5] as const;
const restricted = (row: AdapterRow): readonly AdapterRow[] =>
  restrictorsMm.map((mm) => ({
    ...row,
    id: `${row.id}-restrictor-${mm}`,
    name: `${row.name}, with ${mm} mm restrictor`,
    boreMm: mm,
    restrictorMm: mm,
  }));

/** A turbo's oil feed is a -3 or -4 straight from the block or the turbo. */
const feedDash = 4;
const forTurboFeed = [...bossAdapters, ...washerAdapters, ...taperAdapters].filter(
  (r) => r.angleDeg === 0 && r.b.dash !== undefined && r.b.dash <= feedDash,
);

/** Every adapter the tool knows by itself: kinds that the trade sells in one piece, usual dimensions, to be measured. */
export const builtInAdapters: readonly AdapterRow[] = [
  ...bossAdapters,
  ...taperAdapters,
  ...washerAdapters,
  ...metricAdapters,
  ...lineAdapters,
  ...forTurboFeed.flatMap(restricted),
];
