import { configDefaults, defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';
import { askedFile, noteOutside, ownCache } from './test/around-all.ts';

/** Rooms of pure functions: their test files share one set of loaded modules, which saves half a minute of loading. */
const pure = [
  'src/{units,sources,standards,geometry,car,panels,levers,bay,flow,heat,access,stock,rules,snags,book,paper}/**/*.test.ts',
];

/** One browser at a time: two of them and their servers on two processors are too slow to be judged. */
const eachBrowser = 'test/*.browser.test.ts';
const browsersInTurn = 'test/browser-in-turn.test.ts';
/** With all else they are one file, on one of the threads; by themselves one file after the other. */
const isBesideAll = process.env['FAIRLEAD_BROWSERS'] === 'in one file';

/** The longest file begins first, so that no thread waits for it at the end. */
class BrowsersFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const isFirst = ({ moduleId }: TestSpecification): boolean => moduleId.endsWith(browsersInTurn);
    return [...sorted.filter(isFirst), ...sorted.filter((file) => !isFirst(file))];
  }
}

export default defineConfig({
  test: {
    testTimeout: 60_000,
    pool: 'threads',
    maxWorkers: 2,
    // Threads of the tests and theirs get it by the flag, child processes by the environment.
    execArgv: ['--require', noteOutside],
    env: { FAIRLEAD_CACHE: ownCache, FAIRLEAD_ASKED: askedFile, NODE_OPTIONS: `--require "${noteOutside}"` },
    globalSetup: './test/around-all.ts',
    sequence: { sequencer: BrowsersFirst },
    projects: [
      { extends: true, test: { name: 'pure', include: pure, isolate: false } },
      {
        extends: true,
        test: isBesideAll
          ? { name: 'browser', include: [browsersInTurn] }
          : { name: 'browser', include: [eachBrowser], fileParallelism: false },
      },
      {
        extends: true,
        test: {
          name: 'whole',
          include: ['src/**/*.test.ts', 'test/**/*.test.ts'],
          exclude: [...configDefaults.exclude, ...pure, eachBrowser, browsersInTurn],
        },
      },
    ],
  },
});
