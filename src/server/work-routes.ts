import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { Hono } from 'hono';
import { z } from 'zod';
import { PAGE_PAPERS } from '#book';
import { strippable } from '#answers';
import { applyEdit, type Car, CarEditError, checkCar, faultLine, findLine, readEdits } from '#car';
import { carInput, type CrewJob, crewPlan, type SharedCar } from '#crew';
import type { Way } from '#lines';
import type { Comparison } from '#stock';
import { BookDesk } from './book-desk.ts';
import { jsonBody, pathText } from './body.ts';
import type { Desk, StandingCar } from './desk.ts';
import type { JobAtWork, Jobs } from './jobs.ts';
import { RequestFault } from './request-fault.ts';

/** An invented hill climb, for whoever has no log at hand. */
const DEMO_LOG = fileURLToPath(new URL('../../demo/logs/fellside-lap.csv', import.meta.url));

const lineId = z.string().min(1).max(100);
const vec = z.tuple([z.number(), z.number(), z.number()]);
const MOST_WAYS = 12;
const MOST_LINES = 200;

const revisionOf = z.number({ error: 'allowed: a whole number' }).int().min(1);

const jobWish = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('book'),
    paper: z.enum(PAGE_PAPERS),
    inches: z.boolean().default(false),
    only: z.array(z.string().min(1).max(100)).max(MOST_LINES).default([]),
    /** Only what is otherwise than at that change of the car. */
    since: revisionOf.optional(),
  }),
  z.object({ kind: z.literal('ways'), line: lineId, count: z.number().int().min(1).max(MOST_WAYS).default(5) }),
  z.object({ kind: z.literal('plan') }),
  z.object({ kind: z.literal('flow'), case: z.string().max(200).optional() }),
  z.object({ kind: z.literal('flow-try'), line: lineId, dash: z.number().int().min(1).max(99) }),
  z.object({ kind: z.literal('heat') }),
  z.object({ kind: z.literal('heat-cures'), line: lineId, case: z.string().min(1).max(200) }),
  z.object({ kind: z.literal('heat-try'), edits: z.unknown(), case: z.string().min(1).max(200) }),
  z.object({
    kind: z.literal('strip'),
    what: lineId,
    aim: z.enum(['reach', 'remove', 'replace']),
    wins: z.boolean().default(false),
  }),
  z.object({ kind: z.literal('breaks') }),
  z.object({ kind: z.literal('rules') }),
  z.object({ kind: z.literal('due'), day: z.iso.date() }),
  z.object({ kind: z.literal('strength'), panel: lineId }),
  z.object({ kind: z.literal('compare'), from: revisionOf, to: revisionOf }),
  z.object({ kind: z.literal('what-if'), edits: z.unknown(), lines: z.array(lineId).max(MOST_LINES).optional() }),
]);
const dragWish = z.object({
  revision: z.number().int().optional(),
  part: z.string().min(1).max(100),
  byMm: vec,
  turnDeg: vec.optional(),
  aboutMm: vec.optional(),
});

