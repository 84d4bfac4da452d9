import { DxfWriter, LWPolylineFlags, type LWPolylineVertex, Units } from '@tarikjabiri/dxf';
import { type Outline, outlinePoints, type Point2, sideArc } from '#geometry';
import { type FlatPattern, type FoldLine, type Operation, OPERATIONS, slotCentres, slotOutline } from '#panels';
import { dxfWords } from './dxf-words.ts';

/** A flat pattern, or several of them as they lie on sheets, to be written 1:1. */
export interface DxfWish {
  readonly patterns: readonly FlatPattern[];
  /** Sheets that they are cut from: outlines to look at, on a layer that is not cut. */
  readonly sheets?: readonly { readonly at: Point2; readonly sizeMm: Point2; readonly name: string }[];
}

/** Layer of the sheets' own outlines. */
export const SHEET_LAYER = 'SHEET';
/** An operation's layer: `fold-up` is FOLD-UP. */
export const dxfLayer = (operation: Operation): string => operation.toUpperCase();

/** Colours by the index that DXF keeps: what is cut black or white, folds green and magenta, the rest quiet. */
const COLOURS = { cut: 7, drill: 5, 'fold-up': 3, 'fold-down': 6, mark: 8, words: 8 } as const satisfies Record<
  Operation,
  number
>;
const SHEET_COLOUR = 9;
const DASHED = 'DASHED';
/** Half a centre mark [mm]: seen beside a centre punch's dot, inside the smallest rivet hole. */
const CENTRE_MARK_MM = 1;
/** Height of a hole's number and of the title [mm]. */
const NUMBER_MM = 2.5;
/** A letter's width in its height, as plain drawing fonts have it. */
const LETTER = 0.9;
const TITLE_MM = 5;

const point = ([x, y]: Point2): { x: number; y: number; z: number } => ({ x, y, z: 0 });

/** DXF text (2007, millimetres, y up): one layer to an operation; arcs stay arcs, round holes are circles. */
export function dxfText(wish: DxfWish): string {
  const dxf = new DxfWriter();
  dxf.setUnits(Units.Millimeters);
  dxf.setVariable('$MEASUREMENT', { 70: 1 });
  dxf.addLType(DASHED, '__ __ __', [5, -2.5]);
  for (const operation of OPERATIONS)
    dxf.addLayer(dxfLayer(operation), COLOURS[operation], operation.startsWith('fold') ? DASHED : 'Continuous');
  dxf.addLayer(SHEET_LAYER, SHEET_COLOUR);
  for (const sheet of wish.sheets ?? []) {
    const [w, h] = sheet.sizeMm;
    const [x, y] = sheet.at;
    outlineEntity(dxf, [{ at: [x, y] }, { at: [x + w, y] }, { at: [x + w, y + h] }, { at: [x, y + h] }], SHEET_LAYER);
    words(dxf, [x, y - 2 * TITLE_MM], sheet.name, TITLE_MM, 0, SHEET_LAYER);
  }
  for (const pattern of wish.patterns) patternEntities(dxf, pattern, wish.sheets === undefined);
  return `${dxf.stringify()}\n`;
}

function patternEntities(dxf: DxfWriter, pattern: FlatPattern, hasTitle: boolean): void {
  outlineEntity(dxf, pattern.outline, dxfLayer('cut'));
  for (const { outline } of pattern.cutOuts) outlineEntity(dxf, outline, dxfLayer('cut'));
  for (const slot of pattern.slots) outlineEntity(dxf, slotOutline(slot), dxfLayer('cut'));
  for (const slit of pattern.slits ?? []) line(dxf, slit.from, slit.to, dxfLayer('cut'));
  for (const hole of pattern.holes)
    dxf.addCircle(point(hole.at), hole.diameterMm / 2, { layerName: dxfLayer('drill') });
  for (const [i, { at }] of [...pattern.holes, ...pattern.slots].entries()) {
    words(dxf, [at[0] + CENTRE_MARK_MM, at[1] + CENTRE_MARK_MM], String(i + 1), NUMBER_MM, 0);
  }
  for (const { at } of pattern.holes) centreMark(dxf, at);
  for (const at of pattern.slots.flatMap(slotCentres)) centreMark(dxf, at);
  for (const fold of pattern.folds) foldEntities(dxf, fold);
  for (const mark of pattern.marks) line(dxf, mark.from, mark.to, dxfLayer('mark'));
  for (const word of pattern.words) words(dxf, word.at, word.text, word.heightMm, word.turnDeg);
  if (hasTitle) titleEntities(dxf, pattern);
}

