import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { KeptAnswers } from './kept-answers.ts';

let folder = '';
const named = (name: string): string => join(folder, name);
beforeAll(() => void (folder = mkdtempSync(join(tmpdir(), 'fairlead-kept-'))));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** All that JSON would lose. */
const odd = { minus: -0, none: Infinity, gone: undefined, not: Number.NaN, deep: [{ path: Float64Array.of(1, 2) }] };

describe('answers kept in a folder', () => {
  it('hand: come back as they were, to the sign of a zero, also to the next run', () => {
    new KeptAnswers(named('same')).keep('question', odd);
    const found = new KeptAnswers(named('same')).find<typeof odd>('question');
    expect(found?.value).toStrictEqual(odd);
    expect(Object.is(found?.value.minus, -0)).toBe(true);
    expect(Math.abs(found!.madeAt.getTime() - statSync(named('same')).mtimeMs)).toBeLessThan(60_000);
    expect(new KeptAnswers(named('same')).find('another question')).toBeUndefined();
    expect(new KeptAnswers(named('same'), { isFresh: true }).find('question')).toBeUndefined();
  });

  it('hand: broken at any place, cut short, empty, or of another key are no answers, and are made again', () => {
    const kept = new KeptAnswers(named('broken'));
    kept.keep('question', { value: 12.5 });
    kept.keep('other', { value: 13.5 });
    const [first, second] = ['question', 'other'].map((key) => {
      const names = readdirSync(named('broken'));
      return names.map((name) => join(named('broken'), name)).find((file) => fileOf(kept, key, file))!;
    });
    const whole = readFileSync(first!);
    const spoilt: Buffer[] = [Buffer.alloc(0), Buffer.from('not ours\n'), Buffer.from('null\n'), readFileSync(second!)];
    for (let n = 0; n < whole.length; n++) {
      spoilt.push(whole.subarray(0, n));
      const one = Buffer.from(whole);
      one[n]! ^= 0x10;
      spoilt.push(one);
    }
    let wrong = 0;
    for (const bytes of spoilt) {
      writeFileSync(first!, bytes);
      const found = kept.find<{ value: number }>('question');
      // A flipped bit in the time it was made is no other answer.
      if (found !== undefined && found.value.value !== 12.5) wrong++;
    }
    expect(wrong).toBe(0);
    writeFileSync(first!, spoilt.at(-1)!);
    expect(kept.find('question')).toBeUndefined();
    kept.keep('question', { value: 12.5 });
    expect(readFileSync(first!).length).toBe(whole.length);
    expect(kept.find('question')?.value).toEqual({ value: 12.5 });
  });

  it('hand: past the room they may take, the one not used for longest goes, and no file that is not ours', () => {
    const kept = new KeptAnswers(named('full'), { mostBytes: 4000 });
    const old = new Date(Date.now() - 1000 * 3600);
    const kilo = 'x'.repeat(1000);
    kept.keep('a', kilo);
    const [a] = safeList('full');
    kept.keep('b', kilo);
    const b = safeList('full').find((name) => name !== a);
    writeFileSync(named('full/letter.txt'), kilo.repeat(9));
    for (const [n, name] of [a!, b!].entries())
      utimesSync(join(named('full'), name), old, new Date(old.getTime() + 1000 * n));
    kept.keep('c', kilo);
    expect(kept.find('a')?.value).toBe(kilo);
    // hand: 4 x about 1.2 kB is more than 4 kB; "a" has been used since "b"
    kept.keep('d', kilo);
    expect(['a', 'b', 'c', 'd'].map((key) => kept.find(key) !== undefined)).toEqual([true, false, true, true]);
    expect(safeList('full')).toContain('letter.txt');
  });

  it('hand: where nothing can be kept, that is said, and nothing thrown', () => {
    writeFileSync(named('a-file'), '');
    const kept = new KeptAnswers(named('a-file'));
    kept.keep('question', 1);
    expect(kept.fault).toMatch(/a-file: nothing can be kept there \((?:ENOTDIR|EEXIST)\)/u);
    expect(kept.find('question')).toBeUndefined();
    mkdirSync(named('no-half'));
    new KeptAnswers(named('no-half')).keep('question', () => 'a function cannot be written');
    expect(safeList('no-half')).toEqual([]);
  });
});

const safeList = (name: string): string[] => readdirSync(named(name));

/** Is this the file that the key's answer lies in? */
function fileOf(kept: KeptAnswers, key: string, file: string): boolean {
  const bytes = readFileSync(file);
  writeFileSync(file, '');
  const isIt = kept.find(key) === undefined;
  writeFileSync(file, bytes);
  return isIt;
}
