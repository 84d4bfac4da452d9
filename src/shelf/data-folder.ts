import { homedir } from 'node:os';
import { join } from 'node:path';

/** The folder the shelf is kept in: $FAIRLEAD_DATA, else fairlead in $XDG_DATA_HOME, else ~/.local/share/fairlead. */
export function dataFolder(environment: Readonly<Record<string, string | undefined>> = process.env): string {
  const own = environment['FAIRLEAD_DATA'];
  if (own !== undefined && own !== '') return own;
  const xdg = environment['XDG_DATA_HOME'];
  return join(xdg !== undefined && xdg !== '' ? xdg : join(homedir(), '.local', 'share'), 'fairlead');
}
