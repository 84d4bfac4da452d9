import type { Car, Edit, Line, Part } from '#car';
import type { Way } from '#lines';
import type { KeptCar, Step } from '#shelf';
import { editWords, toldWords } from '../history/edit-words.ts';
import type { Snag } from '#snags';
import type { Standing } from '../server/answers.ts';
import { calls, ServerFault } from '../server/calls.ts';
import { tapeUnit } from '../tape/tape-unit.ts';
import { lengthsIn } from '#units';
import { place } from './place.ts';
import { type Signal, signal, useSignal } from './signal.ts';
import { who, whoIsIt } from './who.ts';

/** The car on the bench as it is kept; null before one is opened. */
export const kept = signal<KeptCar | null>(null);
/** What its taken ways amount to; null until the server has judged them. */
export const standing = signal<Standing | null>(null);
/** One line under the top bar: what went wrong or was done last. */
export const word = signal<{ readonly text: string; readonly isFault: boolean } | null>(null);
/** A change that is looked at and not kept: drawn in place of what stands. */
export const glance: Signal<{ readonly line: string; readonly way: Way } | null> = signal<{
  readonly line: string;
  readonly way: Way;
} | null>(null);

export function say(text: string): void {
  word.set({ text, isFault: false });
}

/** Lengths as the builder works. */
const said = (text: string): string => lengthsIn(tapeUnit.get() === 'in').text(text);

export function sayFault(fault: unknown): void {
  word.set({ text: fault instanceof Error ? fault.message : String(fault), isFault: true });
}

let asked = 0;

/** Answers may overtake each other: the last question counts. */
async function judge(id: string): Promise<void> {
  const mine = ++asked;
  const answer = await calls.standing(id);
  if (mine === asked && kept.get()?.id === id) standing.set(answer);
}

/** Asks again how the car stands: a search that found nothing is told of there. */
export function judgeAgain(): void {
  const now = kept.get();
  if (now !== null) judge(now.id).catch(sayFault);
}

function lay(now: KeptCar): void {
  const before = kept.get();
  if (before?.id !== now.id) standing.set(null);
  kept.set(now);
  glance.set(null);
  judge(now.id).catch(sayFault);
}

export async function openCar(id: string): Promise<void> {
  if (kept.get()?.id !== id) {
    kept.set(null);
    standing.set(null);
  }
  try {
    lay(await calls.car(id));
    word.set(null);
  } catch (fault) {
    sayFault(fault);
    if (fault instanceof ServerFault && fault.status === 404) place.set({ car: null, paper: { kind: 'lines' } });
  }
}

/**
 * Keeps a change, with the builder's name; true when it is on the disk.
 *
 * @param seen - revision of the car that the change was made from, where the builder took a while over it: what others did to the same thing
 *   since is told, not written over
 */
export async function keep(edits: readonly Edit[], done: string, seen?: number): Promise<boolean> {
  const now = kept.get();
  if (now === null) return false;
  const name = await whoIsIt();
  if (name === null) return false;
  try {
    const answer = await calls.keep(now.id, { base: seen ?? now.revision, edits, who: name });
    lay(answer.now);
    if (answer.kind === 'kept') {
      say(done);
      return true;
    }
    word.set({
      isFault: true,
      text:
        answer.kind === 'clash'
          ? `Not kept: ${answer.by} changed the same thing since: ${said(toldWords(answer.clashes.map(({ theirs }) => theirs)))}. ${seen === undefined ? 'It now shows theirs.' : 'What you put in still stands here; keep it again to put it in place of theirs.'}`
          : `Not kept: ${answer.faults.join('; ')}`,
    });
  } catch (fault) {
    sayFault(fault);
  }
  return false;
}

async function step(
  take: (id: string, name: string) => Promise<KeptCar>,
  done: (before: KeptCar) => string,
): Promise<void> {
  const now = kept.get();
  const name = now === null ? null : await whoIsIt();
  if (now === null || name === null) return;
  try {
    lay(await take(now.id, name));
    say(done(now));
  } catch (fault) {
    sayFault(fault);
  }
}

/** What a change was, and whose it was where it was somebody else's. */
const changeWords = (change: Step | null): string =>
  change === null
    ? ''
    : `: ${said(editWords(change.edits)) || change.kind}${change.who === who.get() ? '' : `, which ${change.who} did`}`;

export const undo = (): Promise<void> => step(calls.undo, (before) => `Taken back${changeWords(before.undo)}`);
export const redo = (): Promise<void> => step(calls.redo, (before) => `Brought again${changeWords(before.redo)}`);
export const goBackTo = (revision: number): Promise<void> =>
  step(
    (id, name) => calls.goBack(id, revision, name),
    () => `Gone back to change ${revision}`,
  );

const shopWatchers = new Set<() => void>();

/** Told when the shop's box or catalogue is changed, here or on another screen. */
export function watchShop(told: () => void): () => void {
  shopWatchers.add(told);
  return () => shopWatchers.delete(told);
}

/** What somebody else just did; what went wrong here is read first. */
function tellOf(by: string, { undo: last, revision }: KeptCar): void {
  if (word.get()?.isFault === true) return;
  say(`${by}: ${last?.revision === revision ? said(editWords(last.edits)) : 'a change taken back, or brought again'}`);
}

/** Somebody else's change comes in by itself; the server tells of it. */
export function followEvents(): () => void {
  const events = new EventSource('/api/events');
  // Where the line was down while more came in.
  events.addEventListener('here', () => {
    if (Object.values(standing.get()?.behind ?? {}).some(({ state }) => state === 'waiting')) judgeAgain();
  });
  events.addEventListener('message', (message: MessageEvent<string>) => {
    const news = JSON.parse(message.data) as { kind: string; id?: string; revision?: number; who?: string };
    if (news.kind === 'shop') {
      for (const told of shopWatchers) told();
      judgeAgain();
      return;
    }
    const now = kept.get();
    if (news.kind === 'behind' && news.id === now?.id) judgeAgain();
    if (news.kind !== 'car' || now === null || news.id !== now.id || (news.revision ?? 0) <= now.revision) return;
    calls.car(now.id).then((next) => {
      lay(next);
      if (news.who !== undefined && news.who !== who.get()) tellOf(news.who, next);
    }, sayFault);
  });
  return () => events.close();
}

export const useCar = (): Car | null => useSignal(kept)?.car ?? null;
export const useStanding = (): Standing | null => useSignal(standing);

export const lineOf = (car: Car, id: string): Line | undefined => car.lines.find((line) => line.id === id);
export const partOf = (car: Car, id: string): Part | undefined => car.parts.find((part) => part.id === id);
export const wayOf = (from: Standing | null, id: string): Way | null =>
  from?.lines.find((row) => row.line === id)?.way ?? null;
/** The way of a line that is drawn when it is opened: the one taken, else the best try. */
export const wayShown = (from: Standing | null, id: string): Way | null => {
  const row = from?.lines.find((candidate) => candidate.line === id);
  return row?.way ?? row?.tried ?? null;
};
export const snagOf = (from: Standing | null, id: string): Snag | undefined =>
  from?.snags.find((snag) => snag.id === id);
