import { outlineArea } from '#geometry';
import type { FlatPattern, PanelLayout } from '#panels';
import { flatBounds } from '#book';
import { formatNumber, kilogramsPerPound, mmPerInch } from '#units';

/** What a panel is, in a line of the list. */
export interface PanelNumbers {
  readonly sizeMm: readonly [number, number] | null;
  /** Metal left [mm2]. */
  readonly metalMm2: number;
  /** Null where no table knows the sheet. */
  readonly massKg: number | null;
  /** What its windows leave open, mesh counted [mm2]. */
  readonly freeMm2: number;
}

/** Of a panel or of all pieces of a split one. */
export function panelNumbers(pieces: readonly PanelLayout[]): PanelNumbers {
  const flats = pieces.flatMap(({ flats: [flat] }) => flat ?? []);
  const boxes = flats.map((flat) => flatBounds(flat));
  const density = pieces[0]?.sheet.row?.densityKgM3;
  const metalMm2 = flats.reduce((sum, flat) => sum + metalOf(flat), 0);
  const [first] = boxes;
  return {
    sizeMm:
      first === undefined
        ? null
        : [Math.max(...boxes.map((box) => box.maxX - box.minX)), Math.max(...boxes.map((box) => box.maxY - box.minY))],
    metalMm2,
    massKg: density === undefined ? null : metalMm2 * 1e-9 * (pieces[0]?.sheet.thicknessMm ?? 0) * density,
    freeMm2: pieces.reduce((sum, piece) => sum + freeOf(piece), 0),
  };
}

/** Holes in the corners of an opening run into it: they are counted with it. */
function metalOf({ outline, cutOuts, holes, slots }: FlatPattern): number {
  const round = holes.filter(({ corner }) => corner !== true).map(({ diameterMm }) => (Math.PI * diameterMm ** 2) / 4);
  const long = slots.map(({ wideMm, longMm }) => (longMm - wideMm) * wideMm + (Math.PI * wideMm ** 2) / 4);
  const open = cutOuts.map((cut) => Math.abs(outlineArea(cut.outline)));
  return Math.abs(outlineArea(outline)) - [...round, ...long, ...open].reduce((sum, area) => sum + area, 0);
}

const freeOf = ({ windows }: PanelLayout): number => windows.reduce((sum, { freeMm2 }) => sum + freeMm2, 0);

/** "812 mm", or "31.97 in": a sheet is cut to less than a millimetre. */
export const lengthWords = (mm: number, isInch: boolean): string =>
  isInch ? `${formatNumber(mm / mmPerInch, 2)} in` : `${formatNumber(mm, Math.abs(mm) < 10 ? 1 : 0)} mm`;

/** "1.2 mm", "1.19 mm", or "0.047 in". */
export const thicknessWords = (mm: number, isInch: boolean): string =>
  isInch ? `${formatNumber(mm / mmPerInch, 3)} in` : `${Number(formatNumber(mm, 2))} mm`;

export const sizeWords = ([a, b]: readonly [number, number], isInch: boolean): string =>
  isInch
    ? `${formatNumber(a / mmPerInch, 2)} × ${formatNumber(b / mmPerInch, 2)} in`
    : `${formatNumber(a)} × ${formatNumber(b)} mm`;

export const areaWords = (mm2: number, isInch: boolean): string =>
  isInch ? `${formatNumber(mm2 / mmPerInch ** 2, 1)} sq in` : `${formatNumber(mm2 / 100)} cm²`;

const NEWTONS_PER_POUND_FORCE = 4.4482216;

/** "92 N", or "21 lbf". */
export const forceWords = (newtons: number, isInch: boolean): string =>
  isInch
    ? `${formatNumber(newtons / NEWTONS_PER_POUND_FORCE, newtons < 45 ? 1 : 0)} lbf`
    : `${formatNumber(newtons)} N`;

export const massWords = (kg: number | null, isInch: boolean): string =>
  kg === null
    ? 'mass not known'
    : isInch
      ? `${formatNumber(kg / kilogramsPerPound, 2)} lb`
      : `${formatNumber(kg, 2)} kg`;
