import { outlineFromImage, type PhotoOutline, readReference } from '#intake';
import { describe, expect, it } from 'vitest';
import { type BenchPhoto, benchPhoto, type SceneWish } from './bench-scene.ts';
import { outlinesApart } from './outline-apart.ts';

/*
 * second: photos made by a renderer of its own (test/photo/render-photo.ts: rays, another law for the lens in half of them, no
 * code shared with what is tested), so that the true outline is known. `npm run prove -- photos` does fifty larger ones.
 */
const PX = 520;

function worked(photo: BenchPhoto, more: object = {}): PhotoOutline {
  const { width, height, data } = photo.image;
  return outlineFromImage(
    {
      widthPx: width,
      heightPx: height,
      rgba: data,
      ...(photo.focal35Mm === undefined ? {} : { focal35Mm: photo.focal35Mm }),
    },
    {
      reference: { ...readReference(photo.reference)!, thicknessMm: photo.referenceThicknessMm },
      thicknessMm: photo.thicknessMm,
      ...more,
    },
  );
}

const told = (wish: Partial<SceneWish> & { seed: number }, more: object = {}): string => {
  const answer = worked(benchPhoto({ longPx: PX, exif: true, ...wish }), more);
  return answer.ok ? `an outline known to ${answer.errorMm.toFixed(1)} mm` : answer.refusal;
};

describe('a template from a photo', () => {
  it('seed 1, frame: the stated error covers the true one', () => {
    const wish = { seed: 1, reference: 'frame' as const, longPx: 1000 };
    const photo = benchPhoto({ exif: true, ...wish });
    const answer = worked(photo);
    if (!answer.ok) throw new Error(answer.refusal);
    const apart = outlinesApart([answer.outline, ...answer.openings], [photo.outline, ...photo.openings]);
    expect(answer.openings).toHaveLength(photo.openings.length);
    expect(apart.worstMm).toBeLessThanOrEqual(answer.errorMm);
    expect(apart.mostMm).toBeLessThan(1);
    expect(Math.abs(answer.report.tiltDeg - photo.tiltDeg)).toBeLessThan(6);
    // the corners picked by hand, some pixels off each, say the same
    const seen = answer.pictures.reference;
    const four = seen.length === 6 ? [seen[0]!, seen[1]!, seen[3]!, seen[5]!] : seen;
    const referencePx = four.map(([x, y], i): readonly [number, number] => [x + 3 * (-1) ** i, y - 2 + i]);
    const picked = worked(photo, { hints: { referencePx } });
    if (!picked.ok) throw new Error(picked.refusal);
    const again = outlinesApart([picked.outline, ...picked.openings], [photo.outline, ...photo.openings]);
    expect(again.worstMm).toBeLessThanOrEqual(picked.errorMm);
  });

  it.each([
    ['too oblique', { seed: 4, tiltDeg: 64, reference: 'frame' }, /leans \d+ degrees, at most 55/],
    [
      'seen too small',
      { seed: 3, reference: 'frame', tiltDeg: 30 },
      /[\d.]+ pixels to a mm at the template, at least 0.8/,
    ],
    [
      'too small a reference',
      { seed: 5, reference: 'sheet', referenceShare: 0.4 },
      /known to \+-[\d.]+ mm.*at least 60 %/,
    ],
    ['out of the picture', { seed: 6, reference: 'square', pushedMm: 320 }, /runs out of the picture|no template/],
    ['burnt out', { seed: 7, reference: 'frame', exposure: 9 }, /burnt out|stands out/],
    ['of the colour of the bench', { seed: 8, reference: 'frame', cardLike: 'bench' }, /no template stands out/],
  ] as const)('refuses what it cannot trust: %s', (_, wish, line) => {
    expect(told(wish)).toMatch(line);
  });

  it('asks which of two things is the template, and takes a pick', () => {
    const photo = benchPhoto({ seed: 9, longPx: 1000, exif: true, reference: 'square', second: true });
    const unasked = worked(photo);
    expect(unasked.ok ? '' : unasked.refusal).toMatch(/two things could be the template.*a pick on the template/);
    // the picture's own middle lies on the one or the other: either is taken, and the question is no longer asked
    const asked = worked(photo, { hints: { templatePx: [photo.image.width * 0.5, photo.image.height * 0.35] } });
    expect(asked.ok ? '' : asked.refusal).not.toMatch(/two things/);
  });
});
