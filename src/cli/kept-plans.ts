import { isAbsolute, join } from 'node:path';
import { KeptAnswers } from '#crew';
import type { Asked, Option } from './command.ts';
import type { Terminal } from './terminal.ts';

export const freshOption: Option = {
  name: 'fresh',
  about: 'plan anew, whatever is kept from before of the same car',
};

/**
 * Where plans are kept from one run to the next: $FAIRLEAD_CACHE, else the folder `fairlead` in the user's cache folder
 * ($XDG_CACHE_HOME, else ~/.cache). None where no folder is known.
 */
export function keptPlans(asked: Asked, terminal: Terminal): KeptAnswers | undefined {
  const folder = keptFolder(terminal.env);
  return folder === undefined ? undefined : new KeptAnswers(folder, { isFresh: asked.has('fresh') });
}

export function keptFolder(env: Terminal['env']): string | undefined {
  const named = (name: string): string | undefined => (env[name] === '' ? undefined : env[name]);
  const own = named('FAIRLEAD_CACHE');
  if (own !== undefined) return own;
  // By its rules a path that is not absolute does not count there.
  const [cache, home] = [named('XDG_CACHE_HOME'), named('HOME') ?? named('USERPROFILE')];
  if (cache !== undefined && isAbsolute(cache)) return join(cache, 'fairlead');
  return home !== undefined && isAbsolute(home) ? join(home, '.cache', 'fairlead') : undefined;
}

/** Says that a plan was not worked out now, and that one could not be kept. */
export function tellKept(what: string, keptAt: Date | undefined, kept: KeptAnswers | undefined, terminal: Terminal) {
  if (keptAt !== undefined)
    terminal.err(
      `${what}: the plan kept of ${dayAndTime(keptAt)} is used, nothing it rests on has changed; --fresh plans anew\n`,
    );
  if (kept?.fault !== undefined) terminal.err(`${kept.fault}\n`);
}

/** "2026-07-14 22:40", by the clock of the place. */
function dayAndTime(at: Date): string {
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())} ${two(at.getHours())}:${two(at.getMinutes())}`;
}
