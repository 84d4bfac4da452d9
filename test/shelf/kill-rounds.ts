import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { carText } from '#car';
import { openShelf, type Shelf } from '#shelf';
import Database from 'libsql';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { oneFileOf } from '../../scripts/build-threads.mjs';
import { systemNeed } from '../../scripts/system-needs.mjs';

export interface KillTally {
  kills: number;
  /** Changes, undos and redos, points and scans that were told as kept. */
  told: number;
  readonly faults: string[];
}

const root = fileURLToPath(new URL('../..', import.meta.url));
/** The stream as one file: it begins in a fraction of a second, not three, which is most of what a kill costs. */
let stream: Promise<string> | undefined;

async function streamMade(): Promise<string> {
  const folder = join(root, 'out', `kills-${process.pid}`);
  await oneFileOf('test/shelf/edit-stream.ts', folder, 'edit-stream.mjs');
  return join(folder, 'edit-stream.mjs');
}

/** Takes that file away again. */
export async function endKills(): Promise<void> {
  if (stream !== undefined) rmSync(dirname(await stream), { recursive: true, force: true });
  stream = undefined;
}

/** Killed after so many things were told as kept, and then at any moment of the next one. */
const MOST_TOLD = 12;
const LONGEST_MS = 25;

/**
 * Kills a program that keeps a stream of edits, at seeded moments, again and again on the same shelf. After each kill the shelf is
 * opened and everything that was told as kept is looked for in it.
 */
export async function killRounds(seed: number, kills: number, tick: () => void = () => undefined): Promise<KillTally> {
  const folder = mkdtempSync(join(tmpdir(), 'fairlead-kills-'));
  const generator = xoroshiro128plus(seed);
  const tally: KillTally = { kills: 0, told: 0, faults: [] };
  const texts = new Map<number, string>();
  const points = new Map<number, string>();
  const scans = new Map<string, string>();
  try {
    for (let round = 0; round < kills; round++, tick()) {
      const [told, ms] = [uniformInt(generator, 0, MOST_TOLD), uniformInt(generator, 0, LONGEST_MS)];
      const lines = await killedAfter(folder, seed * 1000 + round, told, ms);
      tally.kills++;
      for (const line of lines) {
        const [word, a = '', ...rest] = line.split(' ');
        if (word === 'kept') texts.set(Number(a), rest[0]!);
        if (word === 'point') points.set(Number(a), rest.join(' '));
        if (word === 'scan') scans.set(a, rest[0]!);
        if (word !== 'open') tally.told++;
      }
      for (const fault of await faultsAfter(folder, { texts, points, scans }))
        tally.faults.push(`seed ${seed}, kill ${round + 1}: ${fault}`);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return tally;
}

/** The whole lines a stream printed before it was killed: so many after its shelf was open, and some time more. */
async function killedAfter(
  folder: string,
  seed: number,
  toldBefore: number,
  afterMs: number,
): Promise<readonly string[]> {
  const child = spawn(process.execPath, [await (stream ??= streamMade()), folder, String(seed)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let text = '';
  const ended = new Promise<void>((done) => child.on('close', () => done()));
  await new Promise<void>((enough, failed) => {
    child.stdout.on('data', (piece: Buffer) => {
      text += piece.toString();
      if (text.split('\n').length > toldBefore + 1) enough();
    });
    child.on('error', failed);
    void ended.then(() => failed(new Error('the stream ended by itself')));
  });
  await setTimeout(afterMs);
  kill(child);
  await ended;
  return text.slice(0, text.lastIndexOf('\n')).split('\n');
}

function kill(child: ChildProcess): void {
  if (!child.kill('SIGKILL')) throw new Error('the stream was gone before it was killed');
}

interface Told {
  readonly texts: ReadonlyMap<number, string>;
  readonly points: ReadonlyMap<number, string>;
  readonly scans: ReadonlyMap<string, string>;
}

/** What was told as kept and is not there, or is not whole. */
async function faultsAfter(folder: string, told: Told): Promise<readonly string[]> {
  const faults: string[] = [];
  const integrity = integrityOf(join(folder, 'shelf.db'));
  if (integrity !== 'ok') faults.push(`integrity check: ${integrity}`);
  const shelf = await openShelf(folder);
  try {
    faults.push(...(await missing(shelf, told)));
  } catch (error) {
    faults.push(`thrown: ${String(error)}`);
  }
  await shelf.close();
  return faults;
}

/** What SQLite says of a file just as the kill left it: Python's own, where there is one. */
function integrityOf(file: string): string {
  if (systemNeed('python3').isMet) {
    const check =
      "import sqlite3,sys; print(sqlite3.connect(sys.argv[1]).execute('PRAGMA integrity_check').fetchone()[0])";
    return execFileSync('/usr/bin/python3', ['-c', check, file], { encoding: 'utf8' }).trim();
  }
  const db = new Database(file);
  const row = db.prepare('PRAGMA integrity_check').get() as { readonly integrity_check: string };
  db.close();
  return row.integrity_check;
}

async function missing(shelf: Shelf, { texts, points, scans }: Told): Promise<readonly string[]> {
  const faults: string[] = [];
  const newest = await shelf.openCar('killed');
  const last = Math.max(1, ...texts.keys());
  if (newest.revision < last || newest.revision > last + 1)
    faults.push(`revision ${newest.revision}, ${last} was the last told`);
  for (const [revision, hash] of [...texts].slice(-3)) {
    const text = carText(await shelf.carAt('killed', revision));
    if (createHash('sha256').update(text).digest('hex') !== hash) faults.push(`revision ${revision} is another car`);
  }
  const steps = await shelf.history('killed', newest.revision + 1, 1000);
  const revisions = new Set(steps.map((step) => step.revision));
  for (const revision of [...texts.keys()].slice(-900))
    if (!revisions.has(revision)) faults.push(`no step ${revision}`);
  const named = new Map((await shelf.points('killed')).map((step) => [step.revision, step.point]));
  for (const [revision, name] of points) if (!named.has(revision)) faults.push(`no point ${revision} ${name}`);
  for (const file of scans.keys()) await shelf.scan('killed', file);
  return faults;
}
