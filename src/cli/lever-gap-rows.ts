import type { LeverInCar } from '#answers';
import { columns } from './columns.ts';
import type { LeverUnits } from './lever-units.ts';
import type { Style } from './style.ts';

const MARGIN = '  ';

/** What the swing of a lever and its cables come near to, nearest to its limit first. */
export function gapRows({ sweep, cableGaps }: LeverInCar, { lengths }: LeverUnits, style: Style): string[] {
  const rows = [
    ...sweep.map((row) => [row.part, lengths.gap({ ...row, keepOffMm: row.wantMm }), `at ${row.turnDeg.toFixed(0)}°`]),
    ...cableGaps.map((row) => [
      `${row.cable} to ${row.part}`,
      lengths.gap({ ...row, keepOffMm: row.wantMm }),
      lengths.place(row.atMm),
    ]),
  ];
  if (rows.length === 0) return [];
  return [
    '',
    `${MARGIN}${style.strong('Its swing and its cables come near to')}`,
    ...columns(rows).map((row) => MARGIN + MARGIN + row),
  ];
}
