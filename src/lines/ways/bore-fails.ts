import { dutyNeeds } from '#standards';
import { boreGraceMm, boreLossMost } from '../make-up/bore-limit.ts';
import type { WayFail } from '../way.ts';
import type { LineDraft } from './line-draft.ts';

/** A bore on the way from the line's start to its end. */
interface BoreOnWay {
  readonly boreMm: number;
  readonly where: string;
}

/** All bores in the order that what falls meets them. */
function boresOnWay(draft: LineDraft): BoreOnWay[] {
  return draft.pieces.flatMap((drawn, i): BoreOnWay[] => {
    const { a, b } = drawn.piece;
    const pipe =
      drawn.kind === 'hose'
        ? { boreMm: drawn.piece.hose.boreMm, where: `in ${drawn.piece.hose.name}` }
        : { boreMm: drawn.piece.tube.odMm - 2 * drawn.piece.tube.wallMm, where: 'in the tube' };
    const joint = draft.between[i];
    return [
      ...(a === null ? [] : [{ boreMm: a.tail.makeUp.boreMm, where: `in the fittings at ${a.end.label}` }]),
      pipe,
      ...(b === null ? [] : [{ boreMm: b.tail.makeUp.boreMm, where: `in the fittings at ${b.end.label}` }]),
      ...(joint?.row === undefined || joint.row === null
        ? []
        : [{ boreMm: joint.row.boreMm, where: `in the fitting in ${joint.part}` }]),
    ];
  });
}

/**
 * A drain whose bore shrinks on its way down: what cannot run off stands in what is drained. A hose end may take the tenth of the
 * hose's bore that it may anywhere (SAE J516).
 */
export function shrinkFails(draft: LineDraft): WayFail[] {
  if (!dutyNeeds(draft.line.duty).boreNotShrinking) return [];
  let least: BoreOnWay | null = null;
  for (const here of boresOnWay(draft)) {
    if (least !== null && here.boreMm < (1 - boreLossMost) * least.boreMm - boreGraceMm)
      return [
        {
          limit: 'mating',
          valueMm: here.boreMm,
          limitMm: least.boreMm,
          text: `shrinks from ${least.boreMm.toFixed(1)} mm of bore ${least.where} to ${here.boreMm.toFixed(1)} ${here.where}; a drain must not`,
        },
      ];
    if (least === null || here.boreMm < least.boreMm) least = here;
  }
  return [];
}
