import { stat } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { CommandFault } from './command-fault.ts';
import { quoted } from './quoted.ts';

/** Looked at before the work begins: a folder, or a name in one that is there. */
export async function outFolder(wanted: string | undefined, command: string): Promise<string> {
  if (wanted === undefined || wanted === '')
    throw new CommandFault([`${command}: --out is missing; allowed: --out FOLDER`]);
  const found = await stat(wanted).catch(() => undefined);
  if (found !== undefined && !found.isDirectory())
    throw new CommandFault([`--out: ${quoted(wanted)} is a file; allowed: a folder`]);
  const above = await stat(dirname(resolve(wanted))).catch(() => undefined);
  if (above?.isDirectory() !== true)
    throw new CommandFault([
      `--out: ${quoted(wanted)} lies in a folder that is not there; allowed: a folder, or a new name in one`,
    ]);
  return wanted;
}
