import type { Vec } from '#geometry';
import type { Catalogue, HoseRow } from '#standards';
import type { DrawnCircuit } from './drawn-circuit.ts';
import type { LineRun } from './line-run.ts';

/** A line as it would be after one change, and the change in words. */
export interface ChangedRun {
  readonly words: string;
  readonly run: LineRun;
}

/** A bore counts as the next size where it is this much wider at least. */
const NEXT_SIZE = 1.08;
/** Ends that turn less than this are straight. */
const STRAIGHT_DEG = 20;

/** The circuit with one line changed. */
export const withRun = (drawn: DrawnCircuit, run: LineRun): DrawnCircuit => ({
  ...drawn,
  runs: drawn.runs.map((row) => (row.line === run.line ? run : row)),
});

/** Changes of a line that cost it less: the next size up, the one above it, and each bent end straighter. */
export function easierRuns(
  run: LineRun,
  shelf: Catalogue,
  hose: string | undefined,
  dash: number | undefined,
): ChangedRun[] {
  return [...widerRuns(run, shelf, hose, dash).slice(0, 2), ...straighter(run)];
}

/** The line in every size above its own, the smallest first. */
export function widerRuns(
  run: LineRun,
  shelf: Catalogue,
  hose: string | undefined,
  dash: number | undefined,
): ChangedRun[] {
  const now = hose === undefined ? undefined : shelf.findHose(hose);
  const boreMm = now?.boreMm ?? run.boreMm;
  const isLike = (row: HoseRow): boolean =>
    now === undefined || (row.family === now.family && (row.vacuumBar ?? 0) >= (now.vacuumBar ?? 0));
  // A size counts as the line drawn in it would: by the first hose of that size there is, of its own family and rating where it has one.
  const sizes = new Map<string, HoseRow>();
  for (const row of shelf.hoses) {
    const words = sizeWords(row, now);
    const isAbove = row.dash === undefined || row.dash > (dash ?? 0);
    if (words !== undefined && isAbove && row.boreMm > boreMm * NEXT_SIZE && isLike(row) && !sizes.has(words))
      sizes.set(words, row);
  }
  const was = now === undefined ? undefined : sizeWords(now, now);
  const size = dash === undefined ? was : `-${dash}`;
  return [...sizes]
    .toSorted(([, a], [, b]) => a.boreMm - b.boreMm)
    .map(([words, row]) => ({
      words: `${run.line} in ${words}${size === undefined ? '' : `, not ${size}`}`,
      run: scaled(run, row.boreMm / boreMm),
    }));
}

/** Hoses go by dash; those that do not, by their bore, and only where the line has such a one. */
function sizeWords({ dash, boreMm }: HoseRow, now: HoseRow | undefined): string | undefined {
  if (dash !== undefined) return `-${dash}`;
  return now !== undefined && now.dash === undefined ? `hose of ${boreMm} mm bore` : undefined;
}

/** Every bore of the line by one factor: fittings come in the hose's size, and are as much longer. */
function scaled(run: LineRun, factor: number): LineRun {
  const stretches = run.stretches.map((row) => {
    const isPiece = row.what === 'hose' || row.what === 'tube';
    return { ...row, boreMm: row.boreMm * factor, lengthMm: row.lengthMm * (isPiece ? 1 : factor) };
  });
  return { ...run, stretches, boreMm: run.boreMm * factor };
}

function straighter(run: LineRun): ChangedRun[] {
  return endsOf(run).flatMap(({ from, to, turnDeg, where }): ChangedRun[] => {
    const steps = turnDeg > 60 ? [45, 0] : [0];
    return steps.map((degrees) => ({
      words: `${run.line}: ${degrees === 0 ? 'a straight end' : `a ${degrees}-degree end`} instead of ${Math.round(turnDeg)} degrees at ${where}`,
      run: {
        ...run,
        stretches: run.stretches.map((row, i) =>
          i < from || i > to ? row : { ...row, turnDeg: i === from ? degrees : 0 },
        ),
      },
    }));
  });
}

interface EndOf {
  readonly from: number;
  readonly to: number;
  readonly turnDeg: number;
  readonly where: string;
}

/** Runs of hose-end stretches that turn, with the port they are nearest to. */
function endsOf(run: LineRun): EndOf[] {
  const out: EndOf[] = [];
  for (let i = 0; i < run.stretches.length; i++) {
    if (run.stretches[i]!.what !== 'hose-end') continue;
    let to = i;
    while (run.stretches[to + 1]?.what === 'hose-end') to++;
    const turnDeg = run.stretches.slice(i, to + 1).reduce((sum, row) => sum + turnOf(row.pathMm), 0);
    const where = i < run.stretches.length / 2 ? run.from : run.to;
    if (turnDeg > STRAIGHT_DEG) out.push({ from: i, to, turnDeg, where });
    i = to;
  }
  return out;
}

function turnOf(path: readonly Vec[]): number {
  const first = wayOf(path[0]!, path[1] ?? path[0]!);
  const last = wayOf(path.at(-2) ?? path[0]!, path.at(-1)!);
  return (
    (Math.acos(Math.max(-1, Math.min(1, first[0] * last[0] + first[1] * last[1] + first[2] * last[2]))) * 180) / Math.PI
  );
}

const wayOf = (a: Vec, b: Vec): Vec => {
  const d: Vec = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const length = Math.hypot(d[0], d[1], d[2]) || 1;
  return [d[0] / length, d[1] / length, d[2] / length];
};
