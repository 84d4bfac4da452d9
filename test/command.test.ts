import { type ChildProcess, spawn } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { root } from './source-files.ts';

/** Stands in for the commands, so that each end of the program can be had at will. */
const MAIN = `
export async function main(args: string[]): Promise<number> {
  const [what = ''] = args;
  if (what === 'code') return Number(args[1]);
  if (what === 'throw') throw new Error('the first line\\nthe second line');
  if (what === 'later') setTimeout(() => { throw new Error('thrown later'); }, 10);
  if (what === 'reject') void Promise.reject(new Error('nobody waited'));
  if (what === 'much') process.stdout.write('x'.repeat(4_000_000) + '\\nend\\n');
  if (what === 'wait') process.stdout.write('waiting\\n');
  if (what === 'held') setInterval(() => {}, 1000);
  if (what === 'held' || what === 'much') return 0;
  return new Promise((done) => setTimeout(() => done(0), 60_000));
}
`;

interface End {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

describe('bin/fairlead.mjs', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'fairlead-command-'));
    for (const name of ['bin', 'scripts']) cpSync(join(root, name), join(folder, name), { recursive: true });
    writeFileSync(join(folder, 'package.json'), '{ "type": "module" }');
    mkdirSync(join(folder, 'src/cli'), { recursive: true });
    writeFileSync(join(folder, 'src/cli/main.ts'), MAIN);
    symlinkSync(join(root, 'node_modules'), join(folder, 'node_modules'), 'dir');
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const start = (args: readonly string[], more: object = {}) =>
    spawn(process.execPath, [join(folder, 'bin/fairlead.mjs'), ...args], {
      env: { ...process.env, FAIRLEAD_DEBUG: '', ...more },
    });

  function end(child: ChildProcess): Promise<End> {
    let [out, err] = ['', ''];
    child.stdout?.on('data', (bytes) => (out += String(bytes)));
    child.stderr?.on('data', (bytes) => (err += String(bytes)));
    return new Promise((done) => child.on('close', (code) => done({ code, out, err })));
  }

  it('ends with what the command gives', async () => {
    expect(await end(start(['code', '0']))).toEqual({ code: 0, out: '', err: '' });
    expect((await end(start(['code', '2']))).code).toBe(2);
  });

  it('tells an internal fault in one line and ends with 3', async () => {
    expect(await end(start(['throw']))).toEqual({
      code: 3,
      out: '',
      err: 'fairlead: internal fault: the first line\n',
    });
    expect(await end(start(['later']))).toEqual({ code: 3, out: '', err: 'fairlead: internal fault: thrown later\n' });
    expect(await end(start(['reject']))).toEqual({
      code: 3,
      out: '',
      err: 'fairlead: internal fault: nobody waited\n',
    });
    expect((await end(start(['throw'], { FAIRLEAD_DEBUG: '1' }))).err).toMatch(/\n\s+at /);
  });

  it('writes all it has to say, and does not hang on what is still open', async () => {
    const { code, out } = await end(start(['much']));
    expect([code, out.length, out.endsWith('end\n')]).toEqual([0, 4_000_005, true]);
    expect((await end(start(['held']))).code).toBe(0);
  });

  it.skipIf(process.platform === 'win32')('ends with 130 when interrupted', async () => {
    const child = start(['wait']);
    const over = end(child);
    await new Promise<void>((done) => child.stdout?.once('data', () => done()));
    child.kill('SIGINT');
    expect((await over).code).toBe(130);
  });

  it('ends with 0 when nobody reads on', async () => {
    const child = start(['much']);
    const over = end(child);
    child.stdout?.destroy();
    expect((await over).code).toBe(0);
  });
});
