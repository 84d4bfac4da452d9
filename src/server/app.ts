import type { Context } from 'hono';
import { Hono } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { compress } from 'hono/compress';
import { secureHeaders } from 'hono/secure-headers';
import { z } from 'zod';
import { formulaRegister, workedFormula } from '#answers';
import { describeSource } from '#sources';
import { guard, type Sharing } from './access.ts';
import { jsonBody, pathText } from './body.ts';
import { carRoutes } from './car-routes.ts';
import { copyRoutes } from './copy-routes.ts';
import type { ReadyCar } from './ready-car.ts';
import type { Desk } from './desk.ts';
import { eventRoutes } from './event-routes.ts';
import { faultAnswer } from './faults.ts';
import { historyRoutes } from './history-routes.ts';
import type { Jobs } from './jobs.ts';
import type { NewsDesk } from './news.ts';
import { pageRoutes } from './page-routes.ts';
import { panelRoutes } from './panel-routes.ts';
import { photoRoutes } from './photo-routes.ts';
import { pictureRoutes } from './picture-routes.ts';
import { RequestFault } from './request-fault.ts';
import { scanRoutes } from './scan-routes.ts';
import { shopRoutes } from './shop-routes.ts';
import type { webFiles } from './web-files.ts';
import { workRoutes } from './work-routes.ts';

/** Largest bodies [bytes]: a scan or a whole car, and everything else. */
const MOST_FILE_BYTES = 512 * 1024 * 1024;
const MOST_JSON_BYTES = 32 * 1024 * 1024;

export interface AppParts {
  readonly desk: Desk;
  readonly jobs: Jobs;
  readonly news: NewsDesk;
  readonly sharing: Sharing;
  readonly files: ReturnType<typeof webFiles>;
  /** The demo car, made ready when it is first asked for. */
  readonly demo: () => Promise<ReadyCar>;
  /** Where a fault of the program is told. */
  readonly log: (text: string) => void;
  /** Address of whoever asks; from the socket if absent. */
  readonly remote?: (c: Context) => string;
}

/** Everything that can be asked over HTTP. */
export function app(parts: AppParts) {
  const { desk, jobs, news, sharing, files, demo, log } = parts;
  desk.listen((id) => news.tell({ kind: 'behind', id }));
  return new Hono()
    .onError((fault, c) => faultAnswer(fault, c, log))
    .use(secureHeaders(headersOf(sharing)))
    .use(guard(sharing, parts.remote))
    .use(async (c, next) => {
      const isFile = /^\/api\/cars\/(?:import|[^/]+\/(?:scans|laps|template-photo))$/u.test(c.req.path);
      const most = isFile ? MOST_FILE_BYTES : MOST_JSON_BYTES;
      return bodyLimit({
        maxSize: most,
        onError: () => {
          throw new RequestFault(413, `the request is larger than is allowed here: ${Math.round(most / 2 ** 20)} MB`);
        },
      })(c, next);
    })
    .use('/api/cars/*', compress())
    .use('/assets/*', compress())
    .use('/api/*', async (c, next) => {
      await next();
      if (c.res.headers.get('cache-control') === null) c.res.headers.set('cache-control', 'no-store');
    })
    .route('/api/cars', carRoutes(desk, news, demo))
    .route('/api/cars', historyRoutes(desk, news))
    .route('/api/cars', scanRoutes(desk))
    .route('/api/cars', pictureRoutes(desk))
    .route('/api/cars', panelRoutes(desk))
    .route('/api/cars', photoRoutes(desk, jobs))
    .route('/api', workRoutes(desk, jobs))
    .route('/api/shop', shopRoutes(desk, news))
    .route('/api/shelf-copy', copyRoutes(desk))
    .route('/api/events', eventRoutes(news))
    .get('/api/formulas', (c) => c.json(listedFormulas))
    .post('/api/formulas/:id', jsonBody(z.record(z.string(), z.string().max(100))), (c) => {
      const worked = workedFormula(pathText(c, 'id'), new Map(Object.entries(c.req.valid('json'))));
      if (!worked.ok) throw new RequestFault(422, worked.faults.join('\n'));
      return c.json({ id: worked.formula.id, given: worked.given, worked: worked.worked });
    })
    .route('/', pageRoutes(files, sharing));
}

/** The type that a typed client of this server is made from. */
export type App = ReturnType<typeof app>;

const listedFormulas = formulaRegister.map(({ id, title, equation, inputs, result, source, known, example, room }) => ({
  id,
  title,
  equation,
  inputs,
  result,
  source,
  sourceWords: describeSource(source),
  known,
  example,
  room,
}));

const headersOf = ({ code }: Sharing): Parameters<typeof secureHeaders>[0] => ({
  contentSecurityPolicy: {
    defaultSrc: ["'self'"],
    scriptSrc: ["'self'"],
    styleSrc: ["'self'", "'unsafe-inline'"],
    imgSrc: ["'self'", 'data:', 'blob:'],
    fontSrc: ["'self'"],
    connectSrc: ["'self'"],
    workerSrc: ["'self'", 'blob:'],
    objectSrc: ["'none'"],
    baseUri: ["'none'"],
    formAction: ["'self'"],
    frameAncestors: ["'none'"],
  },
  xFrameOptions: 'DENY',
  // Not no-referrer: with that a browser says of the door's own form that it comes from nowhere, and the code was refused.
  referrerPolicy: 'same-origin',
  // Plain http on the shop's network: there is no https to insist on.
  strictTransportSecurity: false,
  crossOriginResourcePolicy: 'same-origin',
  // Over plain http browsers do not heed it, and complain of it.
  crossOriginOpenerPolicy: code === null ? 'same-origin' : false,
});
