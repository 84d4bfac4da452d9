import type { Point2 } from '#geometry';
import { type FlatPattern, type FoldLine, type Operation, OPERATIONS, slotCentres, slotOutline } from '#panels';
import { formatNumber } from '#units';
import type { Pen, Shape, Spot } from './drawing.ts';
import { type FlatFrame, outlinePath } from './panel-frame.ts';
import { lengthWords } from './panel-lengths.ts';
import { row } from './text-block.ts';
import { CAPITAL } from './text-width.ts';

export interface FlatWish {
  readonly inches?: boolean;
  /** Holes carry their numbers, folds their words; without, only what is cut and folded shows, as on a small map. */
  readonly hasWords: boolean;
}

/** Pens [mm on paper]; a cut runs along the middle of its line. */
const CUT: Pen = { role: 'ink', width: 0.35 };
const DRILL: Pen = { role: 'ink', width: 0.25 };
const FOLD = {
  up: { role: 'blue', width: 0.35, dash: [6, 2] },
  down: { role: 'stop', width: 0.35, dash: [6, 1.5, 1, 1.5] },
} as const satisfies Record<'up' | 'down', Pen>;
const MARK: Pen = { role: 'soft', width: 0.18 };
const BEND_ENDS: Pen = { role: 'soft', width: 0.18, dash: [1.5, 1.5] };
/** Half a centre mark [mm]: longer than a big scribed cross, so that it is found under tape. */
const CENTRE_MM = 3;
export const WORD_MM = 3.2;

/** A flat pattern as lines, in a group for each operation. Sizes of text and pens are those of the paper, whatever the scale. */
export function flatShapes(pattern: FlatPattern, frame: FlatFrame, wish: FlatWish): Shape[] {
  const layers: Record<Operation, Shape[]> = {
    cut: [
      { ...outlinePath(pattern.outline, frame), pen: CUT },
      ...pattern.cutOuts.map(({ outline }): Shape => ({ ...outlinePath(outline, frame), pen: CUT })),
      ...pattern.slots.map((slot): Shape => ({ ...outlinePath(slotOutline(slot), frame), pen: CUT })),
      ...(pattern.slits ?? []).map(({ from, to }): Shape => line(frame, from, to, CUT)),
    ],
    drill: pattern.holes.map(
      (hole): Shape => ({
        kind: 'circle',
        centre: frame.spot(hole.at),
        radius: (hole.diameterMm / 2) * frame.scale,
        pen: DRILL,
      }),
    ),
    'fold-up': foldShapes(pattern, frame, 'up', wish),
    'fold-down': foldShapes(pattern, frame, 'down', wish),
    mark: pattern.marks.map(({ from, to }): Shape => line(frame, from, to, MARK)),
    words: [],
  };
  if (wish.hasWords) {
    layers.mark.push(...pattern.folds.flatMap((fold) => bendEnds(fold, frame)));
    layers.mark.push(...punched(pattern).flatMap((at) => centreMark(frame.spot(at))));
    layers.words.push(...wordShapes(pattern, frame));
  }
  // Words last: they lie over the lines.
  return OPERATIONS.filter((operation) => layers[operation].length > 0).map(
    (layer): Shape => ({ kind: 'group', offset: [0, 0], layer, shapes: layers[layer] }),
  );
}

const line = (frame: FlatFrame, from: Point2, to: Point2, pen: Pen): Shape => ({
  kind: 'line',
  from: frame.spot(from),
  to: frame.spot(to),
  pen,
});

const punched = ({ holes, slots }: FlatPattern): Point2[] => [
  ...holes.map(({ at }) => at),
  ...slots.flatMap(slotCentres),
];

const centreMark = ([x, y]: Spot): Shape[] => [
  { kind: 'line', from: [x - CENTRE_MM, y], to: [x + CENTRE_MM, y], pen: MARK },
  { kind: 'line', from: [x, y - CENTRE_MM], to: [x, y + CENTRE_MM], pen: MARK },
];

/** Unit direction along a fold, and how long it is [mm]. */
function along(fold: FoldLine): { way: Point2; length: number } {
  const [dx, dy] = [fold.to[0] - fold.from[0], fold.to[1] - fold.from[1]];
  const length = Math.hypot(dx, dy);
  return { way: length === 0 ? [1, 0] : [dx / length, dy / length], length };
}

/** Where the bend begins and ends, half its allowance to either side of its mid line. */
function bendEnds(fold: FoldLine, frame: FlatFrame): Shape[] {
  if (fold.allowanceMm <= 0) return [];
  const { way } = along(fold);
  return [-0.5, 0.5].map((side) => {
    const by = side * fold.allowanceMm;
    const off = (p: Point2): Point2 => [p[0] - way[1] * by, p[1] + way[0] * by];
    return line(frame, off(fold.from), off(fold.to), BEND_ENDS);
  });
}

