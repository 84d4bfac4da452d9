// What a worker thread runs: one file made of all that its tasks need, where it was made of the source as it stands now. Plain
// JavaScript, since the script that makes it runs on a bare clone.
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
/** Rooms that no task reaches. */
const BESIDE = new Set(['shelf', 'server', 'cli', 'web']);

/** Every file that the one file can be made of, from the top of the checkout. */
function sourceFiles() {
  const rooms = readdirSync(join(root, 'src')).filter((room) => !BESIDE.has(room));
  const inRooms = rooms.flatMap((room) =>
    readdirSync(join(root, 'src', room), { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.m?ts$|\.mjs$|\.wasm$/u.test(name) && !/\.(test|fixture)\.ts$/u.test(name))
      .map((name) => join('src', room, name)),
  );
  return [...inRooms.sort(), 'package-lock.json'];
}

let known;

/** Where the one file lies; its name tells one state of the source, and one checkout, from another. */
export function threadFile() {
  if (known === undefined) {
    const hash = createHash('sha256').update(root);
    for (const file of sourceFiles()) hash.update(`\n${file}\n`).update(readFileSync(join(root, file)));
    known = join(root, 'out', 'threads', `${hash.digest('hex').slice(0, 32)}.mjs`);
  }
  return known;
}

/** The one file; null where it was not made since the source changed: then the source itself is read, which takes seconds longer. */
export const threadCode = () => (existsSync(threadFile()) ? threadFile() : null);
