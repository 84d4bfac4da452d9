import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hungTags, TAG_HIGH_PX } from './hung-tags.ts';

const phone = { width: 390, height: 312 };

describe('tags on the picture', () => {
  it('stand above their place, the second one higher where both are at one place', () => {
    const [a, b] = hungTags(
      [
        { x: 200, y: 200, wide: 100 },
        { x: 210, y: 200, wide: 100 },
      ],
      phone,
    );
    // Hand: 34 px of wire; the next that is free, in steps of half a tag, is a whole tag higher.
    expect([a!.wire, b!.wire]).toEqual([34, 68]);
  });

  it('never lie on each other or over the edge, and the worst one is always there', () => {
    const place = fc.record({
      x: fc.integer({ min: 0, max: phone.width }),
      y: fc.integer({ min: 20, max: phone.height }),
      wide: fc.integer({ min: 70, max: 180 }),
    });
    fc.assert(
      fc.property(fc.array(place, { minLength: 1, maxLength: 12 }), (places) => {
        const hung = hungTags(places, phone);
        expect(hung[0]).not.toBeNull();
        const boxes = hung.flatMap((tag, i) =>
          tag === null ? [] : [{ x: tag.x + tag.aside, y: tag.y - tag.wire, wide: places[i]!.wide }],
        );
        for (const [i, box] of boxes.entries()) {
          expect(box.x - box.wide / 2).toBeGreaterThanOrEqual(-1e-9);
          expect(box.x + box.wide / 2).toBeLessThanOrEqual(phone.width + 1e-9);
          expect(box.y).toBeGreaterThanOrEqual(TAG_HIGH_PX / 2 - 1e-9);
          for (const other of boxes.slice(i + 1)) {
            const beside = Math.abs(box.x - other.x) >= (box.wide + other.wide) / 2 - 1e-9;
            expect(beside || Math.abs(box.y - other.y) >= TAG_HIGH_PX - 1e-9).toBe(true);
          }
        }
      }),
      { seed: 20_261_126, numRuns: 500 },
    );
  });
});
