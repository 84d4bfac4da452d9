import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const source = fileURLToPath(new URL('..', import.meta.url));
/** Rooms that print, store or show what others have worked out; meshes count by what was read, not by their reader. */
const NOT_PLANNING = new Set(['intake', 'paper', 'shelf', 'server', 'cli', 'web']);

let known: string | undefined;

/**
 * Tells one state of the program from another: its own text, the libraries asked for, and the engine, whose sines and roots may
 * differ in the last digit. A number raised by hand would be forgotten one day, and yesterday's plan be shown as today's.
 */
export function toolMark(): string {
  known ??= worked();
  return known;
}

function worked(): string {
  const hash = createHash('sha256');
  hash.update(`${process.versions.node} ${process.versions.v8} ${process.arch}\n`);
  hash.update(readFileSync(join(source, '..', 'package.json')));
  for (const room of readdirSync(source, { withFileTypes: true }).sort((p, q) => (p.name < q.name ? -1 : 1))) {
    if (!room.isDirectory() || NOT_PLANNING.has(room.name)) continue;
    for (const name of readdirSync(join(source, room.name), { recursive: true, encoding: 'utf8' }).sort()) {
      if (!/\.m?ts$|\.mjs$/u.test(name) || name.endsWith('.test.ts')) continue;
      hash.update(`\n${room.name}/${name}\n`);
      hash.update(readFileSync(join(source, room.name, name)));
    }
  }
  return hash.digest('hex');
}
