import type { Panel } from '#car';
import { findSheet, leastBendRadius, type SheetRow, USUAL_SHEET } from '#standards';

/** The sheet a panel is made of. */
export interface PanelSheet {
  readonly id: string;
  /** Absent for a builder's own sheet that no table knows. */
  readonly row?: SheetRow;
  readonly thicknessMm: number;
  readonly kFactor: number;
  /** Inside radius of its bends where an edge does not say otherwise [mm]. */
  readonly bendRadiusMm: number;
}

/** The sheet of a panel, with what the car leaves open taken from the tables. */
export function panelSheet(panel: Panel): PanelSheet {
  const id = panel.sheet ?? USUAL_SHEET;
  const row = findSheet(id);
  const usual = row === undefined ? undefined : leastBendRadius(row, panel.thicknessMm);
  return {
    id: row?.id ?? id,
    ...(row === undefined ? {} : { row }),
    thicknessMm: panel.thicknessMm,
    kFactor: panel.kFactor ?? row?.kFactor ?? findSheet(USUAL_SHEET)!.kFactor!,
    // A brake's own nose is seldom sharper than the sheet is thick.
    bendRadiusMm: panel.bendRadiusMm ?? Math.max(usual?.usualMm ?? 0, panel.thicknessMm),
  };
}
