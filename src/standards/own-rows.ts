import { builtInAdapters } from './adapters.ts';
import { checkAdapter, checkClamp, checkGrommet, checkHose, checkHoseEnd, checkSeal, checkTube } from './check-rows.ts';
import { builtInClamps, builtInGrommets } from './clamps.ts';
import { fixingRow } from './fixings.ts';
import { genericHoseEnds } from './hose-ends.ts';
import { hoseEndFactor } from './hose-formulas.ts';
import { builtInHoses } from './hoses.ts';
import type { OwnAdapter, OwnHose, OwnHoseEnd, OwnTube } from './own-catalogue.ts';
import {
  type AdapterRow,
  type AssumedOfHose,
  allFluids,
  type ClampRow,
  type GrommetRow,
  type HoseEndRow,
  type HoseRow,
  type SealRow,
  type TubeRow,
} from './rows.ts';
import { builtInSeals } from './seals.ts';
import { builtInTubes } from './tubes.ts';

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

/** What every row of the builder's is until it says otherwise. */
const mine = { source: 'builder', measure: false } as const;

const largest = <T>(rows: readonly T[], size: (row: T) => number, atMost: number): T | undefined =>
  rows.filter((r) => size(r) <= atMost).sort((a, b) => size(b) - size(a))[0] ?? rows[0];

/** A hose with a dash is taken for rubber with a wire braid, one without for a coupler hose, until the builder says. */
function likeHose(own: OwnHose): HoseRow | undefined {
  const same = builtInHoses.find((h) => h.id === own.id);
  if (same !== undefined) return same;
  const family = own.family ?? (own.dash === undefined ? 'silicone' : 'rubber-braid');
  const rows = builtInHoses.filter((h) => h.family === family);
  const usual = own.dash === undefined ? 'silicone' : 'rubber-braid';
  const pool = rows.length > 0 ? rows : builtInHoses.filter((h) => h.family === usual);
  if (own.dash !== undefined)
    return pool.find((h) => h.dash === own.dash) ?? largest(pool, (h) => h.dash ?? 0, own.dash);
  return largest(pool, (h) => h.boreMm, own.boreMm ?? 0);
}

/** What a hose row may leave out; taken from the usual hose, and said so. */
const assumable = ['pressureBar', 'minC', 'maxC', 'fluids'] as const satisfies readonly AssumedOfHose[];

/** The builder's hoses, whole: what they leave out is taken from the usual hose of that family and size. */
export function ownHoses(rows: readonly OwnHose[], faults: string[]): readonly HoseRow[] {
  return rows.flatMap((own, i) => {
    const like = likeHose(own);
    const known = like?.id === own.id;
    const found = checkHose(own, `catalogue.hoses[${i}] "${own.id}"`, known);
    faults.push(...found);
    if (found.length > 0 || like === undefined) return [];
    const { dash: _dash, dashMeans: _means, ...rest } = like;
    const base = known
      ? like
      : {
          ...rest,
          name: own.id,
          radiusMeasured: 'centreline' as const,
          vacuumBar: null,
          conductive: null,
          fluids: allFluids,
        };
    const assumed = known ? {} : { assumed: assumable.filter((f) => own[f] === undefined) };
    return [{ ...base, ...assumed, ...mine, ...givenFields(own) } as HoseRow];
  });
}

/** The builder's tubes, whole. */
export function ownTubes(rows: readonly OwnTube[], faults: string[]): readonly TubeRow[] {
  return rows.flatMap((own, i) => {
    const like = builtInTubes.find((t) => t.id === own.id) ?? largest(builtInTubes, (t) => t.odMm, own.odMm ?? 0);
    const known = like?.id === own.id;
    const found = checkTube(own, `catalogue.tubes[${i}] "${own.id}"`, known);
    faults.push(...found);
    if (found.length > 0 || like === undefined) return [];
    const { dash: _dash, ...rest } = like;
    return [{ ...(known ? like : { ...rest, name: own.id }), ...mine, ...givenFields(own) } as TubeRow];
  });
}

