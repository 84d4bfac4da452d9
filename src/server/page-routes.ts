import { Hono } from 'hono';
import { z } from 'zod';
import { CodeDesk, isIn, type Sharing } from './access.ts';
import { jsonBody } from './body.ts';
import { RequestFault } from './request-fault.ts';
import type { webFiles } from './web-files.ts';

/** The screen's own files, and the door where a code is wanted. */
export function pageRoutes(files: ReturnType<typeof webFiles>, sharing: Sharing) {
  const codes = new CodeDesk(sharing);
  const screen = files.get('/index.html');
  return new Hono()
    .post('/api/access', jsonBody(z.object({ code: z.string().max(40) })), (c) => {
      codes.take(c, c.req.valid('json').code);
      return c.json({ isIn: true });
    })
    .post('/', async (c) => {
      const code = (await c.req.parseBody())['code'];
      try {
        codes.take(c, typeof code === 'string' ? code.slice(0, 40) : '');
      } catch (fault) {
        // Whoever stands at the door reads it there, and tries again.
        if (fault instanceof RequestFault) return c.html(door(fault.message), fault.status, NOT_KEPT);
        throw fault;
      }
      return c.redirect('/', 303);
    })
    .get('/', (c) => {
      if (!isIn(c, sharing)) return c.html(door(''), 200, NOT_KEPT);
      if (screen === undefined) return c.text('The screen has not been built: npm start builds it.', 503);
      return c.body(screen.bytes, 200, { 'content-type': screen.type, 'cache-control': 'no-cache' });
    })
    .get('*', (c) => {
      const file = files.get(c.req.path);
      if (file === undefined) return c.json({ fault: `there is nothing at ${c.req.path.slice(0, 120)}` }, 404);
      const keep = file.isFixed ? 'public, max-age=31536000, immutable' : 'no-cache';
      return c.body(file.bytes, 200, { 'content-type': file.type, 'cache-control': keep });
    });
}

const NOT_KEPT = { 'cache-control': 'no-store' };

/** Plain HTML without a script: it works before anything else is let through. `said`: our own words, why it stayed shut. */
const door = (said: string): string => `<!doctype html>
<html lang="en">
<meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="icon" href="data:,">
<title>Fairlead: access code</title>
<style>
  :root { color-scheme: light dark; font: 1.25rem/1.5 system-ui, sans-serif; }
  main { max-width: 26rem; margin: 15vh auto; padding: 0 1rem; }
  input, button { font: inherit; min-height: 3rem; width: 100%; box-sizing: border-box; margin-top: .75rem; }
</style>
<main>
  <h1>Fairlead</h1>
  <p>This shop's access code, please. It stands in the window where the server was started.</p>
  ${said === '' ? '' : `<p role="alert"><strong>&#9650; ${said[0]!.toUpperCase()}${said.slice(1)}.</strong></p>`}
  <form method="post" action="/">
    <label for="code">Access code</label>
    <input id="code" name="code" inputmode="numeric" autocomplete="one-time-code" required autofocus>
    <button>Go in</button>
  </form>
</main>
</html>
`;
