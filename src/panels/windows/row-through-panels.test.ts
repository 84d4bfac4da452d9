import { describe, expect, it } from 'vitest';
import { movedOutline, type Point2, readyOutline } from '#geometry';
import { meshPiece } from '../mesh/mesh-piece.ts';
import { rowThroughPanels } from './row-through-panels.ts';
import { rectangle } from './seeded-panels.fixture.ts';
import { windowField } from './window-field.ts';

/** Two panels side by side, 400 and 260 mm long; the second one's own axes are turned and shifted. */
const TURN = 0.7;
const turned = ([x, y]: Point2): Point2 => [
  Math.cos(TURN) * x - Math.sin(TURN) * y + 50,
  Math.sin(TURN) * x + Math.cos(TURN) * y - 20,
];
const panels = [
  { panel: 'left', outline: rectangle(400, 200), keepClear: [], line: { from: [0, 100], to: [400, 100] } },
  {
    panel: 'right',
    outline: movedOutline(rectangle(260, 200), [50, -20], TURN),
    keepClear: [],
    line: { from: turned([0, 100]), to: turned([260, 100]) },
  },
] as const;
const spec = {
  id: 'R',
  shape: 'trapezoid',
  thicknessMm: 1.2,
  webMm: 12,
  edgeMm: 20,
  cornerDrillMm: 12,
  count: 5,
  highMm: 80,
} as const;

describe('a row through panels', () => {
  it('has equal openings in one line, none over the joint', () => {
    const answer = rowThroughPanels(panels, spec);
    if ('why' in answer) throw new Error(answer.why);
    // hand: 360 and 220 mm of room; three and two fit while 3 w + 24 <= 360 and 2 w + 12 <= 220: w = 104.
    expect(answer.wideMm).toBeCloseTo(104, 3);
    expect(answer.rows.map(({ field }) => field?.openings.length)).toEqual([3, 2]);
    const areas = answer.rows.flatMap(({ field }) => field!.openings.map(({ areaMm2 }) => areaMm2));
    for (const area of areas) expect(area).toBeCloseTo(areas[0]!, 3);
    for (const { field } of answer.rows) expect(field!.edgeMm).toBeGreaterThan(20 - 1e-6);
    const back = (p: Point2): number => -Math.sin(TURN) * (p[0] - 50) + Math.cos(TURN) * (p[1] + 20);
    const heights = answer.rows[1]!.field!.openings.flatMap(({ outline }) => outline.map(({ at }) => back(at)));
    expect(Math.min(...heights)).toBeCloseTo(60, 6);
    expect(Math.max(...heights)).toBeCloseTo(140, 6);
  });

  it('is refused with the most that fits', () => {
    // hand: openings of 13 mm, a drill and a millimetre, each with its web: 372/25 and 232/25.
    expect(rowThroughPanels(panels, { ...spec, count: 60 })).toEqual({
      why: 'row R: 60 openings wanted, 23 is the most between the joints',
    });
  });
});

describe('mesh behind a field', () => {
  it('is as large as the field and its frame, with fixings in the middle of the frame (hand)', () => {
    const answer = windowField(rectangle(400, 200), [], {
      ...spec,
      id: 'W',
      count: 4,
      along: { from: [0, 0], to: [400, 0] },
      sizeMm: [300, 100],
    });
    if (!answer.ok) throw new Error(answer.why);
    const piece = meshPiece(answer.field, 0, 10, 60);
    expect(piece.cutMm[0]).toBeCloseTo(320, 6);
    expect(piece.cutMm[1]).toBeCloseTo(120, 6);
    expect(piece.frameLongMm).toBeCloseTo(2 * (310 + 110), 6);
    // hand: 310/60 -> 6 and 110/60 -> 2 steps a side.
    expect(piece.fixings).toHaveLength(16);
    expect(readyOutline(piece.frameInside).box[0]).toBeCloseTo(50, 6);
  });
});
