// Runs every check, two at a time and the tests last, names each with its time, and closes with one plain count. Ends non-zero if anything failed.
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { systemNeed, systemNeeds } from './system-needs.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const resultFile = `${root}out/vitest.json`;
const mayNotSkip = process.env.FAIRLEAD_CI === '1';

const asked = process.argv.slice(2);
// All browser tests as one file, so that one browser runs at a time and the other thread has work meanwhile (vitest.config.ts).
if (asked.length === 0) process.env.FAIRLEAD_BROWSERS = 'in one file';

const bin = (name) => `${root}node_modules/.bin/${name}`;
const checks = [
  { name: 'types', command: [bin('tsc'), '-p', 'tsconfig.json'] },
  { name: 'types of the core, without Node and DOM', command: [bin('tsc'), '-p', 'tsconfig.core.json'] },
  { name: 'types of the screen', command: [bin('tsc'), '-p', 'tsconfig.web.json'] },
  {
    name: 'boundaries',
    command: [bin('depcruise'), 'src', '--config', '.dependency-cruiser.cjs', '--output-type', 'err'],
    // It passes just as well where it finds nothing to look at.
    says: /\([1-9]\d{3,} modules/,
  },
  { name: 'lint', command: [bin('oxlint'), '--deny-warnings'] },
  { name: 'format', command: [bin('biome'), 'format', '.'] },
  { name: 'dead code', command: [bin('knip'), '--no-progress'] },
];
const tests = {
  name: 'tests',
  command: [bin('vitest'), 'run', '--reporter=default', '--reporter=json', `--outputFile.json=${resultFile}`, ...asked],
};

const seconds = (from) => `${((performance.now() - from) / 1000).toFixed(1)} s`;

/** Runs one; what it says is shown as it comes, or in one piece at its end where others run beside it. */
async function passes({ name, command, says }, isAlone) {
  if (isAlone) process.stdout.write(`\n== ${name}\n`);
  const from = performance.now();
  const said = [];
  const end = await new Promise((done) => {
    const child = spawn(process.execPath, command, {
      cwd: root,
      stdio: isAlone ? 'inherit' : ['ignore', 'pipe', 'pipe'],
    });
    child.stdout?.on('data', (text) => said.push(text));
    child.stderr?.on('data', (text) => said.push(text));
    child.on('error', (fault) => done(fault.message));
    child.on('close', (code, signal) => done(code ?? signal));
  });
  const text = Buffer.concat(said).toString('utf8');
  const fault = end !== 0 ? end : says?.test(text) === false ? `it does not say ${says}` : null;
  if (!isAlone) process.stdout.write(`\n== ${name}\n${text}`);
  process.stdout.write(`== ${name}: ${fault === null ? 'passed' : `FAILED (${fault})`}, ${seconds(from)}\n`);
  return fault === null;
}

const AT_ONCE = 2;
const failedStages = [];

async function runAll() {
  const left = [...checks];
  const lane = async () => {
    for (let one = left.shift(); one !== undefined; one = left.shift())
      if (!(await passes(one, false))) failedStages.push(one.name);
  };
  await Promise.all(Array.from({ length: AT_ONCE }, lane));
  if (!(await passes(tests, true))) failedStages.push(tests.name);
}

/** What the test runner itself counted; nothing when it died before writing. */
function testCounts() {
  if (!existsSync(resultFile)) return { passed: 0, failed: 1, skipped: 0 };
  const report = JSON.parse(readFileSync(resultFile, 'utf8'));
  const brokenFiles = report.testResults.filter(
    (file) => file.status === 'failed' && file.assertionResults.length === 0,
  ).length;
  return {
    passed: report.numPassedTests,
    failed: report.numFailedTests + brokenFiles,
    skipped: report.numPendingTests + report.numTodoTests,
  };
}

mkdirSync(`${root}out`, { recursive: true });
rmSync(resultFile, { force: true });

const from = performance.now();
await runAll();
const counts = testCounts();
const unmet = systemNeeds.map((need) => systemNeed(need.debianPackage)).filter((need) => !need.isMet);

process.stdout.write('\n');
for (const need of unmet)
  process.stdout.write(
    `not run: ${need.check} needs Debian package ${need.debianPackage} (apt-get install ${need.debianPackage})\n`,
  );
if (failedStages.length > 0) process.stdout.write(`failed: ${failedStages.join(', ')}\n`);
const notRun = mayNotSkip && (unmet.length > 0 || counts.skipped > 0);
if (notRun) process.stdout.write('failed: a check was not run, and here every check must run\n');
process.stdout.write(`all checks: ${seconds(from)}\n`);
process.stdout.write(`${counts.passed} passed, ${counts.failed} failed, ${counts.skipped} skipped\n`);
process.exit(failedStages.length > 0 || counts.failed > 0 || notRun ? 1 : 0);
