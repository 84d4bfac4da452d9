// Brings node_modules to what package-lock.json says, once, and only when it differs. No dependencies: it runs on a bare clone.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const stampFile = join(root, 'node_modules', '.fairlead-stamp.json');
const lockDir = join(root, '.set-up.lock');
const ownerFile = join(lockDir, 'owner.json');

/** A lock without an owner is one whose holder died between making it and signing it. */
const UNSIGNED_LOCK_MS = 30_000;
const POLL_MS = 250;

const readJson = (file) => {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return undefined;
  }
};

function wantedStamp() {
  const hash = createHash('sha256');
  for (const name of ['package.json', 'package-lock.json']) hash.update(readFileSync(join(root, name)));
  return { files: hash.digest('hex'), abi: process.versions.modules, platform: `${process.platform}-${process.arch}` };
}

/** True when a finished install stands in node_modules that has exactly the locked versions and what package.json asks for. */
function installMatchesLock() {
  const wanted = readJson(join(root, 'package-lock.json'))?.packages;
  const present = readJson(join(root, 'node_modules', '.package-lock.json'))?.packages;
  if (!wanted || !present) return false;
  const asked = readJson(join(root, 'package.json'));
  for (const group of ['dependencies', 'devDependencies']) {
    if (JSON.stringify(asked?.[group] ?? {}) !== JSON.stringify(wanted['']?.[group] ?? {})) return false;
  }
  for (const [path, entry] of Object.entries(wanted)) {
    if (path === '' || (entry.optional && !present[path])) continue;
    if (present[path]?.version !== entry.version) return false;
  }
  return Object.keys(present).every((path) => path in wanted);
}

function isUpToDate(wanted) {
  const stamp = readJson(stampFile);
  if (!stamp) return false;
  return stamp.files === wanted.files && stamp.abi === wanted.abi && stamp.platform === wanted.platform;
}

const isAlive = (pid) => {
  try {
    process.kill(pid, 0);
    return true;
  } catch (fault) {
    return fault.code === 'EPERM';
  }
};

function staleOwner() {
  const owner = readJson(ownerFile);
  if (owner) return owner.host === hostname() && !isAlive(owner.pid) ? `${owner.pid}` : undefined;
  try {
    return Date.now() - statSync(lockDir).mtimeMs > UNSIGNED_LOCK_MS ? 'unsigned' : undefined;
  } catch {
    return undefined;
  }
}

const sleep = (ms) => Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);

/** Takes the lock; mkdir is atomic, so exactly one process gets it. A dead holder's lock is renamed away, which one waiter wins. */
function takeLock() {
  let told = false;
  for (;;) {
    try {
      mkdirSync(lockDir);
      writeFileSync(ownerFile, JSON.stringify({ pid: process.pid, host: hostname() }));
      return;
    } catch (fault) {
      if (fault.code !== 'EEXIST') throw fault;
    }
    const stale = staleOwner();
    if (stale !== undefined) {
      const aside = `${lockDir}.stale-${stale}-${process.pid}`;
      try {
        renameSync(lockDir, aside);
      } catch {
        continue;
      }
      rmSync(aside, { recursive: true, force: true });
      continue;
    }
    if (!told) process.stderr.write('set-up: another process is installing; waiting for it\n');
    told = true;
    sleep(POLL_MS);
  }
}

/** What npm runs as, whether we were started by npm, by npx or by hand. */
function runNpm(args) {
  const script = process.env.npm_execpath;
  const viaScript = script && /npm-cli\.[cm]?js$/.test(script);
  const [command, before] = viaScript
    ? [process.execPath, [script]]
    : [process.platform === 'win32' ? 'npm.cmd' : 'npm', []];
  // npm's own words go to stderr: stdout belongs to the command that asked for the set-up.
  const done = spawnSync(command, [...before, ...args], {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32' && !viaScript,
    env: { ...process.env, NODE_ENV: '' },
  });
  if (done.error)
    throw new Error(`set-up: npm could not be started (${done.error.message}); Node >= 20.19 with npm is needed`);
  if (done.status !== 0)
    throw new Error(
      `set-up: "npm ${args.join(' ')}" ended with ${done.status ?? done.signal}; its message stands above`,
    );
}

/** `npx fairlead` looks in node_modules/.bin, where npm puts no link to the package itself. */
function linkCommand() {
  const bin = join(root, 'node_modules', '.bin');
  const link = join(bin, 'fairlead');
  if (existsSync(link)) return;
  mkdirSync(bin, { recursive: true });
  if (process.platform === 'win32') {
    writeFileSync(link, '#!/bin/sh\nexec node "$(dirname "$0")/../../bin/fairlead.mjs" "$@"\n');
    writeFileSync(`${link}.cmd`, '@node "%~dp0..\\..\\bin\\fairlead.mjs" %*\r\n');
    return;
  }
  rmSync(link, { force: true });
  symlinkSync(join('..', '..', 'bin', 'fairlead.mjs'), link);
}

export function setUp() {
  const wanted = wantedStamp();
  if (!isUpToDate(wanted)) {
    takeLock();
    try {
      const stamp = readJson(stampFile);
      const sameMachine = !stamp || (stamp.abi === wanted.abi && stamp.platform === wanted.platform);
      if (!isUpToDate(wanted)) {
        if (!(sameMachine && installMatchesLock())) {
          process.stderr.write('set-up: installing the locked packages\n');
          runNpm(['ci', '--include=dev', '--no-audit', '--no-fund']);
        }
        writeFileSync(stampFile, `${JSON.stringify(wanted)}\n`);
      }
    } finally {
      rmSync(lockDir, { recursive: true, force: true });
    }
  }
  linkCommand();
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  try {
    setUp();
  } catch (fault) {
    process.stderr.write(`${fault.message}\n`);
    process.exit(3);
  }
}
