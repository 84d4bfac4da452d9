import { createHash } from 'node:crypto';
import { setImmediate } from 'node:timers/promises';
import { faultLine, readCar } from '#car';
import { type ArchiveFile, archivedFile, archiveFiles, refuse, shownName } from './car-archive.ts';
import { stepBack } from './document-log.ts';
import { carriesText, headFrom, topsAfter } from './documents.ts';
import { EXPORT_FORMAT, type History, historySchema } from './export-history.ts';
import { scanNames } from './exported-car.ts';
import { ShelfError } from './shelf-error.ts';
import { checkedName, isScanFile } from './shelf-names.ts';
import { type StandingCar, standingCar } from './standing-car.ts';
import type { StepRow, WholeDocument } from './store.ts';

export interface ImportedCar {
  /** As it was called where it comes from. */
  readonly id: string;
  whole(id: string): WholeDocument;
  /** The bytes of each scan by their hash, each checked already. */
  readonly scans: ReadonlyMap<string, () => Uint8Array>;
}

/**
 * An exported car, everything in it checked: the sums, the car, that every step of the history really leads back to the text it
 * claims, and each scan. Nothing but the edits is believed: what follows from them is worked out anew.
 *
 * @throws ShelfError `refused`, with the one line that says what stands in the way
 */
export async function importedCar(archive: Uint8Array): Promise<ImportedCar> {
  const files = archiveFiles(archive);
  const read = sumCheckedReader(archive, files);
  const newest = standingIn(read('car.json'));
  const history = historyIn(read('history.json'));
  const blobs = await checkedScans(history, files, read);
  const steps = await checkedSteps(history, newest);
  const { revision, atMs } = steps.at(-1)!;
  const { undoTop, redoTop } = topsOf(steps);
  const { points, scans } = history;
  for (const { name, revision: at } of points) {
    checkedName(name, 'name of a point');
    if (at > revision) refuse(`a point at revision ${at}`, `1 to ${revision}`);
  }
  if (new Set(points.map((point) => point.revision)).size < points.length) refuse('two points at one revision', 'one');
  const whole = (id: string): WholeDocument => ({
    document: { ...headFrom(newest, id), id, kind: 'car', revision, undoTop, redoTop, changedAtMs: atMs, away: null },
    steps,
    points,
    scans,
  });
  return { id: history.id, whole, scans: blobs };
}

type Reader = (name: string) => Uint8Array;

/** Reads files whose sum is the one in SHA256SUMS, and refuses a zip in which that list and the files are at odds. */
function sumCheckedReader(archive: Uint8Array, files: ReadonlyMap<string, ArchiveFile>): Reader {
  const unpack = (name: string): Uint8Array => {
    const file = files.get(name);
    if (file === undefined) refuse(`no ${shownName(name)}`, 'a car as Fairlead exports it');
    return archivedFile(archive, file);
  };
  const sums = new Map<string, string>();
  for (const line of textOf(unpack('SHA256SUMS'), 'SHA256SUMS').split('\n')) {
    const [, sum, name] = /^([0-9a-f]{64}) [ *](.+)$/.exec(line) ?? [];
    if (sum !== undefined && name !== undefined) sums.set(name, sum);
    else if (line !== '') refuse(`${shownName(line)} in SHA256SUMS`, 'a sum and a name on each line');
  }
  return (name) => {
    const bytes = unpack(name);
    if (hashOf(bytes) !== sums.get(name))
      refuse(`${shownName(name)} with another sum than in SHA256SUMS`, 'the same sum');
    return bytes;
  };
}

function standingIn(bytes: Uint8Array): StandingCar {
  const reading = readCar(textOf(bytes, 'car.json'));
  if (!reading.ok) throw new ShelfError('refused', `exported car: car.json: ${faultLine(reading.faults[0]!)}`);
  const standing = standingCar(reading.car);
  if ('car' in standing) return standing;
  throw new ShelfError('refused', `exported car: car.json: ${standing[0]}`);
}

function historyIn(bytes: Uint8Array): History {
  const value = parsed(textOf(bytes, 'history.json'));
  const format = (value as { fairleadHistory?: unknown } | null)?.fairleadHistory;
  if (typeof format === 'number' && format > EXPORT_FORMAT)
    refuse(`history.json of format ${format}, written by a newer Fairlead`, `up to ${EXPORT_FORMAT}`);
  const reading = historySchema.safeParse(value);
  if (reading.success) return reading.data;
  const { path, message } = reading.error.issues[0]!;
  return refuse(`history.json at ${path.join('.') || 'its beginning'}: ${message}`, 'a history as Fairlead exports it');
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    return refuse(`history.json that is no JSON (${(error as SyntaxError).message})`, 'whole JSON');
  }
}

