import type { OutlineCorner, Point2 } from '#geometry';
import { sheetRule } from '#standards';
import type { CutOut, DrilledHole, SlottedHole } from '../flat-pattern.ts';
import type { PlacedFixing, PlacedHole } from '../layout.ts';

/** What holes and fixings make on the flat: drilled, slotted, or cut out with drilled corners. */
export interface HoleCuts {
  readonly holes: readonly DrilledHole[];
  readonly slots: readonly SlottedHole[];
  readonly cutOuts: readonly CutOut[];
}

export function holeCuts(
  placed: readonly PlacedHole[],
  fixings: readonly PlacedFixing[],
  thicknessMm: number,
): HoleCuts {
  const round = placed.filter((hole) => hole.sizeMm === undefined);
  const square = placed.flatMap((hole) =>
    hole.sizeMm === undefined ? [] : [squareCut(hole, hole.sizeMm, thicknessMm)],
  );
  return {
    holes: [
      ...fixings
        .filter(({ slotMm }) => slotMm === undefined)
        .map(({ at, holeMm, ...fixing }) => ({ at, diameterMm: holeMm, for: fixingWords(fixing) })),
      ...round
        .filter(({ longMm }) => longMm === undefined)
        .map((hole) => ({ at: hole.at, diameterMm: hole.diameterMm, for: hole.for })),
      ...square.flatMap(({ drills }) => drills),
    ],
    slots: [
      ...fixings.flatMap(({ at, holeMm, slotMm, turnDeg, ...fixing }) =>
        slotMm === undefined ? [] : [{ at, wideMm: holeMm, longMm: slotMm, turnDeg, for: fixingWords(fixing) }],
      ),
      ...round.flatMap(({ at, diameterMm, longMm, turnDeg = 0, for: what }) =>
        longMm === undefined ? [] : [{ at, wideMm: diameterMm, longMm, turnDeg, for: what }],
      ),
    ],
    cutOuts: square.map(({ cut }) => cut),
  };
}

/** "rivnut M5". */
const fixingWords = ({ kind, size }: Pick<PlacedFixing, 'kind' | 'size'>): string => `${kind} ${size}`.trim();

/** A square opening: its corners drilled first, then cut between. Gone round clockwise, as openings are. */
function squareCut(
  hole: PlacedHole,
  [long, wide]: readonly [number, number],
  thicknessMm: number,
): { cut: CutOut; drills: DrilledHole[] } {
  const least = Math.max(
    sheetRule('corner-radius-least').value,
    sheetRule('corner-radius-thicknesses').value * thicknessMm,
  );
  const radius = Math.min(hole.cornerDrillMm === undefined ? least : hole.cornerDrillMm / 2, long / 2, wide / 2);
  const turn = ((hole.turnDeg ?? 0) * Math.PI) / 180;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const put = (x: number, y: number): Point2 => [hole.at[0] + c * x - s * y, hole.at[1] + s * x + c * y];
  const bulge = -Math.tan(Math.PI / 8);
  const outline = [
    [-1, -1],
    [-1, 1],
    [1, 1],
    [1, -1],
  ].flatMap(([u, v]): OutlineCorner[] => {
    const [x, y] = [(u! * long) / 2, (v! * wide) / 2];
    // Clockwise: each corner is come to along one side and left along the next.
    const enter = u === v ? put(x - u! * radius, y) : put(x, y - v! * radius);
    const leave = u === v ? put(x, y - v! * radius) : put(x - u! * radius, y);
    return [{ at: enter, bulge }, { at: leave }];
  });
  const drills = [
    [-1, -1],
    [-1, 1],
    [1, 1],
    [1, -1],
  ].map(
    ([u, v]): DrilledHole => ({
      at: put(u! * (long / 2 - radius), v! * (wide / 2 - radius)),
      diameterMm: 2 * radius,
      for: `corner of ${hole.id}`,
      corner: true,
    }),
  );
  return { cut: { outline, name: hole.id }, drills };
}
