import { createReadStream } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { Hono } from 'hono';
import type { Desk } from './desk.ts';

/** The whole shelf as one file, while it is in use: every car with its history and scans, the shop's box and catalogue. */
export function copyRoutes({ shelf }: Desk) {
  return new Hono().get('/', async (c) => {
    const folder = await mkdtemp(join(tmpdir(), 'fairlead-copy-'));
    const file = join(folder, 'shelf.db');
    const cleared = (): Promise<void> => rm(folder, { recursive: true, force: true });
    try {
      await shelf.copyTo(file);
    } catch (fault) {
      await cleared();
      throw fault;
    }
    const bytes = createReadStream(file);
    bytes.once('close', () => void cleared());
    return c.body(Readable.toWeb(bytes) as ReadableStream, 200, {
      'content-type': 'application/vnd.sqlite3',
      'content-disposition': 'attachment; filename="fairlead-shelf.db"',
    });
  });
}
