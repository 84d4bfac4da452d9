import { Hono } from 'hono';
import { z } from 'zod';
import { jsonBody, pathText, queryNumber } from './body.ts';
import { wishOf } from './car-routes.ts';
import type { Desk } from './desk.ts';
import type { NewsDesk } from './news.ts';

const { who, name, revision } = wishOf;
const MOST_STEPS = 500;
const MOST_REVISION = 1e9;

/** What was done to a car, and the way back to how it stood. */
export function historyRoutes({ shelf }: Desk, news: NewsDesk) {
  return new Hono()
    .post('/:id/go-back', jsonBody(z.object({ revision, who })), async (c) => {
      const { revision: to, who: by } = c.req.valid('json');
      const now = await shelf.goBack(pathText(c, 'id'), to, by);
      news.tell({ kind: 'car', id: now.id, revision: now.revision, who: by });
      return c.json(now);
    })
    .get('/:id/history', async (c) => {
      const before = queryNumber(c, 'before', MOST_REVISION, MOST_REVISION);
      return c.json(await shelf.history(pathText(c, 'id'), before, queryNumber(c, 'count', 50, MOST_STEPS)));
    })
    .get('/:id/points', async (c) => c.json(await shelf.points(pathText(c, 'id'))))
    .post('/:id/points', jsonBody(z.object({ revision, name })), async (c) => {
      const point = c.req.valid('json');
      await shelf.namePoint(pathText(c, 'id'), point.revision, point.name);
      return c.json(await shelf.points(pathText(c, 'id')));
    });
}
