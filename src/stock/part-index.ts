import { type Catalogue, type End, type Row, builtInBulkheadFittings, describeEnd, threadOf } from '#standards';

/** What kind of thing a row of the order is; also the order in which the kinds are listed. */
export const partKinds = [
  'hose',
  'tube',
  'hose-end',
  'adapter',
  'bulkhead-fitting',
  'locknut',
  'seal',
  'clamp',
  'p-clip',
  'grommet',
  'plug',
] as const;
export type PartKind = (typeof partKinds)[number];

/** What the catalogue says of a part to whoever buys it. */
export interface PartFacts {
  readonly name: string;
  readonly partNumber?: string;
  readonly supplier?: string;
  readonly price?: number;
  readonly currency?: string;
  readonly standard?: string;
  readonly thread?: string;
  readonly hexMm?: number;
  readonly measure: boolean;
  /** Unknown to the catalogue: an old id in a taken way. */
  readonly unknown?: boolean;
}

/** Looks a part up by its id in every table of the catalogue. */
export type PartIndex = (id: string) => PartFacts;

/** An index over the catalogue; the usual hose ends are those of the hoses named, since only a hose has ends. */
export function partIndex(shelf: Catalogue, hoseIds: Iterable<string>): PartIndex {
  const facts = new Map<string, PartFacts>();
  const put = (row: Row, more: Partial<PartFacts> = {}): void => {
    if (!facts.has(row.id)) facts.set(row.id, { ...ownFacts(row), ...more });
  };
  for (const row of shelf.hoses) put(row);
  for (const row of shelf.tubes) put(row);
  for (const row of shelf.adapters) put(row, { ...threads(row.a, row.b), ...hex(row.hexMm) });
  for (const row of shelf.bulkheadFittings) put(row, { ...threads(row.a, row.b), ...hex(row.hexMm) });
  for (const row of shelf.seals)
    put(row, row.kind === 'o-ring' && row.id.startsWith('o-ring-9') ? { standard: 'AS568' } : {});
  for (const row of shelf.clamps) put(row, { thread: row.screw });
  for (const row of shelf.grommets) put(row);
  for (const row of shelf.plugs) put(row, { ...threads(row.closes), ...hex(row.hexMm) });
  for (const id of hoseIds) {
    const hose = shelf.findHose(id);
    for (const row of hose === undefined ? [] : shelf.hoseEndsFor(hose))
      put(row, { ...threads(row.to), ...hex(row.nutHexMm) });
  }
  for (const row of builtInBulkheadFittings) {
    const { thread } = threads(row.a);
    if (row.a.dash === undefined) continue;
    const id = locknutId(row.a.dash);
    facts.set(id, {
      name: `-${row.a.dash} bulkhead locknut; many fittings come with one`,
      ...(thread === undefined ? {} : { thread }),
      measure: true,
    });
  }
  return (id) => facts.get(id) ?? { name: id, measure: true, unknown: true };
}

export const locknutId = (dash: number): string => `bulkhead-nut-${dash}`;

function ownFacts(row: Row): PartFacts {
  return {
    name: row.name,
    measure: row.measure,
    ...(row.partNumber === undefined ? {} : { partNumber: row.partNumber }),
    ...(row.supplier === undefined ? {} : { supplier: row.supplier }),
    ...(row.price === undefined ? {} : { price: row.price }),
    ...(row.currency === undefined ? {} : { currency: row.currency }),
  };
}

const hex = (mm: number): Partial<PartFacts> => (mm > 0 ? { hexMm: mm } : {});

/** Threads of both ends in words, and the standards that give them. */
function threads(...ends: readonly End[]): Pick<PartFacts, 'thread' | 'standard'> {
  const named = ends.filter((end) => threadOf(end) !== undefined).map(describeEnd);
  const standards = ends.flatMap((end) => standardOf[end.type] ?? []);
  return {
    ...(named.length === 0 ? {} : { thread: [...new Set(named)].join(' to ') }),
    ...(standards.length === 0 ? {} : { standard: [...new Set(standards)].join(', ') }),
  };
}

/** The published standard that each kind of thread and seat is made to; titles as in the bibliography. */
const standardOf: Readonly<Partial<Record<End['type'], string>>> = {
  orb: 'SAE J1926 (ISO 11926)',
  'orb-stud': 'SAE J1926 (ISO 11926)',
  'flare37-male': 'SAE J514 (ISO 8434-2)',
  'flare37-female': 'SAE J514 (ISO 8434-2)',
  'flare45-male': 'SAE J512',
  'flare45-female': 'SAE J512',
  'inverted-flare': 'SAE J512',
  'inverted-flare-nut': 'SAE J512',
  'npt-male': 'ASME B1.20.1',
  'npt-female': 'ASME B1.20.1',
  'metric-orb': 'ISO 6149-1',
  'metric-orb-stud': 'ISO 6149-1',
  'metric-washer': 'ISO 9974',
  'metric-washer-stud': 'ISO 9974',
  bspp: 'ISO 1179',
  'bspp-stud': 'ISO 1179',
  'face-seal': 'SAE J1453',
  'face-seal-swivel': 'SAE J1453',
};
