import type { PhotoSeen } from '#crew';
import { outlinePoints, outlineSides } from '#geometry';
import type { TemplateShape } from '#panels';
import { formatNumber } from '#units';
import { lengthWords, sizeWords } from '../cut/panel-numbers.ts';
import { counted } from '../snags/counted.ts';

type Found = Extract<PhotoSeen, { ok: true }>;

/** A refusal in two lines: what stands in the way, what helps. */
export function refusalWords(refusal: string): readonly [why: string, helps: string] {
  const [why = '', helps = ''] = refusal.replace(/^photo: /u, '').split(/; what helps: |; allowed: /u);
  return [why, helps];
}

/** "612 × 344 mm, 8 straight sides, 3 arcs, 2 openings". */
export function shapeWords({ outline, openings }: TemplateShape, isInch: boolean): string {
  const points = outlinePoints(outline);
  const across = (k: 0 | 1): number => {
    const all = points.map((at) => at[k]);
    return Math.max(...all) - Math.min(...all);
  };
  const arcs = outlineSides(outline).filter(({ arc }) => arc !== undefined).length;
  return [
    sizeWords([across(0), across(1)], isInch),
    counted(outline.length - arcs, 'straight side'),
    counted(arcs, 'arc'),
    counted(openings.length, 'opening'),
  ].join(', ');
}

/** How far it may be off, of what that is made, and how the photo was taken. */
export function errorWords({ errorMm, report }: Found, isInch: boolean): readonly [string, string] {
  const { cameraMm, heightMm, edgeMm } = report.error;
  const part = (mm: number): string => (isInch ? `${formatNumber(mm / 25.4, 3)} in` : `${formatNumber(mm, 1)} mm`);
  return [
    `Known to ±${part(errorMm)} in size and shape, in 95 of 100.`,
    `Camera and reference ${part(cameraMm)}, height of the card ${part(heightMm)}, edge ${part(edgeMm)}. The camera leaned ${formatNumber(report.tiltDeg)}°; ${isInch ? `${formatNumber(report.scalePxPerMm * 25.4)} pixels to an inch` : `${formatNumber(report.scalePxPerMm, 1)} pixels to a millimetre`}; the edge stands off the lines and arcs by ${lengthWords(report.fitWorstMm, isInch)} at most.`,
  ];
}
