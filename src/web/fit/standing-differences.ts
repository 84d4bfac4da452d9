import type { Standing } from '../server/answers.ts';
import { gapsTightestFirst, type TightGap } from './tightest.ts';

/** What a change does, before it is kept. */
export interface Differences {
  readonly gaps: readonly {
    readonly line: string;
    readonly before: TightGap | null;
    readonly after: TightGap | null;
  }[];
  /** Lines whose way no longer meets its ports, or that have none any more; or the other way round. */
  readonly ways: readonly { readonly line: string; readonly isLost: boolean; readonly isMade: boolean }[];
  readonly newSnags: Standing['snags'];
  readonly goneSnags: Standing['snags'];
  readonly order: readonly {
    readonly id: string;
    readonly name: string;
    readonly unit: 'each' | 'm';
    readonly before: number;
    readonly after: number;
  }[];
  /** Made lines with a stop they did not have: the hose in hand no longer fits. */
  readonly madeTouched: readonly string[];
}

/** A tape tells no less [mm]. */
const TOLD_MM = 0.5;

export function standingDifferences(before: Standing, after: Standing): Differences {
  const was = new Map(before.lines.map((row) => [row.line, row]));
  const gaps = after.lines.flatMap((row) => {
    const old = was.get(row.line)?.way ?? null;
    const pair = { line: row.line, before: tightest(old), after: tightest(row.way) };
    return old !== null && row.way !== null && !isOffItsPort(row.way) && isOther(pair.before, pair.after) ? [pair] : [];
  });
  const ways = after.lines.flatMap((row) => {
    const old = was.get(row.line)?.way ?? null;
    const [held, holds] = [isHolding(old), isHolding(row.way)];
    return held === holds ? [] : [{ line: row.line, isLost: held, isMade: row.state !== 'planned' }];
  });
  const newSnags = notIn(after.snags, before.snags);
  const made = new Set(before.lines.filter((row) => row.state !== 'planned').map((row) => row.line));
  return {
    gaps,
    ways,
    newSnags,
    goneSnags: notIn(before.snags, after.snags),
    order: orderDifferences(before, after),
    madeTouched: [
      ...new Set(
        newSnags.flatMap((snag) =>
          snag.level !== 'note' && snag.line !== undefined && made.has(snag.line) ? [snag.line] : [],
        ),
      ),
    ],
  };
}

const tightest = (way: StandingWay): TightGap | null => (way === null ? null : (gapsTightestFirst(way)[0] ?? null));

const isOther = (a: TightGap | null, b: TightGap | null): boolean =>
  a?.part !== b?.part || Math.abs((a?.gapMm ?? 0) - (b?.gapMm ?? 0)) > TOLD_MM || a?.keepOffMm !== b?.keepOffMm;

type StandingWay = Standing['lines'][number]['way'];

/** The way was worked out for a port where it was: its gaps say nothing now. */
const isOffItsPort = (way: NonNullable<StandingWay>): boolean => way.fails.some((fail) => fail.limit === 'reach');
const isHolding = (way: StandingWay): boolean => way !== null && !isOffItsPort(way);

/** Snags that are not in the other list, or stand there at a lesser level. */
const notIn = (these: Standing['snags'], those: Standing['snags']): Standing['snags'] => {
  const known = new Set(those.map((snag) => `${snag.id} ${snag.level}`));
  return these.filter((snag) => !known.has(`${snag.id} ${snag.level}`));
};

function orderDifferences(before: Standing, after: Standing): Differences['order'] {
  const rows = new Map<string, Differences['order'][number]>();
  for (const row of before.order.rows)
    rows.set(row.id, {
      id: row.id,
      name: row.name,
      unit: row.unit,
      before: (rows.get(row.id)?.before ?? 0) + row.toBuy,
      after: 0,
    });
  for (const row of after.order.rows) {
    const old = rows.get(row.id) ?? { id: row.id, name: row.name, unit: row.unit, before: 0, after: 0 };
    rows.set(row.id, { ...old, after: old.after + row.toBuy });
  }
  return [...rows.values()].filter((row) => Math.abs(row.before - row.after) > 1e-6);
}
