import { clockWords, clockFrame } from '#lines';
import { describe, expect, it } from 'vitest';
import { clockFace, type ClockedEnd, TAIL_REACH, tailWords } from './clock-face.ts';
import type { Shape } from './drawing.ts';
import { labelBoxes } from './label-boxes.ts';

const sheet = { width: 300, size: 13, unit: 'px', dial: 100 } as const;
const end: ClockedEnd = {
  port: 'block.feed',
  angleDeg: 90,
  clockDeg: 285,
  clockFrom: 'up',
  words: '-4 port → 90° crimped end, tail points left (half past nine)',
};

const flat = (shapes: readonly Shape[]): Shape[] =>
  shapes.flatMap((shape) => (shape.kind === 'group' ? flat(shape.shapes) : [shape]));
const circles = (shapes: readonly Shape[]) =>
  flat(shapes).filter((shape) => shape.kind === 'circle') as Extract<Shape, { kind: 'circle' }>[];

describe('the clock face', () => {
  it('draws the tail where the clock says: 285 degrees is to the left and a little up', () => {
    const [rim, , tip] = circles(clockFace(end, sheet).shapes);
    // By hand: sin 285° = -0.9659, cos 285° = 0.2588; y runs down the sheet.
    const reach = rim!.radius * TAIL_REACH;
    expect((tip!.centre[0] - rim!.centre[0]) / reach).toBeCloseTo(-0.9659, 4);
    expect((tip!.centre[1] - rim!.centre[1]) / reach).toBeCloseTo(-0.2588, 4);
    expect(rim!.radius).toBe(50);
  });

  it('says the same in words, with what 12 is', () => {
    const texts = labelBoxes(clockFace(end, sheet)).map((label) => label.text);
    expect(texts).toEqual(['12 = up', 'block.feed', 'half past nine · 285°', '90° end, tail points left']);
    expect(clockFace(end, sheet).description).toBe(
      'block.feed, seen looking into the port. 90° end at half past nine, 285 degrees; tail points left; 12 is up.',
    );
  });

  it('shows a straight end as one that has nothing to turn', () => {
    const { clockFrom: _from, ...bare } = end;
    const drawing = clockFace({ ...bare, angleDeg: 0, clockDeg: null, words: 'x' }, sheet);
    expect(circles(drawing.shapes)).toHaveLength(2);
    expect(labelBoxes(drawing).map((label) => label.text)).toContain('straight: nothing to turn');
  });

  it('has a face each for an elbow adapter and the bent end behind it', () => {
    const words = "p → adapter a, tail points down (six o'clock) → 60° end, tail points rearward, up (two o'clock)";
    for (const width of [200, 500]) {
      const drawing = clockFace({ ...end, adapterClockDeg: 180, words }, { ...sheet, width, portTwelve: 'forward' });
      expect(circles(drawing.shapes)).toHaveLength(6);
      const texts = labelBoxes(drawing)
        .map((label) => label.text)
        .join(' ');
      expect(texts).toMatch(/six o'clock · 180° elbow adapter, tail points down/);
      expect(texts).toMatch(/looking into the adapter half past nine · 285° 90° end, tail points rearward, up/);
      for (const label of labelBoxes(drawing)) {
        expect(label.right).toBeLessThanOrEqual(width);
        expect(label.bottom).toBeLessThanOrEqual(drawing.height + 1e-9);
      }
    }
  });

  it('reads the words that the planner writes', () => {
    expect(tailWords(clockWords(285, clockFrame([1, 0, 0])))).toHaveLength(1);
    expect(tailWords('straight crimped end')).toEqual([]);
  });
});
