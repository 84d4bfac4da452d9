import { clockTime } from '#lines';
import type { Way, WayEnd, WayPiece } from '#lines';
import { formatNumber, inchesFromMm, type Lengths } from '#units';
import { gapRows } from './gap-rows.ts';
import type { Style } from './style.ts';
import { wrapped } from './wrapped.ts';

interface CardLook {
  readonly style: Style;
  readonly lengths: Lengths;
  readonly columns: number;
}

const LABEL = 9;
const MARGIN = '  ';
const LEAST_COLUMNS = 60;
const levels = { stop: '▲ Stop', fix: '◆ Fix', note: '· Note' } as const;

/** One way as a card for the bench: ends, cut, clamps, gaps, and what is wrong with it. */
export function wayCard(way: Way, look: CardLook): string[] {
  const { style, lengths } = look;
  if (isUndrawn(way)) return [style.stop('No way'), ...failRows(way, look).map((row) => MARGIN + row)];
  const cost = lengths.unit === 'in' ? inchesFromMm(way.cost) : way.cost;
  const state = way.feasible ? 'fits' : style.stop('does not fit');
  const head = `${style.strong(`Way ${way.rank}`)}  ${state}, cost ${formatNumber(cost)} ${style.soft(`(${lengths.unit === 'in' ? 'inches' : 'mm'} of line, with what ends, bends and clamps count)`)}`;
  const rows = [
    ...way.ends.flatMap((end, i) => endRows(i === 0 ? 'from' : 'to', end, look)),
    ...way.joints.flatMap((end) => endRows('joint', end, look)),
    ...way.pieces.flatMap((piece) => pieceRows(piece, look)),
    ...labelled('clamps', [clampText(way, look.lengths)], look),
    ...labelled('gaps', gapRows(way.gaps, style, look.lengths), look, true),
    ...failRows(way, look),
    ...way.notes.flatMap((note) =>
      labelled('', [`${levels[note.level]}  ${look.lengths.text(note.text)}`], look).map(
        note.level === 'stop' ? style.stop : note.level === 'fix' ? style.fix : style.soft,
      ),
    ),
    ...(way.feasible ? labelled('why', [look.lengths.text(way.reasons.join('; '))], look).map(style.soft) : []),
  ];
  return [head, ...rows.map((row) => MARGIN + row)];
}

/** Refused before anything was drawn: there is nothing but the reason. */
const isUndrawn = (way: Way): boolean => !way.feasible && way.bodies.length === 0;

function failRows(way: Way, look: CardLook): string[] {
  const { lengths, style } = look;
  return way.fails.flatMap((fail) => {
    const at = fail.atMm === undefined ? '' : ` at ${lengths.place(fail.atMm)}`;
    return labelled('fails', [`▲ Stop  ${lengths.text(fail.text)}${at}`], look).map(style.stop);
  });
}

/** Rows with one label before the first; long ones are broken, unless they are drawn. */
function labelled(label: string, texts: readonly string[], look: CardLook, isDrawn = false): string[] {
  const width = Math.max(LEAST_COLUMNS, look.columns) - MARGIN.length - LABEL;
  const lines = isDrawn ? texts : texts.filter((text) => text !== '').flatMap((text) => wrapped(text, width, '  '));
  return lines.map((line, i) => (i === 0 ? label : '').padEnd(LABEL) + line);
}

function endRows(label: string, end: WayEnd, look: CardLook): string[] {
  const turn: string[] = [];
  if (end.adapterClockDeg !== undefined)
    turn.push(`elbow adapter's clock ${formatNumber(end.adapterClockDeg)}° (${clockTime(end.adapterClockDeg)})`);
  if (end.clockDeg !== null) turn.push(`clock ${formatNumber(end.clockDeg)}° from ${end.clockFrom ?? 'up'}`);
  if (end.clockHow !== '' && end.clockHow !== 'none' && !end.words.endsWith(end.clockHow)) turn.push(end.clockHow);
  return labelled(
    label,
    [
      `${end.port}: ${look.lengths.soldAs(end.words)}`,
      turn.join('; '),
      ...end.tightening.map((text) => look.style.soft(text)),
    ],
    look,
  );
}

function pieceRows(piece: WayPiece, look: CardLook): string[] {
  const { lengths } = look;
  const what = piece.hose === undefined ? `tube ${lengths.fine(piece.odMm)}` : piece.hose;
  const cut = `${what}: cut ${lengths.one(piece.cutLengthMm)}, ${lengths.allowance(piece.allowanceMm)}: trial-fit before ${piece.tube === undefined ? 'the second end goes on for good' : 'the ends are made'}`;
  const bend = `tightest bend ${lengths.one(piece.tightestBendMm)}, allowed ${lengths.one(piece.minBendRadiusMm)}`;
  const more = [
    bend,
    ...(piece.endToEndDeg === null
      ? []
      : [
          `second end's bend ${formatNumber(piece.endToEndDeg)}° clockwise from the first's, ±3, looking from the first along the hose laid straight`,
        ]),
    ...(piece.hang === undefined ? [] : [piece.hang === 'clamped' ? 'held by its clamps' : 'hangs free']),
    ...(piece.slackPercent === undefined ? [] : [`${formatNumber(piece.slackPercent, 1)} % slack`]),
  ];
  return labelled('cut', [cut, more.join('; '), ...bendRows(piece, lengths)], look);
}

function bendRows(piece: WayPiece, lengths: Lengths): string[] {
  const bends = (piece.bends ?? []).map(
    (bend, i) =>
      `bend ${i + 1}: mark ${lengths.one(bend.markMm)}, turn ${formatNumber(bend.turnDeg)}°, bend ${formatNumber(bend.bendDeg)}° (set ${formatNumber(bend.setDeg)}°) on R ${lengths.one(bend.radiusMm)}`,
  );
  return [...bends, ...(piece.endPrep ?? []).map(lengths.text)];
}

function clampText(way: Way, lengths: Lengths): string {
  if (way.clamps.length === 0) return 'none';
  return way.clamps
    .map((clamp) => `at ${lengths.one(clamp.alongMm)} on ${clamp.on}${clamp.bracket ? ' (needs a bracket)' : ''}`)
    .join('; ');
}