/** Each step taken back from the newest, down to the first. */
async function checkedSteps(history: History, newest: StandingCar): Promise<readonly StepRow[]> {
  const tops = stackedSteps(history);
  const rows: StepRow[] = [];
  let standing = newest;
  for (const step of history.steps.toReversed()) {
    const { revision, kind, of, atMs, hash } = step;
    const text = standing.text;
    if (standing.hash !== hash) refuse(`step ${revision} with another car than its sum says`, 'the car that was kept');
    const under = tops.get(revision)!;
    const who = checkedName(step.who, 'who');
    const [edits, done, inverse] = [step.edits, step.done, step.inverse].map((list) => JSON.stringify(list));
    const row = { revision, kind, of, under, who, atMs, hash, edits: edits!, done: done!, inverse: inverse! };
    rows.unshift({ ...row, text: carriesText(revision) ? text : null });
    if (revision > 1) standing = backOrRefused(standing, rows[0]!);
    await setImmediate();
  }
  return rows;
}

function backOrRefused(standing: StandingCar, row: StepRow): StandingCar {
  try {
    return stepBack(standing, row, 'the car');
  } catch (error) {
    if (!(error instanceof ShelfError)) throw error;
    return refuse(error.message, 'steps that can be taken back');
  }
}

/** What lay under each step on its list; refuses steps that undo or redo what is not there to undo or redo. */
function stackedSteps(history: History): ReadonlyMap<number, number | null> {
  const under = new Map<number, number | null>();
  let tops: { undoTop: number | null; redoTop: number | null } = { undoTop: null, redoTop: null };
  history.steps.forEach(({ revision, kind, of }, i) => {
    if (revision !== i + 1 || (kind === 'put on the shelf') !== (i === 0))
      refuse(`step ${i + 1} as ${JSON.stringify(kind)}, revision ${revision}`, 'steps 1, 2, 3, ... from the first on');
    const top = kind === 'undo' ? tops.undoTop : kind === 'redo' ? tops.redoTop : null;
    const acts = kind === 'undo' || kind === 'redo';
    const isOdd = kind === 'gone back' ? !(of !== null && of < revision) : of !== top || (acts && top === null);
    if (isOdd) refuse(`step ${revision}, ${kind} of ${of}`, `of ${top ?? 'a step before it'}`);
    if (i === 0) return void under.set(revision, null);
    const after = topsAfter(tops, kind, revision, top === null ? null : (under.get(top) ?? null));
    under.set(revision, after.under);
    tops = after;
    return undefined;
  });
  return under;
}

function topsOf(steps: readonly StepRow[]) {
  let tops: { undoTop: number | null; redoTop: number | null } = { undoTop: null, redoTop: null };
  const under = new Map(steps.map((step) => [step.revision, step.under]));
  for (const { revision, kind, of } of steps)
    if (revision > 1) tops = topsAfter(tops, kind, revision, of === null ? null : (under.get(of) ?? null));
  return tops;
}

async function checkedScans(
  { scans }: History,
  files: ReadonlyMap<string, ArchiveFile>,
  read: Reader,
): Promise<ReadonlyMap<string, () => Uint8Array>> {
  const odd = scans.find((scan) => !isScanFile(scan.file));
  if (odd !== undefined) refuse(`a scan named ${shownName(odd.file)}`, 'a path such as scans/engine.stl');
  const names = scanNames(scans);
  const known = new Set(['SHA256SUMS', 'car.json', 'history.json', ...names.keys()]);
  for (const name of files.keys())
    if (!known.has(name)) refuse(`${shownName(name)}, which no history names`, 'the files of the car');
  const sizes = new Map(scans.map(({ hash, bytes }) => [hash, bytes]));
  const out = new Map<string, () => Uint8Array>();
  for (const [name, hash] of names) {
    const bytes = read(name);
    if (hashOf(bytes) !== hash || bytes.length !== sizes.get(hash))
      refuse(`${shownName(name)} with another sum or size than in history.json`, 'the scan that was kept');
    out.set(hash, () => read(name));
    await setImmediate();
  }
  return out;
}

function textOf(bytes: Uint8Array, name: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return refuse(`${name} that is no UTF-8 text`, 'text');
  }
}

function hashOf(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}
