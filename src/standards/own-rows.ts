import { builtInAdapters } from './adapters.ts';
import { genericHoseEnds } from './hose-ends.ts';
import { builtInHoses } from './hoses.ts';
import { builtInTubes } from './tubes.ts';
import { checkAdapter, checkHose, checkHoseEnd, checkTube } from './check-rows.ts';
import type { AdapterRow, HoseEndRow, HoseRow, TubeRow } from './rows.ts';

type Own<T extends { readonly id: string }> = { readonly id: string } & { readonly [K in keyof T]?: T[K] | undefined };

/** A builder's row: any built-in row's id with the fields that differ, or a new id with at least what cannot be guessed. */
export type OwnHose = Own<HoseRow>;
export type OwnHoseEnd = Own<HoseEndRow>;
export type OwnAdapter = Own<AdapterRow>;
export type OwnTube = Own<TubeRow>;

/** The car file's `catalogue`. */
export interface OwnCatalogue {
  readonly hoses?: readonly OwnHose[];
  readonly hoseEnds?: readonly OwnHoseEnd[];
  readonly adapters?: readonly OwnAdapter[];
  readonly tubes?: readonly OwnTube[];
}

/** Built-in rows with own rows over them: same id replaces in place, new ids follow. */
export function withOwn<T extends { readonly id: string }>(builtIn: readonly T[], own: readonly T[]): readonly T[] {
  const mine = new Map(own.map((r) => [r.id, r]));
  const known = new Set(builtIn.map((r) => r.id));
  return [...builtIn.map((r) => mine.get(r.id) ?? r), ...[...mine.values()].filter((r) => !known.has(r.id))];
}

/** The fields that the builder gave, without the absent ones. */
function givenFields<T extends object>(row: T): Partial<T> {
  return Object.fromEntries(Object.entries(row).filter(([, v]) => v !== undefined)) as Partial<T>;
}

const largest = <T>(rows: readonly T[], size: (row: T) => number, atMost: number): T | undefined =>
  rows.filter((r) => size(r) <= atMost).sort((a, b) => size(b) - size(a))[0] ?? rows[0];

/** A hose with a dash is taken for rubber with a wire braid, one without for a coupler hose, until the builder says. */
function likeHose(own: OwnHose): HoseRow | undefined {
  const same = builtInHoses.find((h) => h.id === own.id);
  if (same !== undefined) return same;
  const family = own.family ?? (own.dash === undefined ? 'silicone' : 'rubber-braid');
  const rows = builtInHoses.filter((h) => h.family === family);
  const pool = rows.length > 0 ? rows : builtInHoses.filter((h) => h.family === (own.dash === undefined ? 'silicone' : 'rubber-braid'));
  if (own.dash !== undefined) return pool.find((h) => h.dash === own.dash) ?? largest(pool, (h) => h.dash ?? 0, own.dash);
  return largest(pool, (h) => h.boreMm, own.boreMm ?? 0);
}

export function ownHoses(rows: readonly OwnHose[], faults: string[]): readonly HoseRow[] {
  return rows.flatMap((own, i) => {
    const where = `catalogue.hoses[${i}] "${own.id}"`;
    const found = checkHose(own, where);
    if (found.length > 0) faults.push(...found);
    const like = likeHose(own);
    if (found.length > 0 || like === undefined) return [];
    const { dash: _dash, dashMeans: _means, ...rest } = like;
    const base = like.id === own.id ? like : { ...rest, name: own.id, radiusMeasured: 'centreline' as const, vacuumBar: null, conductive: null };
    return [{ ...base, source: 'builder' as const, measure: false, ...givenFields(own) } as HoseRow];
  });
}

export function ownTubes(rows: readonly OwnTube[], faults: string[]): readonly TubeRow[] {
  return rows.flatMap((own, i) => {
    const found = checkTube(own, `catalogue.tubes[${i}] "${own.id}"`);
    faults.push(...found);
    const like = builtInTubes.find((t) => t.id === own.id) ?? largest(builtInTubes, (t) => t.odMm, own.odMm ?? 0);
    if (found.length > 0 || like === undefined) return [];
    const { dash: _dash, ...rest } = like;
    const base = like.id === own.id ? like : { ...rest, name: own.id };
    return [{ ...base, source: 'builder' as const, measure: false, ...givenFields(own) } as TubeRow];
  });
}

export function ownAdapters(rows: readonly OwnAdapter[], faults: string[]): readonly AdapterRow[] {
  return rows.flatMap((own, i) => {
    const like = builtInAdapters.find((a) => a.id === own.id);
    const found = checkAdapter(own, `catalogue.adapters[${i}] "${own.id}"`, like !== undefined);
    faults.push(...found);
    if (found.length > 0) return [];
    const base = like ?? { name: own.id, angleDeg: 0, clock: 'none', seals: [], hexMm: 0 };
    return [{ ...base, source: 'builder' as const, measure: false, ...givenFields(own) } as AdapterRow];
  });
}

export function ownHoseEnds(rows: readonly OwnHoseEnd[], hoses: readonly HoseRow[], faults: string[]): readonly HoseEndRow[] {
  const generic = new Map(hoses.flatMap((h) => genericHoseEnds(h).map((e) => [e.id, e] as const)));
  return rows.flatMap((own, i) => {
    const like = generic.get(own.id);
    const found = checkHoseEnd(own, `catalogue.hoseEnds[${i}] "${own.id}"`, like !== undefined);
    faults.push(...found);
    if (found.length > 0) return [];
    const base = like ?? { name: own.id, fixing: 'crimped', bendRadiusMm: 0, afterBendMm: 0, nutHexMm: 0, reusable: false, canTurn: true };
    return [{ ...base, source: 'builder' as const, measure: false, ...givenFields(own) } as HoseEndRow];
  });
}
