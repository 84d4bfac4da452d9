import { randomBytes } from 'node:crypto';
import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { realpath, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { CommandFault } from './command-fault.ts';
import { quoted } from './quoted.ts';

/** A place to write to, looked at before the work begins. */
export interface OutFile {
  readonly file: string;
  /** Puts the whole text or the bytes there, or leaves what stood there. */
  readonly write: (text: string | Uint8Array) => Promise<void>;
}

/** Checks that a file can be written: not a folder, not the input under another name, in a folder that is there. */
export async function outFile(file: string, input: string): Promise<OutFile> {
  const bad = (why: string): CommandFault =>
    new CommandFault([`--out: ${quoted(file)} ${why}; allowed: a file name in a folder that is there`]);
  if (file === '' || file.includes('\0') || /[\\/]$/u.test(file)) throw bad('is no file name');
  const folder = await stat(dirname(resolve(file))).catch(() => undefined);
  if (folder?.isDirectory() !== true) throw bad('lies in a folder that is not there');
  const standing = await stat(file).catch(() => undefined);
  if (standing?.isDirectory() === true) throw bad('is a folder');
  if (standing !== undefined && !standing.isFile()) throw bad('is not a plain file');
  if (standing !== undefined && resolve(file) !== resolve(input) && (await sameFile(file, input))) {
    throw bad(`is the car file ${quoted(input)} under another name`);
  }
  return { file, write: async (text) => written(file, text, standing?.mode) };
}

async function sameFile(a: string, b: string): Promise<boolean> {
  const [one, two] = await Promise.all([stat(a), stat(b)].map((found) => found.catch(() => undefined)));
  if (one !== undefined && two !== undefined && one.ino === two.ino && one.dev === two.dev) return true;
  const [left, right] = await Promise.all([realpath(a).catch(() => a), realpath(b).catch(() => b)]);
  return left === right;
}

/** All in one turn, so that an interrupt falls before or after it, never between. */
function written(file: string, text: string | Uint8Array, mode?: number): void {
  const beside = join(dirname(resolve(file)), `.${basename(file)}.${randomBytes(6).toString('hex')}.part`);
  try {
    const handle = openSync(beside, 'wx', mode ?? 0o666);
    try {
      writeFileSync(handle, text);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(beside, file);
  } catch (cause) {
    rmSync(beside, { force: true });
    const code = (cause as NodeJS.ErrnoException).code ?? 'unknown';
    throw new CommandFault([
      `--out: ${quoted(file)} cannot be written (${code}); allowed: a file name in a folder that may be written to`,
    ]);
  }
}

/** Writes a file whole or not at all. */
export const writeWhole = written;
