import { builtInAdapters, builtInBulkheadFittings } from './adapters.ts';
import { builtInClamps, builtInGrommets } from './clamps.ts';
import { genericHoseEnds } from './hose-ends.ts';
import { builtInHoses } from './hoses.ts';
import { type OwnCatalogue, ownAdapters, ownHoseEnds, ownHoses, ownTubes, withOwn } from './own-rows.ts';
import type { AdapterRow, BulkheadFittingRow, ClampRow, GrommetRow, HoseEndRow, HoseRow, SealRow, TubeRow } from './rows.ts';
import { builtInSeals } from './seals.ts';
import { builtInTubes } from './tubes.ts';

/** All the parts a line can be made of: the built-in rows with the builder's own over them. */
export interface Catalogue {
  readonly hoses: readonly HoseRow[];
  /** The builder's own hose ends; for every end that fits one hose ask `hoseEndsFor`. */
  readonly hoseEnds: readonly HoseEndRow[];
  readonly adapters: readonly AdapterRow[];
  readonly bulkheadFittings: readonly BulkheadFittingRow[];
  readonly seals: readonly SealRow[];
  readonly tubes: readonly TubeRow[];
  readonly clamps: readonly ClampRow[];
  readonly grommets: readonly GrommetRow[];
  /** What the builder's rows got wrong, one line each; a faulty row is left out. */
  readonly faults: readonly string[];
  findHose(id: string): HoseRow | undefined;
  findTube(id: string): TubeRow | undefined;
  findSeal(id: string): SealRow | undefined;
  /** Every end for this hose, the builder's own first; usual ends are sized by this hose's own outside diameter. */
  hoseEndsFor(hose: HoseRow): readonly HoseEndRow[];
}

const fits = (end: HoseEndRow, hose: HoseRow): boolean => {
  if (!end.families.includes(hose.family)) return false;
  if (end.hoseDash !== undefined) return end.hoseDash === hose.dash;
  return end.hoseBoreMm !== undefined && Math.abs(end.hoseBoreMm - hose.boreMm) < 0.3;
};

/** The built-in rows with the builder's own over them: same id overrides, new id adds. */
export function catalogue(own: OwnCatalogue = {}): Catalogue {
  const faults: string[] = [];
  const hoses = withOwn(builtInHoses, ownHoses(own.hoses ?? [], faults));
  const tubes = withOwn(builtInTubes, ownTubes(own.tubes ?? [], faults));
  const adapters = withOwn(builtInAdapters, ownAdapters(own.adapters ?? [], faults));
  const hoseEnds = ownHoseEnds(own.hoseEnds ?? [], hoses, faults);
  return {
    hoses,
    hoseEnds,
    adapters,
    bulkheadFittings: builtInBulkheadFittings,
    seals: builtInSeals,
    tubes,
    clamps: builtInClamps,
    grommets: builtInGrommets,
    faults,
    findHose: (id) => hoses.find((h) => h.id === id),
    findTube: (id) => tubes.find((t) => t.id === id),
    findSeal: (id) => builtInSeals.find((s) => s.id === id),
    hoseEndsFor: (hose) => {
      const mine = hoseEnds.filter((e) => fits(e, hose));
      const taken = new Set(mine.map((e) => e.id));
      return [...mine, ...genericHoseEnds(hose).filter((e) => !taken.has(e.id))];
    },
  };
}
