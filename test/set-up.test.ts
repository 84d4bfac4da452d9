import { execFile, spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { root } from './source-files.ts';

const run = promisify(execFile);

/** Stands in for npm: notes that it was called, takes a while, and leaves behind what `npm ci` leaves. */
const FAKE_NPM = `
const { appendFileSync, mkdirSync, writeFileSync } = require('node:fs');
appendFileSync('calls.txt', process.argv.slice(2).join(' ') + '\\n');
if (process.env.FAKE_NPM_FAILS) process.exit(7);
setTimeout(() => {
  mkdirSync('node_modules', { recursive: true });
  writeFileSync('node_modules/.package-lock.json', JSON.stringify({ packages: { 'node_modules/a': { version: '1.0.0' } } }));
}, 200);
`;

describe('set-up', () => {
  let folder = '';
  const file = (name: string) => join(folder, name);
  const env = (more: object = {}) => ({ ...process.env, npm_execpath: file('npm-cli.js'), ...more });
  const setUp = () => run(process.execPath, [file('scripts/set-up.mjs')], { env: env() });
  const calls = () => (existsSync(file('calls.txt')) ? readFileSync(file('calls.txt'), 'utf8').trim().split('\n') : []);
  const lock = (version: string) =>
    writeFileSync(
      file('package-lock.json'),
      JSON.stringify({ packages: { '': { dependencies: { a: version } }, 'node_modules/a': { version } } }),
    );

  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'fairlead-set-up-'));
    mkdirSync(file('scripts'));
    mkdirSync(file('bin'));
    cpSync(join(root, 'scripts/set-up.mjs'), file('scripts/set-up.mjs'));
    writeFileSync(file('bin/fairlead.mjs'), '');
    writeFileSync(file('npm-cli.js'), FAKE_NPM);
    writeFileSync(file('package.json'), JSON.stringify({ dependencies: { a: '1.0.0' } }));
    lock('1.0.0');
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  it('installs once, also when three start together, and not again', async () => {
    await Promise.all([setUp(), setUp(), setUp()]);
    await setUp();
    expect(calls()).toEqual(['ci --include=dev --no-audit --no-fund']);
    expect(existsSync(file('node_modules/.bin/fairlead'))).toBe(true);
    expect(existsSync(file('.set-up.lock'))).toBe(false);
  });

  it('installs again when what is locked is no longer what stands there', async () => {
    await setUp();
    lock('1.0.1');
    await setUp();
    expect(calls().length).toBe(2);
  });

  it('takes an install made by hand as it is, and only notes it', async () => {
    mkdirSync(file('node_modules'));
    writeFileSync(
      file('node_modules/.package-lock.json'),
      JSON.stringify({ packages: { 'node_modules/a': { version: '1.0.0' } } }),
    );
    await setUp();
    expect(calls()).toEqual([]);
  });

  it('goes on over the lock of a process that has died', async () => {
    const dead = spawnSync(process.execPath, ['-e', '']).pid;
    mkdirSync(file('.set-up.lock'));
    writeFileSync(file('.set-up.lock/owner.json'), JSON.stringify({ pid: dead, host: hostname() }));
    await Promise.all([setUp(), setUp()]);
    expect(calls().length).toBe(1);
  });

  it('says in one line that npm failed, ends with 3 and leaves no lock', () => {
    const done = spawnSync(process.execPath, [file('scripts/set-up.mjs')], {
      env: env({ FAKE_NPM_FAILS: '1' }),
      encoding: 'utf8',
    });
    expect(done.status).toBe(3);
    expect(done.stdout).toBe('');
    expect(done.stderr.trim().split('\n').at(-1)).toMatch(/^set-up: "npm ci .*" ended with 7/);
    expect(existsSync(file('.set-up.lock'))).toBe(false);
  });
});
