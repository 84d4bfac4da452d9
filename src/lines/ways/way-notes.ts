import type { GapRow, gapFaults } from '#bay';
import type { Vec } from '#geometry';
import { dutyNeeds, fittingRule } from '#standards';
import type { HoseFinding } from '../make-up/hose-fitness.ts';
import type { WayNote } from '../way.ts';
import type { LinesWorld } from '../world.ts';
import { hasMoverSlack } from './hang.ts';
import { MOVER_SLACK_MM } from './holds.ts';
import type { LineDraft } from './line-draft.ts';

export const round = (value: number, digits: number): number => Number(value.toFixed(digits));
export const roundedPlace = (at: Vec): Vec => [round(at[0], 1), round(at[1], 1), round(at[2], 1)];

/** A limit missed by less is met [mm]. */
export const GRACE_MM = 0.05;

/** Limits broken only at worst; between things that move against each other it is told where their movement alone breaks them. */
export function gapNotes(faults: ReturnType<typeof gapFaults>, rows: readonly GapRow[], movesApart = false): WayNote[] {
  const worst = faults
    .filter((f) => f.when !== 'nominal')
    .map(({ row, region, when }): WayNote => {
      const byMovement = movesApart && region.movedMm < region.keepOffMm - GRACE_MM;
      const passes = `passes ${row.part} at ${region.gapMm.toFixed(0)} mm (${region.worstMm.toFixed(0)} to ${region.bestMm.toFixed(0)})`;
      return {
        level: when === 'touched' ? 'stop' : 'fix',
        code: when === 'touched' ? 'touched-at-worst' : byMovement ? 'keep-off-at-extreme' : 'keep-off-at-worst',
        text: `${passes}; it wants ${region.keepOffMm.toFixed(0)}${byMovement ? `, and what the line joins takes it to ${region.movedMm.toFixed(0)}` : ''}`,
        value: round(region.worstMm, 1),
        limit: round(when === 'touched' ? 0 : region.keepOffMm, 1),
        unit: 'mm',
        part: row.part,
        atMm: roundedPlace(region.atMm),
        source: row.source,
      };
    });
  const relaxed = rows.flatMap((row) =>
    row.regions
      .filter((r) => r.near && !r.own && r.gapMm >= r.keepOffMm - GRACE_MM && r.gapMm < row.ruleMm)
      .map(
        (region): WayNote => ({
          level: 'fix',
          code: 'near-port',
          text: `${row.part} stands ${region.gapMm.toFixed(0)} mm off beside the port, where its ${row.ruleMm.toFixed(0)} mm cannot be had`,
          value: round(region.gapMm, 1),
          limit: round(row.ruleMm, 1),
          unit: 'mm',
          part: row.part,
          atMm: roundedPlace(region.atMm),
          source: row.source,
        }),
      ),
  );
  return [...worst, ...relaxed];
}

export const hoseNotes = (findings: readonly HoseFinding[]): WayNote[] =>
  findings
    .filter((f) => f.level !== 'stop')
    .map(
      (f): WayNote => ({
        level: f.level,
        code: f.code,
        text: f.text,
        ...(f.value === undefined ? {} : { value: f.value }),
        ...(f.limit === undefined ? {} : { limit: f.limit }),
        ...(f.unit === undefined ? {} : { unit: f.unit }),
        source: f.source,
      }),
    );

/** Less spare length than the rule asks, where there was no room for it. */
export const slackNotes = (draft: LineDraft): WayNote[] =>
  draft.pieces.flatMap((d) =>
    d.kind === 'tube' || d.piece.hung.sparePercent >= SPARE_PERCENT - 0.1 ? [] : [slackNote(d.piece.hung.sparePercent)],
  );

export const SPARE_PERCENT = 4;

export const slackNote = (sparePercent: number): WayNote => ({
  level: 'fix',
  code: 'short-of-slack',
  text: `only ${sparePercent.toFixed(1)} % of the hose is spare: a hose under pressure may get 4 % shorter, and there is no room for more slack here`,
  value: round(sparePercent, 1),
  limit: SPARE_PERCENT,
  unit: '%',
  source: 'faa-ac-43-13-1b',
  cures: ['a bend more on the way, another hose end, or a hard tube for the straight run'],
});

/** A hose between things that move against each other: what is left to give beside its supports. */
export function moverSlackNotes(world: LinesWorld, draft: LineDraft): WayNote[] {
  return draft.pieces.flatMap((d): WayNote[] => {
    if (d.kind === 'tube' || hasMoverSlack(d.piece.hung)) return [];
    const { a, b, hung } = d.piece;
    const slackMm = Math.max(0, hung.moverSlackMm ?? 0);
    const mover = world.bay.movers.get(b.end.moverId ?? a.end.moverId ?? '');
    const clamps = hung.clamps.length > 0 ? 'last clamp' : 'fitting in the panel';
    return [
      {
        level: 'fix',
        code: 'engine-slack',
        text: `only ${slackMm.toFixed(0)} mm of slack between the ${clamps} and what moves with ${mover?.name ?? 'its mover'}; it wants ${MOVER_SLACK_MM}, and no clamp farther off, on what moves or left out, and no longer hose, was found to fit here`,
        value: round(slackMm, 0),
        limit: MOVER_SLACK_MM,
        unit: 'mm',
        atMm: roundedPlace(hung.clamps[0]?.at ?? a.end.at),
        source: 'navy-14105',
        cures: ['another hose end at the end that moves, or give the hose more room there, so that it can be longer'],
      },
    ];
  });
}

/** What the builder should know of the make-ups: a bore that fittings narrow, a seal or clamp that the catalogue lacks. */
export function makeUpNotes(draft: LineDraft): WayNote[] {
  const ends = draft.pieces.flatMap(({ piece }) => [piece.a, piece.b]).filter((end) => end !== null);
  const words = ends.flatMap(({ end, tail }) => tail.makeUp.remarks.map((text) => `at ${end.label}: ${text}`));
  return words.length === 0
    ? []
    : [{ level: 'note', code: 'make-up', text: words.join('; '), source: 'common-practice' }];
}

/** A stretch longer than the clamp spacing, so that what moves has its slack. */
export function overlongNotes(draft: LineDraft): WayNote[] {
  const spacingMm = dutyNeeds(draft.line.duty).clampMm;
  return draft.pieces.flatMap((d): WayNote[] => {
    if (d.kind === 'tube' || d.piece.hung.overlongMm === null) return [];
    const longMm = d.piece.hung.overlongMm;
    return [
      {
        level: 'fix',
        code: 'clamp-spacing',
        text: `runs ${longMm.toFixed(0)} mm without a clamp, ${spacingMm} mm is usual: a clamp between would leave what moves less than ${MOVER_SLACK_MM} mm of slack`,
        value: round(longMm, 0),
        limit: spacingMm,
        unit: 'mm',
        source: fittingRule(spacingMm === fittingRule('clamp-fuel').value ? 'clamp-fuel' : 'clamp-hose').source,
        cures: ['something that moves with that end to clamp to, or more room for a longer hose'],
      },
    ];
  });
}
