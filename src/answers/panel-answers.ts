import { outlineArea, outlinePoints } from '#geometry';
import { type FlatPattern, type PanelFinding, type PanelLayout, slotOutline } from '#panels';
import { findSheet } from '#standards';

/** One panel as the builder asks for it: its flats, and what there is to say of it in a row. */
export interface PanelAnswer {
  readonly panel: string;
  /** Which piece of a split panel it is; absent: it is whole. */
  readonly piece?: { readonly number: number; readonly of: number };
  readonly name: string;
  readonly sheet: string;
  readonly thicknessMm: number;
  /** Room that its flat takes, along and square to its first edge [mm]; absent where it cannot be laid out. */
  readonly sizeMm?: readonly [number, number];
  /** Absent where no table knows the sheet's density. */
  readonly massKg?: number;
  readonly openings: number;
  /** Of its openings, mesh not counted [cm2]. */
  readonly openCm2: number;
  /** What its windows leave open for air, mesh counted [cm2]. */
  readonly freeCm2: number;
  readonly windows: readonly WindowAnswer[];
  readonly holes: number;
  readonly folds: number;
  readonly flats: readonly FlatPattern[];
  readonly findings: readonly PanelFinding[];
}

/** A window or a field of them as it was laid. */
export interface WindowAnswer {
  readonly id: string;
  readonly openings: number;
  readonly rows: number;
  /** Cut out, and of that free for air behind its mesh [cm2]. */
  readonly openCm2: number;
  readonly freeCm2: number;
  /** Least metal between two openings; absent for one alone. */
  readonly webMm?: number;
  /** From an opening to the outline, a bend, a fixing or a hole: the least. */
  readonly edgeMm: number;
  /** What its corners, or round openings themselves, are drilled or sawn with. */
  readonly drillMm: number;
  /** What was chosen that the builder may want otherwise. */
  readonly notes: readonly string[];
}

const MM2_PER_CM2 = 100;
/** Litres of metal, so to say: cubic millimetres in a cubic metre. */
const MM3_PER_M3 = 1e9;

/** Panels laid out, each as a row says it and as it is cut. */
export function panelAnswers(layouts: readonly PanelLayout[]): readonly PanelAnswer[] {
  return layouts.map(({ panel, piece, sheet, flats, findings, windows }): PanelAnswer => {
    const open = flats
      .flatMap((flat) => flat.cutOuts)
      .reduce((sum, { outline }) => sum + Math.abs(outlineArea(outline)), 0);
    const density = sheet.row?.densityKgM3 ?? findSheet(sheet.id)?.densityKgM3;
    const metalMm2 = flats.reduce((sum, flat) => sum + metalOf(flat), 0);
    const [first] = flats;
    return {
      panel: panel.id,
      ...(piece === undefined ? {} : { piece }),
      name: panel.name ?? panel.id,
      sheet: sheet.id,
      thicknessMm: sheet.thicknessMm,
      ...(first === undefined ? {} : { sizeMm: sizeOf(first) }),
      ...(density === undefined || first === undefined
        ? {}
        : { massKg: (metalMm2 * sheet.thicknessMm * density) / MM3_PER_M3 }),
      openings: flats.reduce((sum, flat) => sum + flat.cutOuts.length, 0),
      openCm2: open / MM2_PER_CM2,
      freeCm2: windows.reduce((sum, { freeMm2 }) => sum + freeMm2, 0) / MM2_PER_CM2,
      windows: windows.map(({ id, openings, rows, openMm2, freeMm2, webMm, edgeMm, drillMm, notes }) => ({
        id,
        openings: openings.length,
        rows,
        openCm2: openMm2 / MM2_PER_CM2,
        freeCm2: freeMm2 / MM2_PER_CM2,
        ...(webMm === undefined ? {} : { webMm }),
        edgeMm,
        drillMm,
        notes,
      })),
      holes: flats.reduce((sum, flat) => sum + flat.holes.length + flat.slots.length, 0),
      folds: flats.reduce((sum, flat) => sum + flat.folds.length, 0),
      flats,
      findings,
    };
  });
}

/** Sheet that is left of a flat when all is cut out of it; corner holes of an opening lie in it and are not taken off twice [mm2]. */
function metalOf(flat: FlatPattern): number {
  const area = (outline: FlatPattern['outline']): number => Math.abs(outlineArea(outline));
  const round = flat.holes
    .filter((hole) => hole.corner !== true)
    .reduce((sum, { diameterMm }) => sum + (Math.PI * diameterMm * diameterMm) / 4, 0);
  const cut = flat.cutOuts.reduce((sum, { outline }) => sum + area(outline), 0);
  const slots = flat.slots.reduce((sum, slot) => sum + area(slotOutline(slot)), 0);
  return area(flat.outline) - cut - slots - round;
}

function sizeOf(flat: FlatPattern): readonly [number, number] {
  const points = outlinePoints(flat.outline);
  const span = (axis: 0 | 1): number => {
    const values = points.map((point) => point[axis]);
    return Math.max(...values) - Math.min(...values);
  };
  return [span(0), span(1)];
}
