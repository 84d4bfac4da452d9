import { dot } from '#geometry';
import type { Formula } from '#sources';
import { upInCar } from './placing/up-in-car.ts';

/** The formulas of this room, for the register. */
export const formulas: readonly Formula[] = [
  {
    id: 'height-when-leaning',
    title: 'Height of a point with the car pitched and rolled',
    equation: 'h = -x sin(p) - y cos(p) sin(r) + z cos(p) cos(r)',
    inputs: [
      { name: 'xMm', unit: 'mm', range: [-100_000, 100_000], text: 'rearward from the front axle line' },
      { name: 'yMm', unit: 'mm', range: [-100_000, 100_000], text: "to the car's right" },
      { name: 'zMm', unit: 'mm', range: [-100_000, 100_000], text: 'up' },
      { name: 'pitchDeg', unit: 'deg', range: [-90, 90], text: 'nose up' },
      { name: 'rollDeg', unit: 'deg', range: [-90, 90], text: 'right side down' },
    ],
    result: { unit: 'mm', text: "height over the car's origin, plumb" },
    source: 'geometry',
    known: 'computed',
    // Hand: nose up 30 degrees, 1000 behind the axle: 1000 sin 30 lower.
    example: { given: { xMm: 1000, yMm: 0, zMm: 0, pitchDeg: 30, rollDeg: 0 }, gives: -500, digits: 4 },
    evaluate: ({ xMm = Number.NaN, yMm = Number.NaN, zMm = Number.NaN, pitchDeg = Number.NaN, rollDeg = Number.NaN }) =>
      dot(upInCar(pitchDeg, rollDeg), [xMm, yMm, zMm]),
  },
];