function titleEntities(dxf: DxfWriter, pattern: FlatPattern): void {
  const rows = [
    `${pattern.panel} ${pattern.name}`,
    `${pattern.sheet}, ${pattern.thicknessMm} mm. Millimetres, 1:1, seen on the OUTSIDE FACE; folds up are towards you.`,
  ];
  const points = outlinePoints(pattern.outline);
  const left = Math.min(...points.map((p) => p[0]));
  const below = Math.min(...points.map((p) => p[1]));
  for (const [i, text] of rows.entries()) words(dxf, [left, below - 2 * TITLE_MM * (i + 1)], text, TITLE_MM, 0);
}

/** A round outline is a circle; any other one a closed polyline with its bulges. */
function outlineEntity(dxf: DxfWriter, outline: Outline, layerName: string): void {
  const circle = asCircle(outline);
  if (circle !== undefined) {
    dxf.addCircle(point(circle.centre), circle.radius, { layerName });
    return;
  }
  const vertices = outline.map(({ at, bulge }): LWPolylineVertex => {
    const vertex = { point: { x: at[0], y: at[1] } };
    return bulge === undefined || bulge === 0 ? vertex : { ...vertex, bulge };
  });
  dxf.addLWPolyline(vertices, { flags: LWPolylineFlags.Closed, layerName });
}

/** Two half circles are one. */
function asCircle(outline: Outline): { centre: Point2; radius: number } | undefined {
  if (outline.length !== 2 || outline.some(({ bulge }) => Math.abs(bulge ?? 0) !== 1)) return undefined;
  const arc = sideArc(outline, 0);
  return outline[0]!.bulge === outline[1]!.bulge ? arc : undefined;
}

function centreMark(dxf: DxfWriter, [x, y]: Point2): void {
  line(dxf, [x - CENTRE_MARK_MM, y], [x + CENTRE_MARK_MM, y], dxfLayer('mark'));
  line(dxf, [x, y - CENTRE_MARK_MM], [x, y + CENTRE_MARK_MM], dxfLayer('mark'));
}

/** The fold's mid line on its layer, where the bend begins and ends as marks, what is done as words along it. */
function foldEntities(dxf: DxfWriter, fold: FoldLine): void {
  const { from, to, allowanceMm } = fold;
  line(dxf, from, to, dxfLayer(`fold-${fold.way}`));
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (length === 0) return;
  const along: Point2 = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const off = (p: Point2, by: number): Point2 => [p[0] - along[1] * by, p[1] + along[0] * by];
  for (const side of [-allowanceMm / 2, allowanceMm / 2])
    if (allowanceMm > 0) line(dxf, off(from, side), off(to, side), dxfLayer('mark'));
  const text = `fold ${fold.way} ${Number(fold.turnDeg.toFixed(1))} deg, inside radius ${Number(fold.radiusMm.toFixed(2))}`;
  // Where the fold is shorter than its words they end with it.
  const begins = Math.min(NUMBER_MM * 2, length - text.length * NUMBER_MM * LETTER);
  const start: Point2 = [from[0] + along[0] * begins, from[1] + along[1] * begins];
  words(dxf, off(start, allowanceMm / 2 + 1), text, NUMBER_MM, (Math.atan2(along[1], along[0]) * 180) / Math.PI);
}

function line(dxf: DxfWriter, from: Point2, to: Point2, layerName: string): void {
  dxf.addLine(point(from), point(to), { layerName });
}

function words(
  dxf: DxfWriter,
  at: Point2,
  text: string,
  heightMm: number,
  turnDeg: number,
  layerName = dxfLayer('words'),
): void {
  const clean = dxfWords(text);
  if (clean !== '') dxf.addText(point(at), heightMm, clean, { rotation: turnDeg, layerName });
}
