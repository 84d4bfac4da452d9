import { existsSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** Where plans made in tests are kept: never in the developer's own folder, and not from run to run. */
export const ownCache = join(tmpdir(), `fairlead-test-cache-${process.pid}`);

/** Where any test, server, thread or child process that asks for another machine is noted, and what notes it. */
export const askedFile = join(tmpdir(), `fairlead-test-asked-${process.pid}`);
export const noteOutside = fileURLToPath(new URL('./outside/note-outside.cjs', import.meta.url));

/** @throws Error where another machine was asked: nothing of this program ever does */
export const teardown = (): void => {
  rmSync(ownCache, { recursive: true, force: true });
  if (!existsSync(askedFile)) return;
  const asked = readFileSync(askedFile, 'utf8').trim();
  rmSync(askedFile);
  // The runner tells of a fault here, and ends with 0 all the same.
  process.exitCode = 1;
  throw new Error(`asked outside of this machine:\n${asked}`);
};
