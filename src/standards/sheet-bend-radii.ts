import { mmPerInch } from '#units';
import type { SourceId } from '#sources';
import type { SheetRow } from './sheets.ts';

/** Thicknesses of the table's columns [in]. */
export const bendRadiusThicknessesIn = [0.016, 0.032, 0.064, 0.128, 0.182, 0.258] as const;

/** Least inside radius of a 90 degree cold bend, in thicknesses: from and to, by thickness as the table prints them. */
export interface BendRadiusRow {
  readonly temper: string;
  readonly times: readonly (readonly [least: number, cautious: number])[];
  readonly source: SourceId;
}

const AC = 'faa-ac-43-13-1b-sheet';

export const sheetBendRadii = [
  {
    temper: '2024-O',
    times: [
      [0, 0],
      [0, 1],
      [0, 1],
      [0, 1],
      [0, 1],
      [0, 1],
    ],
    source: AC,
  },
  {
    temper: '2024-T3',
    times: [
      [1.5, 3],
      [2, 4],
      [3, 5],
      [4, 6],
      [4, 6],
      [5, 7],
    ],
    source: AC,
  },
  {
    temper: '2024-T6',
    times: [
      [2, 4],
      [3, 5],
      [3, 5],
      [4, 6],
      [5, 7],
      [6, 10],
    ],
    source: AC,
  },
  {
    temper: '5052-O',
    times: [
      [0, 0],
      [0, 0],
      [0, 1],
      [0, 1],
      [0, 1],
      [0, 1],
    ],
    source: AC,
  },
  {
    temper: '5052-H32',
    times: [
      [0, 0],
      [0, 0],
      [0.5, 1],
      [0.5, 1.5],
      [0.5, 1.5],
      [0.5, 1.5],
    ],
    source: AC,
  },
  {
    temper: '5052-H34',
    times: [
      [0, 0],
      [0, 0],
      [0.5, 1.5],
      [1.5, 2.5],
      [1.5, 2.5],
      [2, 3],
    ],
    source: AC,
  },
  {
    temper: '5052-H36',
    times: [
      [0, 1],
      [0.5, 1.5],
      [1, 2],
      [1.5, 3],
      [2, 4],
      [2, 4],
    ],
    source: AC,
  },
  {
    temper: '5052-H38',
    times: [
      [0.5, 1.5],
      [1, 2],
      [1.5, 3],
      [2, 4],
      [3, 5],
      [4, 6],
    ],
    source: AC,
  },
  {
    temper: '6061-O',
    times: [
      [0, 0],
      [0, 1],
      [0, 1],
      [0, 1],
      [0, 1],
      [0, 1],
    ],
    source: AC,
  },
  {
    temper: '6061-T4',
    times: [
      [0, 1],
      [0, 1],
      [0.5, 1.5],
      [1, 2],
      [1.5, 3],
      [2.5, 4],
    ],
    source: AC,
  },
  {
    temper: '6061-T6',
    times: [
      [0, 1],
      [0.5, 1.5],
      [1, 2],
      [1.5, 3],
      [2, 4],
      [3, 4],
    ],
    source: AC,
  },
  {
    temper: '7075-O',
    times: [
      [0, 0],
      [0, 1],
      [0, 1],
      [0.5, 1.5],
      [1, 2],
      [1.5, 3],
    ],
    source: AC,
  },
  {
    temper: '7075-T6',
    times: [
      [2, 4],
      [3, 5],
      [4, 6],
      [5, 7],
      [5, 7],
      [6, 10],
    ],
    source: AC,
  },
] as const satisfies readonly BendRadiusRow[];

/** Sheet is sold a little over the inch size it is named after: 1.6 mm still belongs to the column of 0.064 in. */
const COLUMN_SLACK = 1.02;

/** Least inside radius of a 90 degree bend of this sheet. */
export interface LeastBendRadius {
  /** Tighter than this the table gives no hope [mm]. */
  readonly leastMm: number;
  /** The cautious end of the table's band: what is taken where the car does not say [mm]. */
  readonly usualMm: number;
  /** Thicker than the table goes: its last column stands in. */
  readonly beyondTable: boolean;
  readonly source: SourceId;
}

/** The next thicker column counts: cautious. Undefined for a sheet that is not bent, or of which nothing is known. */
export function leastBendRadius(sheet: SheetRow, thicknessMm: number): LeastBendRadius | undefined {
  const { bends } = sheet;
  if (bends === undefined) return undefined;
  if (typeof bends !== 'string')
    return {
      leastMm: bends.leastTimes * thicknessMm,
      usualMm: bends.usualTimes * thicknessMm,
      beyondTable: false,
      source: bends.source,
    };
  const row = sheetBendRadii.find(({ temper }) => temper === bends);
  if (row === undefined) return undefined;
  const column = bendRadiusThicknessesIn.findIndex((inch) => thicknessMm <= inch * mmPerInch * COLUMN_SLACK);
  const [least, usual] = row.times[column === -1 ? row.times.length - 1 : column]!;
  return { leastMm: least * thicknessMm, usualMm: usual * thicknessMm, beyondTable: column === -1, source: row.source };
}
