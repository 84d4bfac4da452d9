#!/usr/bin/env node
// Starts the command line: sets the checkout up if it must, lets Node read TypeScript, hands over to src/cli/main.ts.
import { setUp } from '../scripts/set-up.mjs';

const DONE = 0;
const INTERNAL_FAULT = 3;
const INTERRUPTED = 130;

process.on('SIGINT', () => process.exit(INTERRUPTED));

/** A reader that closes early (`fairlead snags CAR | head`) is no fault. */
process.stdout.on('error', (fault) => process.exit(fault.code === 'EPIPE' ? DONE : INTERNAL_FAULT));

function endWithFault(fault) {
  const text = fault instanceof Error ? fault.message : String(fault);
  const shown = process.env.FAIRLEAD_DEBUG && fault instanceof Error ? fault.stack : text.split('\n')[0];
  process.stderr.write(`fairlead: internal fault: ${shown}\n`);
  process.exit(INTERNAL_FAULT);
}

process.on('uncaughtException', endWithFault);
process.on('unhandledRejection', endWithFault);

const isInstalled = () => {
  try {
    import.meta.resolve('tsx/esm/api');
    return true;
  } catch {
    return false;
  }
};

try {
  if (!isInstalled()) setUp();
  const { register } = await import('tsx/esm/api');
  register();
  const { main } = await import('../src/cli/main.ts');
  const code = await main(process.argv.slice(2));
  process.exitCode = code;
  // Ends when the last byte has left, even if a worker or a socket still holds the loop open.
  process.stdout.write('', () => process.stderr.write('', () => process.exit(code)));
} catch (fault) {
  endWithFault(fault);
}
