import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import dxfParser, { type IDxf } from 'dxf-parser';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Standing } from '#answers';
import { type Car, readCar } from '#car';
import { KeptAnswers, type PlanAnswer, StandingCrew } from '#crew';
import { type KeptCar, memoryShelf, openShelf } from '#shelf';
import { app } from './app.ts';
import { ReadyCar } from './ready-car.ts';
import { Desk } from './desk.ts';
import { type JobNow, Jobs } from './jobs.ts';
import { type News, NewsDesk } from './news.ts';
import { Tried } from './tried.ts';

// Its types and what it exports differ.
const Parser = dxfParser as unknown as new () => { parseSync: (text: string) => IDxf | null };

const text = readFileSync(new URL('../../demo/three-ports.json', import.meta.url), 'utf8');
const reading = readCar(text);
if (!reading.ok) throw new Error('three-ports.json is no car');
const threePorts: Car = reading.car;

const crew = new StandingCrew();
const keptFolder = mkdtempSync(join(tmpdir(), 'fairlead-kept-'));
const news = new NewsDesk();
const heard: News[] = [];
/** Jobs as they were whenever something was told of them while they worked. */
const atWork: JobNow[] = [];
let ask: (path: string, init?: RequestInit) => Promise<Response>;

beforeAll(async () => {
  const desk = new Desk(await memoryShelf(), crew, new Tried(null), new KeptAnswers(keptFolder));
  const demo = async () => new ReadyCar(threePorts, new Map());
  const jobs = new Jobs(news);
  const server = app({ desk, jobs, news, sharing: { code: null }, files: new Map(), demo, log: () => {} });
  ask = async (path, init = {}) =>
    server.request(path, { ...init, headers: { host: '127.0.0.1:4567', ...init.headers } });
  news.listen((item) => {
    heard.push(item);
    if (item.kind === 'job' && item.state === 'working') atWork.push(jobs.get(item.job));
  });
});
afterAll(async () => {
  await crew.end();
  rmSync(keptFolder, { recursive: true, force: true });
});

const post = (path: string, body: unknown, headers: Record<string, string> = {}) =>
  ask(path, {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...headers },
    body: typeof body === 'string' ? body : JSON.stringify(body),
  });
const answer = async <T>(response: Promise<Response>): Promise<T> => (await (await response).json()) as T;

async function finished<T>(path: string, wish: unknown): Promise<T> {
  const { job } = await answer<{ job: string }>(post(path, wish));
  for (;;) {
    const now = await answer<JobNow>(ask(`/api/jobs/${job}`));
    if (now.state === 'done') return now.answer as T;
    if (now.state !== 'working') throw new Error(`${now.state}: ${now.text}`);
    await new Promise((wake) => setTimeout(wake, 20));
  }
}

