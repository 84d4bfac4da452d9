import { type Drawing, nestPages, nestSheets, type PagePaper, palettes, panelPages, panelSheet } from '#book';
import type { Point2 } from '#geometry';
import { type FlatPattern, movedPattern, type PanelNest } from '#panels';
import { dxfText } from './dxf-text.ts';
import { pdfBytes } from './pdf-file.ts';
import { svgText } from './svg-text.ts';

/** What a flat is written as. */
export type PanelEnding = 'dxf' | 'svg' | 'pdf';

/** How a panel's file is written. */
export interface PanelFileWish {
  /** Name of the car. */
  readonly car?: string;
  readonly inches: boolean;
  readonly paper: PagePaper;
}

/** From one flat or sheet to the next in a file that holds several [mm]. */
const BETWEEN_MM = 100;

/** A panel's flats as the file that is wanted; a panel in several pieces has them one after the other. */
export async function panelFile(
  flats: readonly FlatPattern[],
  ending: PanelEnding,
  wish: PanelFileWish,
): Promise<string | Uint8Array> {
  const title = flats[0]?.panel ?? 'panel';
  if (ending === 'dxf') return dxfText({ patterns: sideBySide(flats) });
  if (ending === 'svg') return svgText(stacked(flats.map((flat) => panelSheet(flat, wish))), palettes.paper);
  return pdfBytes(
    flats.flatMap((flat) => panelPages(flat, wish)),
    { title, palette: palettes.paper },
  );
}

/** Nested sheets as the file that is wanted. */
export async function nestFile(
  nest: PanelNest,
  ending: PanelEnding,
  wish: PanelFileWish,
): Promise<string | Uint8Array> {
  if (ending === 'svg') return svgText(nestSheets(nest, wish), palettes.paper);
  if (ending === 'pdf') return pdfBytes(nestPages(nest, wish), { title: 'Panels on sheets', palette: palettes.paper });
  let left = 0;
  const sheets = nest.sheets.map((sheet, i) => {
    const at: Point2 = [left, 0];
    left += sheet.sizeMm[0] + BETWEEN_MM;
    return { at, sizeMm: sheet.sizeMm, name: `sheet ${i + 1}: ${sheet.material}, ${sheet.thicknessMm} mm` };
  });
  const patterns = nest.sheets.flatMap((sheet, i) =>
    sheet.patterns.map((pattern) => movedPattern(pattern, 0, sheets[i]!.at)),
  );
  return dxfText({ patterns, sheets });
}

function sideBySide(flats: readonly FlatPattern[]): FlatPattern[] {
  let left = 0;
  return flats.map((flat, i) => {
    const xs = flat.outline.map(({ at }) => at[0]);
    if (i === 0) {
      left = Math.max(...xs) + BETWEEN_MM;
      return flat;
    }
    const moved = movedPattern(flat, 0, [left - Math.min(...xs), 0]);
    left += Math.max(...xs) - Math.min(...xs) + BETWEEN_MM;
    return moved;
  });
}

/** Drawings one below the other as one. */
function stacked(drawings: readonly Drawing[]): Drawing {
  const [first] = drawings;
  if (first === undefined || drawings.length === 1) return first!;
  let top = 0;
  const shapes = drawings.map((drawing) => {
    const group = { kind: 'group', offset: [0, top], shapes: drawing.shapes } as const;
    top += drawing.height;
    return group;
  });
  return { ...first, width: Math.max(...drawings.map((one) => one.width)), height: top, shapes };
}
