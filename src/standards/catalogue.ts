import { builtInAdapters } from './adapters.ts';
import { builtInClamps, builtInGrommets } from './clamps.ts';
import { genericHoseEnds } from './hose-ends.ts';
import { builtInHoses } from './hoses.ts';
import { builtInBulkheadFittings } from './line-adapters.ts';
import type { OwnCatalogue } from './own-catalogue.ts';
import { ownAdapters, ownClamps, ownGrommets, ownHoseEnds, ownHoses, ownSeals, ownTubes, withOwn } from './own-rows.ts';
import { builtInBungs, builtInPlugs } from './plugs.ts';
import type {
  AdapterRow,
  BulkheadFittingRow,
  BungRow,
  ClampRow,
  GrommetRow,
  HoseEndRow,
  HoseRow,
  PlugRow,
  SealRow,
  TubeRow,
} from './rows.ts';
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
  readonly plugs: readonly PlugRow[];
  readonly bungs: readonly BungRow[];
  /** What the builder's rows got wrong, one line each; a faulty row is left out. */
  readonly faults: readonly string[];
  findHose(id: string): HoseRow | undefined;
  findTube(id: string): TubeRow | undefined;
  findSeal(id: string): SealRow | undefined;
  /** Every end for this hose, the builder's own first; usual ends are sized by this hose's own outside diameter. */
  hoseEndsFor(hose: HoseRow): readonly HoseEndRow[];
}

/** Hoses sold by their bore differ by tenths of a millimetre from maker to maker [mm]. */
const sameBoreMm = 0.3;

const fits = (end: HoseEndRow, hose: HoseRow): boolean => {
  if (!end.families.includes(hose.family)) return false;
  if (end.hoseDash !== undefined) return end.hoseDash === hose.dash;
  return end.hoseBoreMm !== undefined && Math.abs(end.hoseBoreMm - hose.boreMm) < sameBoreMm;
};

/** The built-in rows with the builder's own over them: same id overrides, new id adds. */
export function catalogue(own: OwnCatalogue = {}): Catalogue {
  const faults: string[] = [];
  const hoses = withOwn(builtInHoses, ownHoses(own.hoses ?? [], faults));
  const tubes = withOwn(builtInTubes, ownTubes(own.tubes ?? [], faults));
  const adapters = withOwn(builtInAdapters, ownAdapters(own.adapters ?? [], faults));
  const seals = withOwn(builtInSeals, ownSeals(own.seals ?? [], faults));
  const hoseEnds = ownHoseEnds(own.hoseEnds ?? [], hoses, faults);
  return {
    hoses,
    hoseEnds,
    adapters,
    bulkheadFittings: builtInBulkheadFittings,
    seals,
    tubes,
    clamps: withOwn(builtInClamps, ownClamps(own.clamps ?? [], faults)),
    grommets: withOwn(builtInGrommets, ownGrommets(own.grommets ?? [], faults)),
    plugs: builtInPlugs,
    bungs: builtInBungs,
    faults,
    findHose: (id) => hoses.find((h) => h.id === id),
    findTube: (id) => tubes.find((t) => t.id === id),
    findSeal: (id) => seals.find((s) => s.id === id),
    hoseEndsFor: (hose) => {
      const mine = hoseEnds.filter((e) => fits(e, hose));
      const taken = new Set(mine.map((e) => e.id));
      return [...mine, ...genericHoseEnds(hose).filter((e) => !taken.has(e.id))];
    },
  };
}
