// Runs the long checks: each prove/*.ts counts what passed and failed. `npm run prove -- NAME ...` picks some. Ends 1 on any failure.
import { namedModules } from './named-modules.mjs';

const REPORT_EVERY_MS = 5000;

/** Progress on stderr, at most every few seconds; never asks to stop. */
function progress(name) {
  let last = 0;
  return (done, total) => {
    const now = performance.now();
    if (now - last > REPORT_EVERY_MS || done === total) {
      last = now;
      process.stderr.write(`  ${name}: ${done} of ${total}\n`);
    }
    return true;
  };
}

let failedInAll = 0;
let passedInAll = 0;
for (const proof of await namedModules('prove', process.argv.slice(2))) {
  process.stdout.write(`\n${proof.title}  [${proof.name}]\n`);
  const from = performance.now();
  const { passed, failed, lines } = await proof.run(progress(proof.name));
  for (const line of lines) process.stdout.write(`  ${line}\n`);
  process.stdout.write(`  ${passed} passed, ${failed} failed, ${((performance.now() - from) / 1000).toFixed(1)} s\n`);
  passedInAll += passed;
  failedInAll += failed;
}
process.stdout.write(`\n${passedInAll} passed, ${failedInAll} failed\n`);
process.exit(failedInAll > 0 ? 1 : 0);
