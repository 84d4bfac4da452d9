import { Hono } from 'hono';
import { z } from 'zod';
import { type Car, faultLine, readCar, readEdits } from '#car';
import type { KeptCar } from '#shelf';
import { jsonBody, pathText, queryText } from './body.ts';
import type { ReadyCar } from './ready-car.ts';
import type { Desk } from './desk.ts';
import type { NewsDesk } from './news.ts';
import { RequestFault } from './request-fault.ts';

const who = z
  .string({ error: 'allowed: the name of whoever makes the change' })
  .trim()
  .min(1, { error: 'allowed: the name of whoever makes the change' })
  .max(80, { error: 'allowed: a name of at most 80 signs' });
const name = z.string().max(200, { error: 'allowed: a name of at most 200 signs' });
const revision = z.number({ error: 'allowed: a whole number' }).int().min(0);
export const wishOf = { who, name, revision };

const newCar = z.discriminatedUnion('from', [
  z.object({ from: z.literal('demo'), who }),
  z.object({ from: z.literal('empty'), name: name.optional(), who }),
  z.object({ from: z.literal('file'), text: z.string(), who }),
]);

const EMPTY: Car = { fairlead: 1, parts: [], movers: [], lines: [] };

/** Cars of the shelf: opened, changed, undone, looked back at. */
export function carRoutes(desk: Desk, news: NewsDesk, demo: () => Promise<ReadyCar>) {
  const { shelf } = desk;
  const changed = (now: KeptCar, by: string): KeptCar => {
    news.tell({ kind: 'car', id: now.id, revision: now.revision, who: by });
    return now;
  };
  return new Hono()
    .get('/', async (c) => c.json(await shelf.cars()))
    .post('/', jsonBody(newCar), async (c) => {
      const wish = c.req.valid('json');
      const now = await added(desk, wish, demo);
      news.tell({ kind: 'cars' });
      return c.json(now, 201);
    })
    .post('/import', async (c) => {
      const by = who.safeParse(c.req.query('who') ?? '');
      if (!by.success) throw new RequestFault(400, 'who: allowed: the name of whoever brings the car in');
      const now = await shelf.importCar(new Uint8Array(await c.req.arrayBuffer()), by.data);
      news.tell({ kind: 'cars' });
      return c.json(now, 201);
    })
    .get('/:id', async (c) => c.json(await shelf.openCar(pathText(c, 'id'))))
    .post('/:id/edits', jsonBody(z.object({ base: revision, edits: z.unknown(), who })), async (c) => {
      const { base, edits, who: by } = c.req.valid('json');
      const read = readEdits(edits);
      if (!read.ok) throw new RequestFault(400, read.fault);
      const answer = await shelf.keep(pathText(c, 'id'), { base, edits: read.edits, who: by });
      if (answer.kind === 'kept') changed(answer.now, by);
      return c.json(answer, answer.kind === 'kept' ? 200 : answer.kind === 'clash' ? 409 : 422);
    })
    .post('/:id/undo', jsonBody(z.object({ who })), async (c) => {
      const { who: by } = c.req.valid('json');
      return c.json(changed(await shelf.undo(pathText(c, 'id'), by), by));
    })
    .post('/:id/redo', jsonBody(z.object({ who })), async (c) => {
      const { who: by } = c.req.valid('json');
      return c.json(changed(await shelf.redo(pathText(c, 'id'), by), by));
    })
    .post('/:id/away', jsonBody(z.object({ isAway: z.boolean(), who })), async (c) => {
      const { isAway, who: by } = c.req.valid('json');
      await shelf.setAway(pathText(c, 'id'), isAway, by);
      news.tell({ kind: 'cars' });
      return c.json({ isAway });
    })
    .get('/:id/standing', async (c) => c.json(await desk.standing(pathText(c, 'id'))))
    .get('/:id/opened', async (c) => {
      const opened = await desk.opened(pathText(c, 'id'), queryText(c, 'snag'));
      if (opened === null) throw new RequestFault(404, 'that snag is gone: the car has changed');
      return c.json(opened);
    })
    .get('/:id/export', async (c) => {
      const id = pathText(c, 'id');
      const bytes = await shelf.exportCar(id);
      return c.body(bytes.slice().buffer, 200, {
        'content-type': 'application/zip',
        'content-disposition': `attachment; filename="${id.replaceAll(/[^\w-]/gu, '_')}.fairlead.zip"`,
      });
    });
}

async function added(desk: Desk, wish: z.output<typeof newCar>, demo: () => Promise<ReadyCar>): Promise<KeptCar> {
  const { shelf } = desk;
  if (wish.from === 'empty') return shelf.addCar({ ...EMPTY, name: wish.name?.trim() || 'New car' }, wish.who);
  if (wish.from === 'demo') return (await demo()).putOn(desk, wish.who);
  const reading = readCar(wish.text);
  if (!reading.ok) throw new RequestFault(422, reading.faults.map(faultLine).join('\n'));
  return shelf.addCar(reading.car, wish.who);
}
