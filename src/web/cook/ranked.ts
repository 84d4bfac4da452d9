import type { HeatAnswer, HeatCase, HeatLimit, LineHeat } from '#heat';

/** A line with its limit that has least margin; a line of which no limit is known comes last. */
export interface RankedLine {
  readonly line: LineHeat;
  readonly limit: HeatLimit | undefined;
}

export const leastOf = (limits: readonly HeatLimit[]): HeatLimit | undefined =>
  limits.reduce<HeatLimit | undefined>(
    (least, one) => (least === undefined || one.marginK < least.marginK ? one : least),
    undefined,
  );

/** Least margin first. */
export const rankedLines = (at: HeatCase): readonly RankedLine[] =>
  at.lines
    .map((line) => ({ line, limit: leastOf(line.limits) }))
    .toSorted((a, b) => (a.limit?.marginK ?? Infinity) - (b.limit?.marginK ?? Infinity));

/** What is over its limit as worked out; only within what is not known; clear. */
export type HeatStanding = 'broken' | 'close' | 'clear';

export function standingOf(limit: HeatLimit | undefined, errorK: number): HeatStanding {
  if (limit === undefined) return 'clear';
  // What is only known so far is never told as broken.
  if (limit.marginK < 0 && limit.isTableEnd !== true) return 'broken';
  return limit.marginK < errorK ? 'close' : 'clear';
}

/** How grave a case is, by its lines. */
export function gravestIn(at: HeatCase): 'stop' | 'fix' | null {
  const states = rankedLines(at).map(({ line, limit }) => standingOf(limit, line.worst.errorK));
  const levels = at.findings.map(({ level }) => level);
  if (states.includes('broken') || levels.includes('stop')) return 'stop';
  return states.includes('close') || levels.includes('fix') ? 'fix' : null;
}

/** The case in which a line has least margin of all. */
export function worstCase({ cases }: HeatAnswer): HeatCase | undefined {
  const margin = (at: HeatCase): number => rankedLines(at)[0]?.limit?.marginK ?? Infinity;
  return cases.reduce<HeatCase | undefined>(
    (worst, at) => (worst === undefined || margin(at) < margin(worst) ? at : worst),
    undefined,
  );
}

/** A loom, cable, part or panel that says what it stands, and comes to it. */
export interface OverBody {
  readonly kind: 'part' | 'panel';
  readonly id: string;
  readonly name: string;
  readonly limit: HeatLimit;
  readonly standing: Exclude<HeatStanding, 'clear'>;
}

/** Least margin first. */
export const overBodies = ({ parts, panels }: Pick<HeatCase, 'parts' | 'panels'>): readonly OverBody[] =>
  [
    ...parts.map((row) => ({ ...row, kind: 'part' as const, id: row.part })),
    ...panels.map((row) => ({ ...row, kind: 'panel' as const, id: row.panel })),
  ]
    .flatMap(({ kind, id, name, limits, errorK }): OverBody[] => {
      const limit = leastOf(limits);
      const standing = standingOf(limit, errorK);
      return limit === undefined || standing === 'clear' ? [] : [{ kind, id, name, limit, standing }];
    })
    .toSorted((a, b) => a.limit.marginK - b.limit.marginK);
