import { Hono } from 'hono';
import { streamSSE } from 'hono/streaming';
import type { News, NewsDesk } from './news.ts';

/** A screen that has heard nothing for so long is spoken to, so that a dead line is noticed [ms]. */
const QUIET_MS = 20_000;

/** Live updates to every open screen. */
export function eventRoutes(news: NewsDesk) {
  return new Hono().get('/', (c) =>
    streamSSE(c, async (stream) => {
      const waiting: News[] = [];
      let wake: () => void = () => {};
      const quiet = news.listen((item) => {
        waiting.push(item);
        wake();
      });
      stream.onAbort(() => {
        quiet();
        wake();
      });
      await stream.writeSSE({ event: 'here', data: '{}' });
      while (!stream.aborted) {
        const item = waiting.shift();
        if (item !== undefined) await stream.writeSSE({ data: JSON.stringify(item) });
        else {
          const isWoken = await new Promise<boolean>((done) => {
            const timer = setTimeout(() => done(false), QUIET_MS);
            // A line that is woken or let go leaves no timer behind, for which the program would have to wait.
            wake = () => {
              clearTimeout(timer);
              done(true);
            };
          });
          if (!isWoken && !stream.aborted) await stream.writeSSE({ event: 'here', data: '{}' });
        }
      }
      quiet();
    }),
  );
}