/** What takes a while: ways, plans, what would change; and what must not: the gaps of a part in the hand. */
export function workRoutes(desk: Desk, jobs: Jobs) {
  const books = new BookDesk(desk);
  return new Hono()
    .post('/cars/:id/jobs', jsonBody(jobWish), async (c) => {
      const wish = c.req.valid('json');
      const id = pathText(c, 'id');
      const { car, revision } = await desk.shelf.openCar(id);
      if (wish.kind === 'plan') return c.json({ job: jobs.begin(id, 'plan', (at) => planJob(desk, id, car, at)) }, 202);
      if (wish.kind === 'book')
        return c.json({ job: jobs.begin(id, 'book', (at) => books.make(id, car, wish, at)) }, 202);
      if (wish.kind === 'flow')
        return c.json({ job: jobs.begin(id, 'flow', (at) => desk.flow.ofCar(id, car, wish.case, at)) }, 202);
      if (wish.kind === 'flow-try')
        return c.json({ job: jobs.begin(id, 'flow-try', (at) => desk.flow.tried(id, car, wish, at)) }, 202);
      if (wish.kind === 'heat' || wish.kind === 'heat-cures' || wish.kind === 'heat-try')
        return c.json({ job: jobs.begin(id, wish.kind, heatJob(desk, id, car, wish)) }, 202);
      if (wish.kind === 'compare') {
        const points = [await desk.shelf.carAt(id, wish.from), await desk.shelf.carAt(id, wish.to)] as const;
        return c.json({ job: jobs.begin(id, 'compare', (at) => compareJob(desk, id, points, at)) }, 202);
      }
      if (wish.kind === 'ways') {
        if (findLine(car, wish.line) === undefined)
          throw new RequestFault(404, `there is no line "${wish.line}" in this car`);
        const { line, count } = wish;
        return c.json({ job: jobs.begin(id, 'ways', (at) => waysJob(desk, id, car, { line, count }, at)) }, 202);
      }
      if (wish.kind === 'what-if') {
        const after = carAfter(car, wish.edits);
        const lines = wish.lines ?? [];
        const job = jobs.begin(id, 'what-if', (at) => whatIfJob(desk, id, { car, revision, after, lines }, at));
        return c.json({ job }, 202);
      }
      return c.json({ job: jobs.begin(id, wish.kind, crewJob(desk, id, car, wish)) }, 202);
    })
    .post('/cars/:id/laps', async (c) => {
      const id = pathText(c, 'id');
      const { car } = await desk.shelf.openCar(id);
      const sent = new Uint8Array(await c.req.arrayBuffer());
      const bytes = c.req.query('log') === 'demo' ? new Uint8Array(await readFile(DEMO_LOG)) : sent;
      return c.json({ job: jobs.begin(id, 'laps', (at) => desk.flow.driven(id, car, bytes, at)) }, 202);
    })
    .post('/cars/:id/drag', jsonBody(dragWish), async (c) => {
      const { revision, ...wish } = c.req.valid('json');
      const id = pathText(c, 'id');
      return c.json(await desk.drag(id, revision ?? (await desk.shelf.openCar(id)).revision, wish));
    })
    .get('/cars/:id/book/:file', (c) => {
      const bytes = books.fetch(pathText(c, 'id'), pathText(c, 'file'));
      return c.body(bytes.slice().buffer, 200, {
        'content-type': 'application/pdf',
        'content-disposition': 'attachment; filename="book.pdf"',
      });
    })
    .get('/jobs/:job', (c) => c.json(jobs.get(pathText(c, 'job'))))
    .delete('/jobs/:job', (c) => {
      jobs.stop(pathText(c, 'job'));
      return c.json({ job: pathText(c, 'job') });
    });
}

async function waysJob(
  desk: Desk,
  id: string,
  car: Car,
  { line, count }: { line: string; count: number },
  at: JobAtWork,
): Promise<Way[]> {
  const input = await desk.shared(id, car);
  at.told(0, 2);
  const quick = desk.crew.work('shelfFirst', { input, line });
  at.onStop(quick.stop);
  const first = await quick.answer;
  if (first !== null) at.early([first]);
  if (!at.told(1, 2, first === null ? `No quick way of ${line}; searching on` : undefined)) return [];
  const job = desk.crew.work('shelfWays', { input, line, count });
  at.onStop(job.stop);
  const ways = await job.answer;
  const isFound = ways.some((way) => way.feasible);
  await desk.noteTried(id, isFound ? new Map() : new Map([[line, ways[0]!]]), isFound ? [line] : []);
  at.told(2, 2);
  return ways;
}

type HeatWish = Extract<z.output<typeof jobWish>, { kind: `heat${string}` }>;

/** A wish that cannot be is told before anything is begun. */
function heatJob(desk: Desk, id: string, car: Car, wish: HeatWish): (at: JobAtWork) => Promise<unknown> {
  if (wish.kind === 'heat') return (at) => desk.heat.ofCar(id, car, at);
  if (wish.kind === 'heat-try') {
    const after = carAfter(car, wish.edits);
    return (at) => desk.heat.tried(id, { now: car, after }, wish.case, at);
  }
  if (findLine(car, wish.line) === undefined)
    throw new RequestFault(404, `there is no line "${wish.line}" in this car`);
  return (at) => desk.heat.cures(id, car, wish, at);
}

type Work = (at: JobAtWork) => Promise<unknown>;

