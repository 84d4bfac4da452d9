import { depthInOutline, readyOutline, type Point2 } from '#geometry';
import type { FlatPattern, FoldLine } from '../flat-pattern.ts';
import { mm, type PanelFinding } from '../finding.ts';
import type { PlacedHole } from '../layout.ts';
import { gapToLine, holeBody } from './hole-body.ts';

interface Seated {
  readonly holes: readonly PlacedHole[];
  readonly folds: readonly FoldLine[];
  readonly outline: FlatPattern['outline'];
}

type Told = Pick<PanelFinding, 'code' | 'level' | 'text' | 'source' | 'cures'> & {
  value: number;
  limit: number;
  unit: 'mm';
};

const seatWords = ({ fitted, id }: PlacedHole): string =>
  `the ${fitted === 'bulkhead-fitting' ? 'hexagon' : fitted === 'ring' ? 'ring' : 'lip'} of ${id}`;

/** Hexagons, lips and rings bear on bare flat sheet: beside each other, off the edge, off a bend. The hole may have room where they have none. */
export function seatFindings({ holes, folds, outline }: Seated, hole: PlacedHole): readonly Told[] {
  const { seatMm } = hole;
  if (seatMm === undefined) return [];
  const over = (what: string, byMm: number): Told[] =>
    byMm <= 0.05
      ? []
      : [
          {
            code: 'panel-seat-collides',
            level: 'stop',
            text: `${seatWords(hole)}, ${mm(seatMm)} across, stands ${mm(byMm)} over ${what}`,
            value: Number((-byMm).toFixed(1)),
            limit: 0,
            unit: 'mm',
            source: 'geometry',
            cures: [`move it ${mm(Math.ceil(byMm))} away`],
          },
        ];
  const seat = holeBody({ at: hole.at, diameterMm: seatMm });
  const others = holes.slice(holes.indexOf(hole) + 1);
  const depth = depthInOutline(readyOutline(outline), hole.at);
  // Where the hole itself runs out of the sheet that is told, and its seat with it.
  const hasRim = depth > hole.diameterMm / 2;
  return [
    ...(hasRim ? over('the edge of the sheet', seatMm / 2 - depth) : []),
    ...folds.flatMap(({ name, from, to, allowanceMm }) =>
      over(`the bend ${name}`, allowanceMm / 2 - gapToLine(seat, from, to)),
    ),
    ...others.flatMap((other) => {
      const reach = other.seatMm ?? Math.max(other.longMm ?? 0, other.diameterMm);
      const what = other.seatMm === undefined ? `the hole ${other.id}` : seatWords(other);
      return over(what, (seatMm + reach) / 2 - apart(hole.at, other.at));
    }),
  ];
}

const apart = (a: Point2, b: Point2): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
