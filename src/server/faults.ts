import type { Context } from 'hono';
import { HTTPException } from 'hono/http-exception';
import { CrewError, CrewStopped } from '#crew';
import { ShelfError, type ShelfFault } from '#shelf';
import { RequestFault } from './request-fault.ts';

const statusOf: Readonly<Record<ShelfFault, 400 | 404 | 409 | 500 | 503 | 507>> = {
  'no-car': 404,
  'no-scan': 404,
  'no-revision': 404,
  'nothing-to-undo': 409,
  'nothing-to-redo': 409,
  refused: 400,
  full: 507,
  'read-only': 507,
  broken: 500,
  newer: 500,
  busy: 503,
};

/** Whatever went wrong as one sentence for the builder; what is no fault of the request goes to the log as well. */
export function faultAnswer(fault: Error, c: Context, log: (text: string) => void): Response {
  if (fault instanceof RequestFault) return c.json({ fault: fault.message }, fault.status);
  if (fault instanceof ShelfError) return c.json({ fault: fault.message, code: fault.code }, statusOf[fault.code]);
  if (fault instanceof HTTPException) {
    const fine =
      fault.status === 413 ? 'the request is larger than is allowed' : 'the request is no JSON that can be read';
    return c.json({ fault: fine }, fault.status);
  }
  if (fault instanceof CrewStopped) return c.json({ fault: 'the server is being ended; nothing was changed' }, 503);
  log(`${c.req.method} ${c.req.path}: ${fault.stack ?? fault.message}`);
  const what = fault instanceof CrewError ? 'working it out failed' : 'the program failed at this';
  return c.json(
    { fault: `${what}; nothing was changed. What it says of itself is in the window it was started from.` },
    500,
  );
}
