import { afterAll, describe, expect, it } from 'vitest';
import { StandingCrew } from '#crew';
import { memoryShelf } from '#shelf';
import { newCode } from './access.ts';
import { app } from './app.ts';
import { ReadyCar } from './ready-car.ts';
import { Desk } from './desk.ts';
import { Jobs } from './jobs.ts';
import { NewsDesk } from './news.ts';
import { Tried } from './tried.ts';

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
