import { rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Where plans made in tests are kept: never in the developer's own folder, and not from run to run. */
export const ownCache = join(tmpdir(), `fairlead-test-cache-${process.pid}`);

export const teardown = (): void => rmSync(ownCache, { recursive: true, force: true });
