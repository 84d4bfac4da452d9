import { outlineFromImage, readReference } from '../src/intake/index.ts';
import { benchPhoto } from '../test/photo/bench-scene.ts';
import { outlinesApart } from '../test/photo/outline-apart.ts';

const title = 'fifty made-up photos of a cardboard template: stated error against the true one';
const PHOTOS = 50;
const LONG_PX = 1600;
const LEAST_COVERED = 45;
/** Median of how far 95 of 100 places of an outline lie off [mm]. */
const MOST_MEDIAN_MM = 1;

type Watch = (done: number, total: number) => boolean;

async function run(watch: Watch): Promise<{ passed: number; failed: number; lines: string[] }> {
  const off: number[] = [];
  const worst: number[] = [];
  const stated: number[] = [];
  const lines: string[] = [];
  let covered = 0;
  let refused = 0;
  for (let seed = 0; seed < PHOTOS; seed++) {
    const photo = benchPhoto({ seed, longPx: LONG_PX, exif: seed % 2 === 0 });
    const { width, height, data } = photo.image;
    const answer = outlineFromImage(
      {
        widthPx: width,
        heightPx: height,
        rgba: data,
        ...(photo.focal35Mm === undefined ? {} : { focal35Mm: photo.focal35Mm }),
      },
      {
        reference: { ...readReference(photo.reference)!, thicknessMm: photo.referenceThicknessMm },
        thicknessMm: photo.thicknessMm,
      },
    );
    watch(seed + 1, PHOTOS);
    if (!answer.ok) {
      refused++;
      lines.push(`  ${seed}: ${answer.refusal}`);
      continue;
    }
    const apart = outlinesApart([answer.outline, ...answer.openings], [photo.outline, ...photo.openings]);
    off.push(apart.mostMm);
    worst.push(apart.worstMm);
    stated.push(answer.errorMm);
    if (apart.worstMm <= answer.errorMm) covered++;
    else lines.push(`  ${seed}: ${apart.worstMm.toFixed(2)} mm at worst, ${answer.errorMm.toFixed(2)} stated`);
  }
  const median = (list: number[]): number => list.sort((p, q) => p - q)[list.length >> 1] ?? Number.POSITIVE_INFINITY;
  const held = [covered >= LEAST_COVERED, median(off) <= MOST_MEDIAN_MM];
  lines.unshift(
    `${covered} of ${PHOTOS} covered at their worst place, ${refused} refused (at least ${LEAST_COVERED} covered wanted); ` +
      `95 of 100 places off by at most ${median(off).toFixed(2)} mm, worst place ${median(worst).toFixed(2)}, stated ${median(stated).toFixed(2)} (medians)`,
  );
  return { passed: held.filter(Boolean).length, failed: held.filter((one) => !one).length, lines };
}

export default { title, run };
