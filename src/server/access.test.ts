import type * as Crypto from 'node:crypto';
import { createHash, timingSafeEqual } from 'node:crypto';
import { afterAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { StandingCrew } from '#crew';
import { memoryShelf } from '#shelf';
import { newCode } from './access.ts';
import { app } from './app.ts';
import { ReadyCar } from './ready-car.ts';
import { Desk } from './desk.ts';
import { Jobs } from './jobs.ts';
import { NewsDesk } from './news.ts';
import { Tried } from './tried.ts';

// The one comparison that takes the same time whatever differs is listened to, here and there answered for.
vi.mock('node:crypto', async (own) => {
  const crypto = await own<typeof Crypto>();
  return { ...crypto, timingSafeEqual: vi.fn(crypto.timingSafeEqual) };
});
const compare = vi.mocked(timingSafeEqual);

const crew = new StandingCrew();
afterAll(() => crew.end());

/** A shared server as it is asked from another machine of the shop. */
async function shared(code: string, address = '192.168.4.20') {
  const desk = new Desk(await memoryShelf(), crew, new Tried(null));
  const news = new NewsDesk();
  const empty = { fairlead: 1, parts: [], movers: [], lines: [] };
  const server = app({
    desk,
    jobs: new Jobs(news),
    news,
    sharing: { code },
    files: new Map(),
    demo: async () => new ReadyCar(empty, new Map()),
    log: () => {},
    remote: () => address,
  });
  return async (path: string, init: RequestInit = {}) =>
    server.request(path, { ...init, headers: { host: '192.168.4.2:4747', ...init.headers } });
}

const tried = (code: string): RequestInit => ({
  method: 'POST',
  headers: { 'content-type': 'application/json' },
  body: JSON.stringify({ code }),
});

describe('a screen on the shop’s network', () => {
  it('is let in with the code, by a cookie that no script reads and no other site sends', async () => {
    const ask = await shared('12345678');
    expect((await ask('/api/cars')).status).toBe(401);
    const door = await ask('/');
    expect(await door.text()).toContain('Access code');
    const answer = await ask('/api/access', tried('1234 5678'));
    expect(answer.status).toBe(200);
    const cookie = answer.headers.get('set-cookie') ?? '';
    expect(cookie).toMatch(/HttpOnly/iu);
    expect(cookie).toMatch(/SameSite=Strict/iu);
    const own = cookie.split(';')[0]!;
    expect((await ask('/api/cars', { headers: { cookie: own } })).status).toBe(200);
  });

  it('is not let in with the code of another shop, nor with its cookie', async () => {
    const ask = await shared('12345678');
    expect((await ask('/api/access', tried('87654321'))).status).toBe(401);
    expect((await ask('/api/cars', { headers: { cookie: 'fairlead-code=87654321' } })).status).toBe(401);
    expect((await ask('/api/events', { headers: { cookie: 'fairlead-code=' } })).status).toBe(401);
  });

  it('is told at the door why it stayed shut, in words on the page, with the field to try again', async () => {
    const ask = await shared('12345678');
    const form = (code: string): RequestInit => ({
      method: 'POST',
      headers: { 'content-type': 'application/x-www-form-urlencoded', origin: 'http://192.168.4.2:4747' },
      body: new URLSearchParams({ code }),
    });
    const answer = await ask('/', form('<script>1'));
    const page = await answer.text();
    expect([answer.status, answer.headers.get('content-type')]).toEqual([401, 'text/html; charset=UTF-8']);
    expect(page).toContain("That is not this shop's code; 7 more tries.");
    expect(page).toContain('name="code"');
    expect(page).not.toContain('<script');
    expect((await ask('/', form('12345678'))).status).toBe(303);
  });

  it('has a limited number of tries: a right code after too many wrong ones waits too', async () => {
    const ask = await shared('12345678');
    const seen: number[] = [];
    for (let i = 0; i < 9; i++) seen.push((await ask('/api/access', tried(`0000000${i}`))).status);
    expect(seen).toEqual([401, 401, 401, 401, 401, 401, 401, 401, 429]);
    expect((await ask('/api/access', tried('12345678'))).status).toBe(429);
  });

  it('needs no code on the machine itself', async () => {
    const ask = await shared('12345678', '127.0.0.1');
    expect((await ask('/api/cars')).status).toBe(200);
  });

  it('has a code of eight digits, another each time', () => {
    const codes = new Set(Array.from({ length: 50 }, newCode));
    for (const code of codes) expect(code).toMatch(/^\d{8}$/u);
    expect(codes.size).toBe(50);
  });
});

describe('how long a code takes', () => {
  beforeEach(() => {
    compare.mockClear();
  });
  const CODE = '12345678';
  /** The two that were compared last, in hex, and how many comparisons there were. */
  const compared = () => [compare.mock.calls.length, ...compare.mock.calls.at(-1)!.map((bytes) => hex(bytes))];
  const hex = (bytes: NodeJS.ArrayBufferView) =>
    Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('hex');
  /** FIPS 180-4: 32 bytes of whatever length; what is compared tells neither length nor common beginning. */
  const digest = (text: string) => createHash('sha256').update(text).digest('hex');
  const wrong = ['02345678', '12345670', '87654321', '1234567', '123456789', '1', '', '1234567x', 'é', '0'.repeat(40)];

  it.each(wrong)(
    'the wrong code "%s" goes the way of every other: two digests compared, and the same answer',
    async (code) => {
      const ask = await shared(CODE);
      const answer = await ask('/api/access', tried(code));
      // Once for the cookie that was not sent, once for the code.
      expect(compared()).toEqual([2, digest(code.replaceAll(/\D/gu, '')), digest(CODE)]);
      expect([answer.status, await answer.json()]).toEqual([
        401,
        { fault: "that is not this shop's code; 7 more tries" },
      ]);
    },
  );

  it.each(wrong)('so does the wrong cookie "%s"', async (code) => {
    const ask = await shared(CODE);
    const cookie = `fairlead-code=${encodeURIComponent(code)}`;
    const answer = await ask('/api/cars', { headers: { cookie } });
    expect(compared()).toEqual([1, digest(code), digest(CODE)]);
    expect([answer.status, await answer.json()]).toEqual([
      401,
      { fault: expect.stringContaining('access code is wanted') },
    ]);
  });

  it('nothing but that comparison lets in or keeps out', async () => {
    const ask = await shared(CODE);
    compare.mockReturnValueOnce(false).mockReturnValueOnce(false);
    expect((await ask('/api/access', tried(CODE))).status).toBe(401);
    compare.mockReturnValueOnce(false).mockReturnValueOnce(true);
    expect((await ask('/api/access', tried('87654321'))).status).toBe(200);
    const cars = (code: string) => ask('/api/cars', { headers: { cookie: `fairlead-code=${code}` } });
    compare.mockReturnValueOnce(false);
    expect((await cars(CODE)).status).toBe(401);
    compare.mockReturnValueOnce(true);
    expect((await cars('87654321')).status).toBe(200);
  });
});
