import { Hono } from 'hono';
import { z } from 'zod';
import { type BoxRow, type Catalogue, carFrom, carWithShop, faultLine } from '#car';
import { parseCatalogueCsv } from '#standards';
import { jsonBody } from './body.ts';
import type { Desk } from './desk.ts';
import type { NewsDesk } from './news.ts';
import { RequestFault } from './request-fault.ts';

const wish = z.object({
  base: z.number().int().min(0),
  who: z.string().trim().min(1).max(80),
  box: z.array(z.json()).max(20_000).optional(),
  catalogue: z.record(z.string(), z.json()).optional(),
});

/** A list of parts is short. */
const MOST_LIST_SIGNS = 4_000_000;

/** What lies on the shop's shelf and what it can buy. */
export function shopRoutes(desk: Desk, news: NewsDesk) {
  return (
    new Hono()
      .get('/', async (c) => c.json(await desk.shelf.shop()))
      // A builder's list read and checked; nothing is kept.
      .post('/read-csv', jsonBody(z.object({ text: z.string().max(MOST_LIST_SIGNS) })), (c) =>
        c.json(parseCatalogueCsv(c.req.valid('json').text)),
      )
      .post('/', jsonBody(wish), async (c) => {
        const { base, who, box, catalogue } = c.req.valid('json');
        checkShop({ box: box ?? [], catalogue: catalogue ?? {} });
        const answer = await desk.shelf.keepShop({
          base,
          who,
          ...(box === undefined ? {} : { box: box as unknown as BoxRow[] }),
          ...(catalogue === undefined ? {} : { catalogue: catalogue as unknown as Catalogue }),
        });
        if (answer.kind === 'kept') news.tell({ kind: 'shop', revision: answer.now.revision });
        return c.json(answer, answer.kind === 'kept' ? 200 : 409);
      })
  );
}

/** The shop's rows have to hold in any car: they are checked as those of an empty one. */
function checkShop(shop: { readonly box: readonly unknown[]; readonly catalogue: object }): void {
  const empty = { fairlead: 1, parts: [], movers: [], lines: [] };
  const car = carWithShop(empty, shop as unknown as { box: BoxRow[]; catalogue: Catalogue });
  const reading = carFrom(JSON.parse(JSON.stringify(car)));
  if (!reading.ok) throw new RequestFault(422, reading.faults.slice(0, 5).map(faultLine).join('\n'));
}