/** The builder's adapters, whole. */
export function ownAdapters(rows: readonly OwnAdapter[], faults: string[]): readonly AdapterRow[] {
  return rows.flatMap((own, i) => {
    const like = builtInAdapters.find((a) => a.id === own.id);
    const found = checkAdapter(own, `catalogue.adapters[${i}] "${own.id}"`, like !== undefined);
    faults.push(...found);
    if (found.length > 0) return [];
    const base = like ?? { name: own.id, angleDeg: 0, clock: 'none', seals: [], hexMm: 0 };
    return [{ ...base, ...mine, ...givenFields(own) } as AdapterRow];
  });
}

const endsById = (hose: HoseRow) => genericHoseEnds(hose).map((e) => [e.id, e] as const);

let usual: ReadonlyMap<string, HoseEndRow> | undefined;
/** The usual ends of the built-in hoses by id; worked out once, when a builder's list first asks. */
function usualEnds(): ReadonlyMap<string, HoseEndRow> {
  usual ??= new Map(builtInHoses.flatMap(endsById));
  return usual;
}

/** The builder's hose ends, whole; a usual end's id overrides that end for the hose that it was made for. */
export function ownHoseEnds(
  rows: readonly OwnHoseEnd[],
  hoses: readonly HoseRow[],
  faults: string[],
): readonly HoseEndRow[] {
  if (rows.length === 0) return [];
  const changed = new Map(hoses.filter((h) => !builtInHoses.includes(h)).flatMap(endsById));
  const generic = { get: (id: string) => changed.get(id) ?? usualEnds().get(id) };
  return rows.flatMap((own, i) => {
    const like = generic.get(own.id);
    const found = checkHoseEnd(own, `catalogue.hoseEnds[${i}] "${own.id}"`, like !== undefined);
    faults.push(...found);
    if (found.length > 0) return [];
    const base = like ?? {
      name: own.id,
      fixing: 'crimped' as const,
      bendRadiusMm: 0,
      afterBendMm: 0,
      nutHexMm: 0,
      canTurn: true,
    };
    const { cutFactorMm, ...given } = givenFields(own);
    const reusable = fixingRow(given.fixing ?? base.fixing).reusable;
    const row = { ...base, reusable, ...mine, ...given } as HoseEndRow;
    if (cutFactorMm === undefined) return [row];
    const { nutMm, bendRadiusMm, angleDeg, afterBendMm, socketMm } = row;
    const insertMm = hoseEndFactor(nutMm, bendRadiusMm, angleDeg, afterBendMm, socketMm, 0) - cutFactorMm;
    if (insertMm > 0 && insertMm <= socketMm) return [{ ...row, insertMm }];
    faults.push(
      `catalogue.hoseEnds[${i}] "${own.id}": cutFactorMm ${cutFactorMm} puts the hose ${insertMm.toFixed(1)} mm into a socket of ${socketMm} mm; it is the length from the seat to the hose's cut end`,
    );
    return [];
  });
}

type RowCheck = (own: object, where: string, known: boolean) => readonly string[];

/** Rows of a table where the builder may override what is built in, or add a row like a built-in one. */
function overBuiltIn<T extends { readonly id: string }>(table: string, builtIn: readonly T[], check: RowCheck) {
  return (
    rows: readonly ({ readonly id: string } & { readonly [K in keyof T]?: T[K] | undefined })[],
    faults: string[],
  ): readonly T[] =>
    rows.flatMap((own, i) => {
      const like = builtIn.find((r) => r.id === own.id);
      const found = check(own, `catalogue.${table}[${i}] "${own.id}"`, like !== undefined);
      faults.push(...found);
      if (found.length > 0) return [];
      return [{ ...(like ?? { name: own.id }), ...mine, ...givenFields(own) } as unknown as T];
    });
}

export const ownSeals = overBuiltIn<SealRow>('seals', builtInSeals, checkSeal);
export const ownClamps = overBuiltIn<ClampRow>('clamps', builtInClamps, checkClamp);
export const ownGrommets = overBuiltIn<GrommetRow>('grommets', builtInGrommets, checkGrommet);
