import type { Drawing, Shape } from '../drawing.ts';
import { PAGE_MARGIN_MM, PAPER_MM } from '../paper-sizes.ts';
import type { DrawnLine } from '../wall-view.ts';
import { wallMap } from '../wall-map.ts';
import type { BookInput } from './book-input.ts';
import type { BookSheet } from './book-sheet.ts';
import type { SheetFrame } from './sheet-frame.ts';

/** The wall map on two sheets' width, to be folded once to the size of the others; on A3 as it is. */
export function mapSheet({ car, lines, meshes, panels }: BookInput, frame: SheetFrame): BookSheet {
  const [width, height] = PAPER_MM[frame.paper];
  const isFolded = frame.paper !== 'A3';
  const paper = isFolded ? { width: 2 * width, height } : { width: height, height: width };
  const drawn = lines.flatMap(({ line, way, isTaken }): DrawnLine[] =>
    way === null || !isTaken
      ? []
      : [{ line, bodies: way.bodies, cutsMm: way.pieces.map((piece) => piece.cutLengthMm) }],
  );
  const refused = lines.filter(({ way, isTaken }) => way === null || !isTaken).map(({ line }) => line.id);
  const ghosts = panels.map(({ panel, corners }) => ({ id: panel.id, corners: corners.map(({ at }) => at) }));
  const map = wallMap(car, drawn, { paper, size: MAP_SIZE_MM, meshes, refused, panels: ghosts, inches: frame.inches });
  const page: Drawing = isFolded ? { ...map, shapes: [...map.shapes, ...foldMarks(map)] } : map;
  return { code: 'map', title: 'Wall map', group: 'fit', pages: [page], lines: drawn.map(({ line }) => line.id) };
}

/** The names on its parts are 0.72 of this: 9 points [mm]. */
const MAP_SIZE_MM = 4.42;

/** Ticks where the sheet is folded. */
function foldMarks(map: Drawing): Shape[] {
  const x = map.width / 2;
  const pen = { role: 'soft', width: 0.25 } as const;
  return [
    { kind: 'line', from: [x, 2], to: [x, PAGE_MARGIN_MM - 3], pen },
    { kind: 'line', from: [x, map.height - PAGE_MARGIN_MM + 3], to: [x, map.height - 2], pen },
  ];
}
