import cliProgress from 'cli-progress';
import type { Terminal } from './terminal.ts';

/** Tells how far a long piece of work is. */
export interface Progress {
  readonly at: (done: number, total: number) => void;
  readonly end: () => void;
}

/** A bar on a terminal; where there is none, a line at every tenth, or nothing if `isQuiet`. All on stderr. */
export function progress(title: string, terminal: Terminal, isQuiet: boolean): Progress {
  if (terminal.errIsTerminal) return bar(title);
  if (isQuiet) return { at: () => undefined, end: () => undefined };
  return lines(title, terminal);
}

function bar(title: string): Progress {
  const drawn = new cliProgress.SingleBar({
    format: `${title} {bar} {value} of {total} lines`,
    barCompleteChar: '━',
    barIncompleteChar: '·',
    barsize: 30,
    stream: process.stderr,
    hideCursor: false,
    clearOnComplete: true,
    // The planner may be busy for long in one line: draw whenever told.
    noTTYOutput: false,
    synchronousUpdate: true,
    fps: 20,
  });
  let isStarted = false;
  return {
    at: (done, total) => {
      if (!isStarted) drawn.start(total, done);
      isStarted = true;
      drawn.update(done);
    },
    end: () => {
      if (isStarted) drawn.stop();
    },
  };
}

const STEPS = 10;

function lines(title: string, terminal: Terminal): Progress {
  let told = -1;
  return {
    at: (done, total) => {
      const step = total === 0 ? STEPS : Math.floor((STEPS * done) / total);
      if (step <= told) return;
      told = step;
      terminal.err(`${title}: ${done} of ${total} lines\n`);
    },
    end: () => undefined,
  };
}
