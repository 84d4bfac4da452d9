import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { InPassing } from './in-passing.ts';

const REST_MS = 1000;

describe('what is worked out behind', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  it('begins when a car has rested, once, and not at all for a car that has changed again by then', async () => {
    const passing = new InPassing<string>(REST_MS);
    const heard: string[] = [];
    const begun: string[] = [];
    passing.listen((id) => heard.push(id));
    const ask = (key: string) =>
      passing.ask('fellside', key, async () => {
        begun.push(key);
        return `answer to ${key}`;
      });
    expect(ask('first')).toEqual({ state: 'waiting', answer: null });
    await vi.advanceTimersByTimeAsync(REST_MS - 1);
    ask('second');
    ask('second');
    await vi.advanceTimersByTimeAsync(REST_MS - 1);
    expect(begun).toEqual([]);
    await vi.advanceTimersByTimeAsync(1);
    expect([begun, heard]).toEqual([['second'], ['fellside']]);
    expect(ask('second')).toEqual({ state: 'known', answer: 'answer to second' });
    // After a change what was there stays, and is told to be old by not being known.
    expect(ask('third')).toEqual({ state: 'waiting', answer: 'answer to second' });
  });

  it('stops the work on a car that has changed, and says why there is no answer where there is none', async () => {
    const passing = new InPassing<string>(REST_MS);
    let stopped = 0;
    passing.ask('fellside', 'first', (at) => {
      at.onStop(() => void stopped++);
      return new Promise(() => {});
    });
    await vi.advanceTimersByTimeAsync(REST_MS);
    expect(stopped).toBe(0);
    const broken = () => passing.ask('fellside', 'second', () => Promise.reject(new Error('no such case')));
    broken();
    expect(stopped).toBe(1);
    await vi.advanceTimersByTimeAsync(REST_MS);
    expect(broken()).toEqual({ state: 'fault', answer: null, text: 'no such case' });
  });
});
