import { type Car, keepOffs, type Lever } from '#car';
import { boundsApart, capsule, type Solid } from '#geometry';
import { type CableAnswer, type CableGap, cableGaps, type LeverFinding } from '#levers';
import type { WayBody } from '#lines';
import { formatNumber } from '#units';
import type { BodiesByLine } from './bodies-by-line.ts';

/** How near a cable runs to the lines as they lie, worst first; those nearer than lines keep from each other. */
export function cableLineGaps(
  car: Car,
  cable: CableAnswer,
  knownToMm: number,
  bodies: BodiesByLine,
): readonly CableGap[] {
  const wantMm = keepOffs(car).line;
  const along = cable.pathMm.slice(1).map((to, i) => capsule(cable.pathMm[i]!, to, cable.odMm / 2).bounds);
  const isNear = (solid: Solid): boolean => along.some((piece) => boundsApart(solid.bounds, piece) < wantMm);
  const things = [...bodies].map(([line, pieces]) => ({
    id: line,
    name: line,
    class: 'fixed' as const,
    knownToMm: 0,
    poses: [pieces.flatMap(solidsOf).filter(isNear)],
    wantMm,
  }));
  return cableGaps(cable, knownToMm, things).filter(({ gapMm }) => gapMm < wantMm);
}

const solidsOf = ({ pathMm, odMm }: WayBody): Solid[] =>
  pathMm.slice(1).map((to, i) => capsule(pathMm[i]!, to, odMm / 2));

/** One row a cable: it is moved once, away from all of them. */
export function cableLineFindings(
  lever: Lever,
  cable: CableAnswer,
  gaps: readonly CableGap[],
): readonly LeverFinding[] {
  const [worst] = gaps;
  if (worst === undefined) return [];
  const said = (gapMm: number): string =>
    gapMm < 0 ? `${formatNumber(-gapMm)} mm into` : `${formatNumber(gapMm)} mm from`;
  return [
    {
      lever: lever.id,
      link: cable.cable,
      code: 'cable-lines',
      level: worst.gapMm < 0 ? 'stop' : 'fix',
      text: `${lever.name ?? lever.id}: ${cable.name} runs ${gaps.map(({ gapMm, part }) => `${said(gapMm)} ${part}`).join(', ')}; ${formatNumber(worst.wantMm)} mm are wanted between a cable and a line`,
      value: worst.gapMm,
      limit: worst.wantMm,
      unit: 'mm',
      source: 'common-practice',
      place: worst.atMm,
      cures: [
        `its path ${formatNumber(Math.ceil(worst.wantMm - worst.gapMm))} mm farther away at ${worst.part}`,
        'lay it where the lines leave it room: a conduit goes in after the hoses',
        'where it lies as measured, enter it as laid: lines are then planned round it',
      ],
    },
  ];
}
