import type { Formula } from '#sources';
import { swingBesideWallDeg } from './swing-beside-wall.ts';

/** The formulas of tool room, as the register lists them. */
export const toolRoomFormulas: readonly Formula[] = [
  {
    id: 'swing-beside-wall',
    title: 'Free swing of a spanner on a nut beside a wall',
    equation: 'free = 360 - 2 (acos((D - t/2)/sqrt(L1^2 + w1^2)) + atan(w1/L1)); L1 = L - t/2, w1 = (b - t)/2',
    inputs: [
      { name: 'wallMm', unit: 'mm', range: [1, 2000], text: "from the nut's axis to the wall" },
      { name: 'lengthMm', unit: 'mm', range: [20, 2000], text: "handle from the nut's axis to its end" },
      { name: 'widthMm', unit: 'mm', range: [1, 100], text: 'width of the handle' },
      { name: 'thickMm', unit: 'mm', range: [1, 100], text: 'thickness of the handle' },
    ],
    result: { unit: 'deg', text: 'free swing' },
    source: 'geometry',
    known: 'computed',
    example: { given: { wallMm: 60, lengthMm: 240, widthMm: 20, thickMm: 8 }, gives: 204.5, digits: 1 },
    evaluate: (g) =>
      swingBesideWallDeg(
        g['wallMm'] ?? Number.NaN,
        g['lengthMm'] ?? Number.NaN,
        g['widthMm'] ?? Number.NaN,
        g['thickMm'] ?? Number.NaN,
      ),
  },
];
