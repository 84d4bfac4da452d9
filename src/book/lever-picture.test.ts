import { readFileSync } from 'node:fs';
import { type Lever, readCar } from '#car';
import { leverAnswer } from '#levers';
import { describe, expect, it } from 'vitest';
import type { Drawing, Shape, Spot } from './drawing.ts';
import { leverPicture, leverRatioChart } from './lever-picture.ts';

const reading = readCar(readFileSync(new URL('../../demo/fellside.json', import.meta.url), 'utf8'));
if (!reading.ok) throw new Error('the demo car is no car');
const { car } = reading;
const sheet = { width: 320, size: 8, unit: 'px' } as const;
const levers = car.levers!.map((lever) => [lever.id, lever] as const);

const spots = (shape: Shape): readonly Spot[] => {
  if (shape.kind === 'polyline') return shape.points;
  if (shape.kind === 'line') return [shape.from, shape.to];
  if (shape.kind !== 'circle') return [];
  const { centre, radius } = shape;
  return [centre, [centre[0] - radius, centre[1] - radius], [centre[0] + radius, centre[1] + radius]];
};

const drawn = (lever: Lever): Drawing => leverPicture(lever, leverAnswer(car, lever), 'metric', sheet);

describe('the picture of a lever', () => {
  it.each(levers)('%s holds numbers only, and all of it on the sheet', (_, lever) => {
    const drawing = drawn(lever);
    expect(JSON.stringify(drawing)).not.toMatch(/NaN|null|Infinity/);
    for (const [x, y] of drawing.shapes.flatMap(spots)) {
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x).toBeLessThanOrEqual(drawing.width);
      expect(y).toBeGreaterThanOrEqual(0);
      expect(y).toBeLessThanOrEqual(drawing.height);
    }
  });

  it('draws the handle at both ends of its swing at one distance from the pivot (hand: an arc)', () => {
    const drawing = drawn(levers.find(([id]) => id === 'K2')![1]);
    const arc = drawing.shapes.find((shape) => shape.kind === 'polyline' && shape.points.length === 41);
    const pivot = drawing.shapes.filter((shape) => shape.kind === 'circle').at(-1)!;
    if (arc?.kind !== 'polyline') throw new Error('no arc drawn');
    const radii = arc.points.map(([x, y]) => Math.hypot(x - pivot.centre[0], y - pivot.centre[1]));
    expect(Math.max(...radii) - Math.min(...radii)).toBeLessThan(1e-9);
    // Pulled rearward: to the right, as the car's rear is.
    expect(arc.points.at(-1)![0]).toBeGreaterThan(arc.points[0]![0]);
  });

  it('draws the ratio as it is worked out', () => {
    const [output] = leverAnswer(car, levers.find(([id]) => id === 'K2')![1]).outputs;
    const chart = leverRatioChart(output!, 'metric', sheet);
    expect(JSON.stringify(chart)).not.toMatch(/NaN|null|Infinity/);
    expect(chart.description).toMatch(/7\.00 to 1 as drawn; 7\.00 to 7\.9\d over the swing/);
  });
});