/** What is done at a fold: "fold up 90°, inside radius 1.6 mm". */
export const foldWords = (fold: FoldLine, inches = false): string =>
  `fold ${fold.way} ${formatNumber(fold.turnDeg, Number.isInteger(fold.turnDeg) ? 0 : 1)}°, inside radius ${lengthWords(fold.radiusMm, inches)}`;

function foldShapes(pattern: FlatPattern, frame: FlatFrame, way: 'up' | 'down', wish: FlatWish): Shape[] {
  return pattern.folds
    .filter((fold) => fold.way === way)
    .flatMap((fold): Shape[] => {
      const mid = line(frame, fold.from, fold.to, FOLD[way]);
      if (!wish.hasWords) return [mid];
      const { way: direction, length } = along(fold);
      const turn = (Math.atan2(direction[1], direction[0]) * 180) / Math.PI;
      // Read from below or from the right, a third of the way along (the two folds of a joggle lie side by side: up further on), off the line towards the inside.
      const isUpright = turn > -90 + 1e-9 && turn <= 90 + 1e-9;
      const share = way === 'up' ? 2 / 3 : 1 / 3;
      const start: Point2 = [
        fold.from[0] + direction[0] * length * share,
        fold.from[1] + direction[1] * length * share,
      ];
      const off = (fold.allowanceMm / 2 + 1.4) * (isUpright ? 1 : -1);
      const at: Point2 = [start[0] - direction[1] * off, start[1] + direction[0] * off];
      return [
        mid,
        {
          ...row(frame.spot(at), foldWords(fold, wish.inches), {
            size: WORD_MM,
            role: FOLD[way].role,
            halo: 'card',
            anchor: isUpright ? 'start' : 'end',
          }),
          turnDeg: isUpright ? turn : turn - 180 * Math.sign(turn),
        },
      ];
    });
}

/** Where along a mark its name stands. */
const MARK_NAMED = 0.15;

/** Numbers at the holes, the pattern's own words, names of marks, ids of corners. */
function wordShapes(pattern: FlatPattern, frame: FlatFrame): Shape[] {
  const style = { size: WORD_MM, halo: 'card' } as const;
  const numbers = [
    ...pattern.holes.map((hole) => ({ at: hole.at, rim: hole.diameterMm / 2 })),
    ...pattern.slots.map((slot) => ({ at: slot.at, rim: slot.wideMm / 2 })),
  ].map(({ at, rim }, i): Shape => {
    const [x, y] = frame.spot(at);
    // Beside a small hole, inside a big one: never on its rim.
    const off = rim * frame.scale > WORD_MM * 2 ? CENTRE_MM * 0.5 : rim * frame.scale * Math.SQRT1_2 + 0.8;
    return row([x + off, y - off], String(i + 1), { ...style, weight: 'bold' });
  });
  const marks = pattern.marks.map(({ from, to, name }): Shape => {
    const turn = (Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI;
    const isUpright = turn > -90 + 1e-9 && turn <= 90 + 1e-9;
    // Between the first fixings, off the middle where folds have their words.
    const [x, y] = frame.spot([from[0] + (to[0] - from[0]) * MARK_NAMED, from[1] + (to[1] - from[1]) * MARK_NAMED]);
    const turnDeg = isUpright ? turn : turn - 180 * Math.sign(turn);
    const off = 1.2;
    const radians = (turnDeg * Math.PI) / 180;
    return {
      ...row([x - off * Math.sin(radians), y - off * Math.cos(radians)], name, {
        ...style,
        role: 'soft',
        anchor: 'middle',
      }),
      turnDeg,
    };
  });
  const own = pattern.words.map(
    ({ at, text, heightMm, turnDeg }): Shape => ({
      ...row(frame.spot(at), text, { size: heightMm / CAPITAL, role: 'soft', weight: 'bold' }),
      turnDeg,
    }),
  );
  return [...own, ...marks, ...numbers, ...cornerShapes(pattern, frame)];
}

/** How far a corner's letter stands off it [mm]. */
const CORNER_OFF_MM = 5;

export function cornerShapes(pattern: FlatPattern, frame: FlatFrame): Shape[] {
  const places = pattern.corners.map(({ at }) => frame.spot(at));
  const middle: Spot = [
    places.reduce((sum, p) => sum + p[0], 0) / places.length,
    places.reduce((sum, p) => sum + p[1], 0) / places.length,
  ];
  return pattern.corners.map(({ id }, i): Shape => {
    const [x, y] = places[i]!;
    const far = Math.hypot(x - middle[0], y - middle[1]) || 1;
    const at: Spot = [x + ((x - middle[0]) / far) * CORNER_OFF_MM, y + ((y - middle[1]) / far) * CORNER_OFF_MM + 1.3];
    return row(at, id, { size: 4.2, weight: 'bold', anchor: 'middle', halo: 'card' });
  });
}
