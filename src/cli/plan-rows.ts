import { gapsByMargin } from '#book';
import type { Line } from '#car';
import { clockTime, type PlannedLine, type Way, type WayEnd } from '#lines';
import type { Snag } from '#snags';
import type { Lengths } from '#units';
import type { Style } from './style.ts';

export interface PlanLook {
  readonly style: Style;
  readonly lengths: Lengths;
}

/** One line of a plan, in two or three rows: how it ends and is turned, what to cut, where it is tightest, or why it was refused. */
export function planRows(line: Line, answer: PlannedLine, snags: readonly Snag[], look: PlanLook): string[] {
  const { style } = look;
  const head = `${style.strong(line.id.padEnd(4))} ${line.from} → ${line.to}, ${line.duty}`;
  if (answer.taken === null) return [`${head}: ${style.stop('▲ refused')}`, ...refusal(line, answer.best, snags, look)];
  return [`${head}: taken`, ...takenRows(answer.taken, look)];
}

const MARGIN = '     ';

function takenRows(way: Way, { style, lengths }: PlanLook): string[] {
  const [from, to] = way.ends;
  const cuts = way.pieces.map(
    (piece) =>
      `${piece.hose ?? `tube ${lengths.fine(piece.odMm)}`} ${lengths.one(piece.cutLengthMm)} (${lengths.allowance(piece.allowanceMm)})`,
  );
  const tightest = gapsByMargin(way.gaps)[0];
  const gap =
    tightest === undefined
      ? lengths.text('nothing within 150 mm')
      : `tightest at ${tightest.part}: ${lengths.gap(tightest)}`;
  return [`${MARGIN}${endWords(from)} → ${endWords(to)}; cut ${cuts.join(' + ')}`, style.soft(`${MARGIN}${gap}`)];
}

/** "45° at ten o'clock", "straight". */
function endWords(end: WayEnd): string {
  const elbow = end.adapterClockDeg === undefined ? '' : `elbow adapter at ${clockTime(end.adapterClockDeg)}, `;
  if (end.angleDeg === 0) return `${elbow}straight`;
  return end.clockDeg === null ? `${elbow}${end.angleDeg}°` : `${elbow}${end.angleDeg}° at ${clockTime(end.clockDeg)}`;
}

const MOST_WHY = 3;

function refusal(line: Line, best: Way, snags: readonly Snag[], { style, lengths }: PlanLook): string[] {
  const why = best.fails.slice(0, MOST_WHY).map((fail) => {
    const at = fail.atMm === undefined ? '' : ` at ${lengths.place(fail.atMm)}`;
    return `${MARGIN}${lengths.text(fail.text)}${at}`;
  });
  const more =
    best.fails.length > MOST_WHY ? [style.soft(`${MARGIN}and ${best.fails.length - MOST_WHY} more limits`)] : [];
  const cure = snags.find((snag) => snag.line === line.id && snag.level === 'stop' && snag.cures.length > 0)?.cures[0];
  return [...why, ...more, ...(cure === undefined ? [] : [style.blue(`${MARGIN}cure: ${lengths.text(cure)}`)])];
}
