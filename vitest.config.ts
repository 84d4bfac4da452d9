import { defineConfig } from 'vitest/config';
import { ownCache } from './test/own-cache.ts';

export default defineConfig({
  test: {
    include: ['src/**/*.test.ts', 'test/**/*.test.ts'],
    testTimeout: 60_000,
    pool: 'threads',
    maxWorkers: 2,
    env: { FAIRLEAD_CACHE: ownCache },
    globalSetup: './test/own-cache.ts',
  },
});