type CrewWish = Extract<z.output<typeof jobWish>, { kind: 'strip' | 'strength' | 'breaks' | 'rules' | 'due' }>;

/** What one thread of the crew answers from the car as it stands. */
function crewJob(desk: Desk, id: string, car: Car, wish: CrewWish): Work {
  const asked =
    <Answer>(begun: (input: SharedCar, told: JobAtWork['told']) => CrewJob<Answer>): Work =>
    async (at) => {
      const job = begun(await desk.shared(id, car), at.told);
      at.onStop(job.stop);
      return job.answer;
    };
  const { crew } = desk;
  switch (wish.kind) {
    case 'strip':
      if (!strippable({ car }).includes(wish.what))
        throw new RequestFault(404, `there is no part, panel or line "${wish.what}" in this car`);
      return asked((input, told) =>
        crew.work('strip', { input, what: wish.what, aim: wish.aim, wins: wish.wins }, told),
      );
    case 'strength':
      if (car.panels?.some((one) => one.id === wish.panel) !== true)
        throw new RequestFault(404, `there is no panel "${wish.panel}" in this car`);
      return asked((input) => crew.work('strength', { input, panel: wish.panel }));
    case 'breaks':
      return asked((input, told) => crew.work('breaks', { input }, told));
    case 'rules':
      return asked((input) => crew.work('rules', { input }));
    case 'due':
      return asked((input) => crew.work('due', { input, day: wish.day }));
  }
}

async function planJob(desk: Desk, id: string, car: Car, at: JobAtWork) {
  const { car: whole, meshes } = await desk.shared(id, car);
  const input = carInput(whole, new Map(meshes.map(({ file, mesh }) => [file, mesh])));
  const answer = await crewPlan(input, (part, done, total) => at.told(done, total, part), { kept: desk.kept });
  const refused = answer.planned.lines.filter((row) => row.taken === null).map((row) => [row.line, row.best] as const);
  const found = answer.planned.lines.flatMap((row) => (row.taken === null ? [] : [row.line]));
  if (!answer.planned.stopped) await desk.noteTried(id, new Map(refused), found);
  return answer;
}

/** Scans are taken as they are now: a file of the same name is the same part, scanned better. */
async function compareJob(desk: Desk, id: string, [from, to]: readonly [Car, Car], at: JobAtWork): Promise<Comparison> {
  const input = { from: await desk.shared(id, from), to: await desk.shared(id, to) };
  const job = desk.crew.work('compareDecided', input);
  at.onStop(job.stop);
  return job.answer;
}

interface WhatIf {
  readonly car: Car;
  readonly revision: number;
  readonly after: Car;
  readonly lines: readonly string[];
}

async function whatIfJob(
  desk: Desk,
  id: string,
  { car, revision, after, lines }: WhatIf,
  at: JobAtWork,
): Promise<{ before: StandingCar; after: StandingCar }> {
  const tried = await desk.tried.of(id);
  const ask = { input: await desk.shared(id, after), lines, tried: tried.ways };
  const before = desk.standingOf(id, { car, revision });
  if (lines.length > 0) {
    const quick = desk.crew.work('whatIfFirst', ask);
    at.onStop(quick.stop);
    const first = await quick.answer;
    if (first !== null) at.early({ before: await before, after: { ...first, revision } });
    const none =
      first === null ? `No quick way near the old ${lines.length === 1 ? 'one' : 'ones'}; searching on` : undefined;
    if (!at.told(0, lines.length, none)) return { before: await before, after: await before };
  }
  const job = desk.crew.work('whatIf', ask, (done, total) => at.told(done, total));
  at.onStop(job.stop);
  const then = await job.answer;
  return { before: await before, after: { ...then, revision } };
}

/** The car as it would be; nothing is kept. */
function carAfter(car: Car, edits: unknown): Car {
  const read = readEdits(edits);
  if (!read.ok) throw new RequestFault(400, read.fault);
  try {
    const after = applyEdit(car, { do: 'several', edits: read.edits }).car;
    const faults = checkCar(after);
    if (faults.length > 0) throw new RequestFault(422, faults.slice(0, 5).map(faultLine).join('\n'));
    return after;
  } catch (fault) {
    if (fault instanceof CarEditError) throw new RequestFault(422, fault.message);
    throw fault;
  }
}
