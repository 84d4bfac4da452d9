import { configDefaults, defineConfig } from 'vitest/config';
import { ownCache } from './test/own-cache.ts';

/** Rooms of pure functions: their test files share one set of loaded modules, which saves half a minute of loading. */
const pure = [
  'src/{units,sources,standards,geometry,car,panels,levers,bay,flow,heat,access,stock,rules,snags,book,paper}/**/*.test.ts',
];

export default defineConfig({
  test: {
    testTimeout: 60_000,
    pool: 'threads',
    maxWorkers: 2,
    env: { FAIRLEAD_CACHE: ownCache },
    globalSetup: './test/own-cache.ts',
    projects: [
      { extends: true, test: { name: 'pure', include: pure, isolate: false } },
      {
        extends: true,
        test: {
          name: 'whole',
          include: ['src/**/*.test.ts', 'test/**/*.test.ts'],
          exclude: [...configDefaults.exclude, ...pure],
        },
      },
    ],
  },
});
