import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));

interface Cruise {
  readonly summary: {
    readonly violations: readonly { readonly rule: { readonly name: string }; readonly from: string }[];
  };
}

/** The dependency cruiser's own JSON; its exit code is not read, so that a violation shows by name. */
function cruised(folder: string): Cruise {
  const args = [
    join(root, 'node_modules/dependency-cruiser/bin/dependency-cruise.mjs'),
    'src',
    '--config',
    '.dependency-cruiser.cjs',
    '--output-type',
    'json',
  ];
  const text = execFileSync(process.execPath, args, { cwd: folder, encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 });
  return JSON.parse(text) as Cruise;
}

const told = (cruise: Cruise) => cruise.summary.violations.map((row) => `${row.rule.name}: ${row.from}`);

/** That they hold is a check of its own, before the tests (scripts/test.mjs). */
describe('boundaries of the rooms', () => {
  it('stand in one order, here and in ARCHITECTURE.md', () => {
    const config = readFileSync(join(root, '.dependency-cruiser.cjs'), 'utf8');
    const [core, edges] = [/const core =\s+'([^']+)'/, /const edges =\s+'([^']+)'/].map(
      (pattern) => pattern.exec(config)?.[1],
    );
    const map = readFileSync(join(root, 'ARCHITECTURE.md'), 'utf8');
    const mapped = [...map.matchAll(/^\| `([a-z]+)` \|/gm)].map((row) => row[1]).join(' ');
    expect(mapped).toBe(`${core} ${edges}`);
  });
});

describe('a broken boundary', () => {
  const folder = mkdtempSync(join(tmpdir(), 'fairlead-boundaries-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const write = (file: string, text: string) => {
    mkdirSync(dirname(join(folder, file)), { recursive: true });
    writeFileSync(join(folder, file), text);
  };

  it('is told by the name of its rule', () => {
    for (const file of ['package.json', 'tsconfig.json', '.dependency-cruiser.cjs'])
      cpSync(join(root, file), join(folder, file));
    symlinkSync(join(root, 'node_modules'), join(folder, 'node_modules'), 'dir');
    write('src/geometry/index.ts', "export { vec } from './vec.ts';\n");
    write('src/geometry/vec.ts', 'export const vec = 1;\n');
    write('src/lines/index.ts', 'export const lines = 1;\n');
    write('src/car/right.ts', "import { lines } from '#lines';\nexport const right = lines;\n");
    write('src/car/back-door.ts', "import { vec } from '../geometry/vec.ts';\nexport const back = vec;\n");
    write('src/car/dots.ts', "import { vec } from '../geometry/index.ts';\nexport const dots = vec;\n");
    write('src/car/node.ts', "import { readFileSync } from 'node:fs';\nexport const node = readFileSync;\n");
    write('src/car/library.ts', "import { Vector3 } from 'three';\nexport const library = Vector3;\n");
    write('src/car/round.ts', "import { trip } from './trip.ts';\nexport const round = trip;\n");
    write('src/car/trip.ts', "import { round } from './round.ts';\nexport const trip = round;\n");
    write('src/car/deep.ts', "import { vec } from '#geometry/vec';\nexport const deep = vec;\n");
    write('src/utils/stray.ts', 'export const stray = 1;\n');
    expect(told(cruised(folder)).sort()).toEqual([
      'core-libraries: src/car/library.ts',
      'core-without-node: src/car/node.ts',
      'front-door-by-its-name: src/car/dots.ts',
      'front-door-only: src/car/back-door.ts',
      'known-room-alone: src/utils/stray.ts',
      'leftward-only-car: src/car/right.ts',
      'no-cycle: src/car/round.ts',
      'resolves: src/car/deep.ts',
    ]);
  });
});
