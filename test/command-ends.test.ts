import { type ChildProcess, spawn } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { root } from './source-files.ts';

const start = (...words: readonly string[]): ChildProcess =>
  spawn(process.execPath, [join(root, 'bin/fairlead.mjs'), ...words], { cwd: root });

function ended(child: ChildProcess): Promise<{ code: number | null; out: string; err: string }> {
  const said = { out: '', err: '' };
  child.stdout?.on('data', (bytes) => (said.out += String(bytes)));
  child.stderr?.on('data', (bytes) => (said.err += String(bytes)));
  return new Promise((done) => child.on('close', (code) => done({ code, ...said })));
}

describe('the program as it is started', () => {
  it.skipIf(process.platform === 'win32')(
    'ends with 130 and says no half answer when it is interrupted while it plans',
    async () => {
      const child = start('start', 'demo/fellside.json');
      const over = ended(child);
      // Its first word on stderr is told while lines are being worked out.
      await new Promise<void>((done) => child.stderr?.once('data', () => done()));
      child.kill('SIGINT');
      expect(await over).toMatchObject({ code: 130, out: '' });
    },
  );

  it('says a wrong word in one line and ends with 2', async () => {
    const { code, out, err } = await ended(start('sangs', 'demo/fellside.json'));
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(/^no command "sangs"; nearest: snags; allowed: [a-z ]+\n$/);
  });

  it('ends with 0 when nobody reads on', async () => {
    const child = start('schema');
    const over = ended(child);
    child.stdout?.destroy();
    expect(await over).toMatchObject({ code: 0, err: '' });
  });
});
