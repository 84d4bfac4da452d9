import type { Context } from 'hono';
import { Hono } from 'hono';
import type { PhotoSeen } from '#crew';
import type { Point2 } from '#geometry';
import { type OutlineWish, type PhotoHints, readReference, REFERENCE_WORDS } from '#intake';
import { pathText, queryText } from './body.ts';
import type { Desk } from './desk.ts';
import type { JobAtWork, Jobs } from './jobs.ts';
import { RequestFault } from './request-fault.ts';

/** The photo of a cardboard template beside a reference: worked out, never kept. */
export function photoRoutes(desk: Desk, jobs: Jobs) {
  return new Hono().post('/:id/template-photo', async (c) => {
    const id = pathText(c, 'id');
    const wish = wishOf(c);
    await desk.shelf.openCar(id);
    const bytes = new Uint8Array(await c.req.arrayBuffer());
    return c.json({ job: jobs.begin(id, 'template', (at) => photoJob(desk, { bytes, wish }, at)) }, 202);
  });
}

function photoJob(desk: Desk, ask: { bytes: Uint8Array; wish: OutlineWish }, at: JobAtWork): Promise<PhotoSeen> {
  // A second or two: whoever stands there with the card does not wait behind a plan.
  const job = desk.crew.ask('photoSeen', ask);
  at.onStop(job.stop);
  return job.answer;
}

/** Thickest card or reference, and the worst that a reference may be known to [mm]. */
const MOST_MM = 60;

function wishOf(c: Context): OutlineWish {
  const words = queryText(c, 'reference');
  const reference = readReference(words);
  if (reference === undefined)
    throw new RequestFault(422, `reference: stands "${words.slice(0, 60)}"; allowed: ${REFERENCE_WORDS}`);
  const [corners, on] = [c.req.query('cornersPx'), c.req.query('onPx')];
  const hints: PhotoHints = {
    ...(corners === undefined ? {} : { referencePx: placesPx(corners, 'cornersPx', 4) }),
    ...(on === undefined ? {} : { templatePx: placesPx(on, 'onPx', 1)[0]! }),
  };
  return {
    reference: {
      ...reference,
      thicknessMm: lengthMm(c, 'referenceThicknessMm', 0),
      knownToMm: lengthMm(c, 'referenceKnownMm', 0.5),
    },
    thicknessMm: lengthMm(c, 'thicknessMm', 4),
    hints,
  };
}

function lengthMm(c: Context, name: string, usual: number): number {
  const text = c.req.query(name);
  if (text === undefined || text === '') return usual;
  const mm = Number(text);
  if (!(mm >= 0 && mm <= MOST_MM))
    throw new RequestFault(422, `${name}: stands "${text.slice(0, 40)}"; allowed: 0 to ${MOST_MM} mm`);
  return mm;
}

/** "x,y x,y" in pixels from the photo's top left corner. */
function placesPx(text: string, name: string, count: number): Point2[] {
  const found = text
    .trim()
    .split(/\s+/u)
    .map((pair) => pair.split(',').map(Number));
  const points = found.flatMap(([x, y, ...rest]): Point2[] =>
    rest.length === 0 && x !== undefined && y !== undefined && x >= 0 && y >= 0 ? [[x, y]] : [],
  );
  if (points.length !== count || found.length !== count)
    throw new RequestFault(400, `${name}: stands "${text.slice(0, 80)}"; allowed: ${count} places "x,y" in pixels`);
  return points;
}
