import { outlineArea, outlinePoints } from '#geometry';
import { type FlatPattern, type PanelFinding, type PanelLayout, slotOutline } from '#panels';
import { findSheet } from '#standards';

/** One panel as the builder asks for it: its flats, and what there is to say of it in a row. */
export interface PanelAnswer {
  readonly panel: string;
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
  readonly holes: number;
  readonly folds: number;
  readonly flats: readonly FlatPattern[];
  readonly findings: readonly PanelFinding[];
}

const MM2_PER_CM2 = 100;
/** Litres of metal, so to say: cubic millimetres in a cubic metre. */
const MM3_PER_M3 = 1e9;

/** Panels laid out, each as a row says it and as it is cut. */
export function panelAnswers(layouts: readonly PanelLayout[]): readonly PanelAnswer[] {
  return layouts.map(({ panel, sheet, flats, findings }): PanelAnswer => {
    const open = flats
      .flatMap((flat) => flat.cutOuts)
      .reduce((sum, { outline }) => sum + Math.abs(outlineArea(outline)), 0);
    const density = sheet.row?.densityKgM3 ?? findSheet(sheet.id)?.densityKgM3;
    const metalMm2 = flats.reduce((sum, flat) => sum + metalOf(flat), 0);
    const [first] = flats;
    return {
      panel: panel.id,
      name: panel.name ?? panel.id,
      sheet: sheet.id,
      thicknessMm: sheet.thicknessMm,
      ...(first === undefined ? {} : { sizeMm: sizeOf(first) }),
      ...(density === undefined || first === undefined
        ? {}
        : { massKg: (metalMm2 * sheet.thicknessMm * density) / MM3_PER_M3 }),
      openings: flats.reduce((sum, flat) => sum + flat.cutOuts.length, 0),
      openCm2: open / MM2_PER_CM2,
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