describe('a car over HTTP', () => {
  let car: KeptCar;
  beforeAll(async () => {
    car = await answer(post('/api/cars', { from: 'file', text, who: 'Marrow' }));
  });

  it('is in a copy of the whole shelf taken while it is in use, which opens as a shelf', async () => {
    const copy = await ask('/api/shelf-copy');
    expect(copy.headers.get('content-disposition')).toContain('fairlead-shelf.db');
    const folder = mkdtempSync(join(tmpdir(), 'fairlead-copied-'));
    writeFileSync(join(folder, 'shelf.db'), new Uint8Array(await copy.arrayBuffer()));
    const opened = await openShelf(folder);
    expect((await opened.openCar(car.id)).car).toEqual(car.car);
    await opened.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('has its book made and fetched, whole or some sheets of it', async () => {
    type Ready = { file: string; sheets: number; pages: number };
    const make = (only: string[]) => finished<Ready>(`/api/cars/${car.id}/jobs`, { kind: 'book', paper: 'A4', only });
    const [whole, map] = [await make([]), await make(['map'])];
    expect(whole.sheets).toBeGreaterThan(5);
    expect(map).toMatchObject({ sheets: 1, pages: 1 });
    const back = await ask(`/api/cars/${car.id}/book/${whole.file}`);
    expect(back.headers.get('content-type')).toBe('application/pdf');
    expect(
      Buffer.from(await back.arrayBuffer())
        .subarray(0, 8)
        .toString('latin1'),
    ).toBe('%PDF-1.7');
    expect((await ask(`/api/cars/${car.id}/book/none`)).status).toBe(404);
    await expect(make(['nothing'])).rejects.toThrow('the book has no sheet nothing');
    const since = (revision: number) =>
      finished<Ready>(`/api/cars/${car.id}/jobs`, { kind: 'book', paper: 'A4', since: revision });
    await expect(since(1)).rejects.toThrow('no sheet is otherwise than at change 1');
  });

  it('has both pieces of a split panel in its files, and all of them on sheets', async () => {
    const places = { A: [0, 0, 500], B: [600, 0, 500], C: [600, 400, 540], D: [0, 400, 500] };
    const corners = Object.entries(places).map(([id, atMm]) => ({ id, atMm }));
    const creases = [{ from: 'A', to: 'C', kind: 'split', overlapMm: 20 }];
    const panels = [{ id: 'S', thicknessMm: 1.2, outside: [0, 0, 1], corners, creases }];
    const made = { fairlead: 1, name: 'Split', parts: [], lines: [], panels };
    const split = await answer<KeptCar>(post('/api/cars', { from: 'file', text: JSON.stringify(made), who: 'Marrow' }));
    const fetched = async (path: string): Promise<string> =>
      Buffer.from(await (await ask(`/api/cars/${split.id}/${path}`)).arrayBuffer()).toString('latin1');
    // second: dxf-parser reads where the two outlines lie; on each other they could not be cut.
    const ringsIn = (text: string, layer: string) =>
      new Parser()
        .parseSync(text)!
        .entities.filter((entity) => entity.layer === layer && entity.type === 'LWPOLYLINE')
        .map((entity) => (entity as unknown as { vertices: { x: number }[] }).vertices.map(({ x }) => x));
    const [first, second] = ringsIn(await fetched('panels/S.dxf'), 'CUT');
    expect(Math.min(...second!)).toBeGreaterThan(Math.max(...first!) + 50);
    expect((await fetched('panels/S.svg')).match(/data-layer="cut"/gu)).toHaveLength(2);
    expect(ringsIn(await fetched('sheets/panels.dxf'), 'SHEET')).toHaveLength(1);
    expect(ringsIn(await fetched('sheets/panels.dxf'), 'CUT')).toHaveLength(2);
    expect(await fetched('sheets/panels.pdf?unit=in&paper=Letter')).toMatch(/^%PDF-1\.7[^]*MediaBox \[0 0 792 612\]/u);
    expect(await fetched('sheets/panels.svg')).toMatch(/^<\?xml [^]*data-layer="cut"/u);
    const none = await ask(`/api/cars/${car.id}/sheets/panels.pdf`);
    expect([none.status, await none.text()]).toEqual([422, expect.stringContaining('no panel of this car lies flat')]);
  });

  it('is put on the shelf, worked out, and its way taken; the standing car then has no open way', async () => {
    const line = car.car.lines[0]!.id;
    const before = await answer<Standing>(ask(`/api/cars/${car.id}/standing`));
    expect(before.snags.some((snag) => snag.text.startsWith(`${line} has no way taken yet`))).toBe(true);
    const ways = await finished<{ feasible: boolean }[]>(`/api/cars/${car.id}/jobs`, { kind: 'ways', line, count: 2 });
    expect(ways[0]!.feasible).toBe(true);
    const edits = [{ do: 'take-way', line, way: ways[0] }];
    const kept = await answer<{ kind: string; now: KeptCar }>(
      post(`/api/cars/${car.id}/edits`, { base: car.revision, edits, who: 'Marrow' }),
    );
    expect(kept.kind).toBe('kept');
    const after = await answer<Standing>(ask(`/api/cars/${car.id}/standing`));
    expect(after.lines.find((row) => row.line === line)?.way?.feasible).toBe(true);
    expect(after.order.rows.length).toBeGreaterThan(2);
    expect(heard).toContainEqual({ kind: 'car', id: car.id, revision: kept.now.revision, who: 'Marrow' });
    car = kept.now;
    // The line's card is otherwise now, and more.
    const made = await finished<{ sheets: number }>(`/api/cars/${car.id}/jobs`, {
      kind: 'book',
      paper: 'A4',
      since: 1,
    });
    const card = { kind: 'book', paper: 'A4', since: 1, only: [line] };
    expect(await finished(`/api/cars/${car.id}/jobs`, card)).toMatchObject({ sheets: 1 });
    expect(made.sheets).toBeGreaterThan(1);
  });

  it('says what a change would do before it is kept, and keeps nothing of it', async () => {
    const { id: line, from } = car.car.lines[0]!;
    const part = from.split('.')[0]!;
    const edits = [{ do: 'move-part', part, byMm: [0, 0, 25] }];
    const { before, after } = await finished<{ before: Standing; after: Standing }>(`/api/cars/${car.id}/jobs`, {
      kind: 'what-if',
      edits,
    });
    expect(before.snags.filter((snag) => snag.level === 'stop' && snag.line === line)).toEqual([]);
    expect(after.snags.find((snag) => snag.level === 'stop' && snag.line === line)?.text).toMatch(/25 mm from its end/);
    expect((await answer<KeptCar>(ask(`/api/cars/${car.id}`))).revision).toBe(car.revision);
  });

  it('works a plan out once: the same car asked again has the same answer, with the day of it', async () => {
    const plan = () => finished<PlanAnswer & { keptAt?: string }>(`/api/cars/${car.id}/jobs`, { kind: 'plan' });
    const { keptAt: none, ...first } = await plan();
    const { keptAt, ...again } = await plan();
    expect([none, again]).toEqual([undefined, first]);
    expect(Number.isNaN(Date.parse(keptAt ?? ''))).toBe(false);
  });

  it('works the lines of a moved part out with the change, where it is asked to', async () => {
    const { id: line, from } = car.car.lines[0]!;
    const edits = [{ do: 'move-part', part: from.split('.')[0]!, byMm: [0, 0, 25] }];
    const { after } = await finished<{ after: Standing }>(`/api/cars/${car.id}/jobs`, {
      kind: 'what-if',
      edits,
      lines: [line],
    });
    const early = atWork.findLast((job) => job.kind === 'what-if' && job.answer !== undefined)?.answer;
    const first = early as { after: Standing } | undefined;
    expect(first?.after.lines.find((row) => row.line === line)?.way?.feasible).toBe(true);
    expect(after.lines.find((row) => row.line === line)?.way?.feasible).toBe(true);
    expect(after.snags.filter((snag) => snag.level === 'stop' && snag.line === line)).toEqual([]);
  });

  it('tells every screen how far a job is, and stops one that nobody wants any more', async () => {
    const line = car.car.lines[0]!.id;
    const { job } = await answer<{ job: string }>(post(`/api/cars/${car.id}/jobs`, { kind: 'ways', line, count: 5 }));
    expect(heard.filter((item) => item.kind === 'job').some(({ done, total }) => 0 < done && done < total)).toBe(true);
    expect((await ask(`/api/jobs/${job}`, { method: 'DELETE' })).status).toBe(200);
    expect(await answer<JobNow>(ask(`/api/jobs/${job}`))).toMatchObject({ state: 'stopped' });
    expect((await ask('/api/jobs/none')).status).toBe(404);
    // The thread that was at it makes room for the next.
    expect(await finished<unknown[]>(`/api/cars/${car.id}/jobs`, { kind: 'ways', line, count: 1 })).toHaveLength(1);
  });

  it('tells the gaps of a part in the hand, and bends its own lines over', async () => {
    const part = car.car.lines[0]!.from.split('.')[0]!;
    const found = await answer<{ gaps: unknown[]; ghosts: { line: string }[] }>(
      post(`/api/cars/${car.id}/drag`, { part, byMm: [5, 0, 0] }),
    );
    expect(found.ghosts.map((row) => row.line)).toEqual([car.car.lines[0]!.id]);
  });

  it('undoes to the beginning and redoes', async () => {
    const start = await answer<KeptCar>(post(`/api/cars/${car.id}/undo`, { who: 'Marrow' }));
    expect(start.car.lines[0]!.taken).toBeUndefined();
    expect((await post(`/api/cars/${car.id}/undo`, { who: 'Marrow' })).status).toBe(409);
    const again = await answer<KeptCar>(post(`/api/cars/${car.id}/redo`, { who: 'Marrow' }));
    expect(again.car.lines[0]!.taken).toEqual(car.car.lines[0]!.taken);
    car = again;
  });

  it('merges edits to different things; to the same thing the second is told and nothing of theirs is lost', async () => {
    const part = car.car.parts[0]!.id;
    const at = `/api/cars/${car.id}/edits`;
    const edit = (value: string) => [{ do: 'set-part', part, field: 'name', value }];
    const base = car.revision;
    expect((await post(at, { base, edits: edit('Mine'), who: 'Marrow' })).status).toBe(200);
    expect((await post(at, { base, edits: [{ do: 'set-name', name: 'Other thing' }], who: 'Teal' })).status).toBe(200);
    const clash = await post(at, { base, edits: edit('Theirs'), who: 'Teal' });
    expect(clash.status).toBe(409);
    expect(await clash.json()).toMatchObject({ kind: 'clash', by: 'Marrow', now: { car: { name: 'Other thing' } } });
  });
});

describe('a request that is not a screen’s own', () => {
  it.each([
    ['a page of another address', { origin: 'http://evil.example' }],
    ['a page from a file', { origin: 'null' }],
    ['another name that leads here', { host: 'evil.example' }],
    ['another site', { 'sec-fetch-site': 'cross-site' }],
  ])('from %s is refused', async (_from, headers) => {
    const found = await post('/api/cars', { from: 'empty', who: 'x' }, headers as Record<string, string>);
    expect(found.status).toBe(403);
    expect(await found.json()).toHaveProperty('fault');
  });

  it.each([
    ['no JSON', '{"from":', 400],
    ['an unknown wish', { from: 'elsewhere', who: 'x' }, 400],
    ['nobody', { from: 'empty', who: '  ' }, 400],
    ['a file that is no car', { from: 'file', text: '{}', who: 'x' }, 422],
    ['more than is allowed', `{"from":"file","who":"x","text":"${'x'.repeat(33 * 1024 * 1024)}"}`, 413],
  ])('%s gets one sentence', async (_what, body, status) => {
    const found = await post('/api/cars', body);
    expect(found.status).toBe(status);
    const { fault } = (await found.json()) as { fault: string };
    expect(fault).not.toMatch(/undefined|\[object|at \S+:\d+/u);
    expect(fault.length).toBeGreaterThan(5);
  });

  it('with a file larger than any scan is refused before it is read', async () => {
    const body = 'x';
    const headers = { 'content-length': String(600 * 2 ** 20) };
    const found = await ask('/api/cars/none/scans?file=a.stl', { method: 'POST', body, headers });
    expect([found.status, await found.json()]).toEqual([
      413,
      { fault: 'the request is larger than is allowed here: 512 MB' },
    ]);
  });

  it.each(['/', '/api/cars', '/nowhere'])(
    '%s comes with leave to run and ask for nothing but the server’s own',
    async (path) => {
      const policy = (await ask(path)).headers.get('content-security-policy') ?? '';
      const rules = new Map(
        policy.split(';').map((rule) => [rule.trim().split(' ')[0]!, rule.trim().split(' ').slice(1)]),
      );
      for (const name of ['default-src', 'script-src', 'connect-src', 'font-src', 'form-action'])
        expect([name, rules.get(name)]).toEqual([name, ["'self'"]]);
      for (const name of ['object-src', 'base-uri', 'frame-ancestors'])
        expect([name, rules.get(name)]).toEqual([name, ["'none'"]]);
      expect(policy).not.toMatch(/https?:|\*|unsafe-eval/u);
    },
  );

  it.each([
    '/api/cars/..%2f..%2fetc%2fpasswd',
    '/../package.json',
    '/assets/..%2f..%2fpackage.json',
    '/%2e%2e/package.json',
    '/api/cars/none/mesh?file=../../package.json',
  ])('%s leads nowhere', async (path) => {
    const found = await ask(path);
    expect(found.status).toBe(404);
    expect(await found.text()).not.toContain('"version"');
  });

  it.each(['../../etc/x.stl', '/etc/x.stl', 'a/../../x.stl', 'C:\\x.stl', 'x.stl\0.png'])(
    'with a scan named %j is refused, and says which names are allowed',
    async (file) => {
      const { id } = await answer<KeptCar>(post('/api/cars', { from: 'empty', who: 'Marrow' }));
      const found = await ask(`/api/cars/${id}/scans?file=${encodeURIComponent(file)}`, {
        method: 'POST',
        body: 'solid x\nendsolid x\n',
      });
      expect([400, 415, 422]).toContain(found.status);
      expect(await found.json()).toMatchObject({ fault: expect.stringMatching(/allowed is a path/u) });
      expect(await answer<unknown[]>(ask(`/api/cars/${id}/scans`))).toEqual([]);
    },
  );

  it('with edits that are none is refused, whatever they are', async () => {
    const car = await answer<KeptCar>(post('/api/cars', { from: 'demo', who: 'Marrow' }));
    const wrong = [
      'x',
      [],
      [null],
      [{ do: 'explode' }],
      [{ do: 'move-part', part: 'tank' }],
      [{ do: 'set-part', part: 'tank', field: '__proto__', value: { polluted: 1 } }],
      [{ do: 'restore', changes: [{ kind: 'set', at: ['__proto__', 'polluted'], value: 1 }] }],
      [{ do: 'add-line', line: { id: 'x' } }],
      [{ do: 'set-name', name: 7 }],
    ];
    for (const edits of wrong) {
      const found = await post(`/api/cars/${car.id}/edits`, { base: 1, edits, who: 'x' });
      expect([400, 422], JSON.stringify(edits)).toContain(found.status);
    }
    expect((await answer<KeptCar>(ask(`/api/cars/${car.id}`))).revision).toBe(1);
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });
});
