import type { Dragged } from '#answers';
import type { Edit } from '#car';
import type { KeptCar, ShelvedCar, Shop, Step } from '#shelf';
import type { Job, Kept, ListedFormula, Standing } from './answers.ts';

/** The server answered with something else than an answer: its own words, for the builder. */
export class ServerFault extends Error {
  readonly status: number;

  constructor(status: number, text: string) {
    super(text);
    this.name = 'ServerFault';
    this.status = status;
  }
}

/** Kept, clash and faults are all answers to a wish to change the car. */
const answeredWithBody = new Set([200, 201, 202, 409, 422]);

async function told(answer: Response): Promise<string> {
  const text = await answer.text();
  try {
    const body = JSON.parse(text) as { fault?: unknown; error?: unknown; message?: unknown };
    return String(body.fault ?? body.message ?? body.error ?? text);
  } catch {
    return text === '' ? `the server answered ${answer.status}` : text;
  }
}

async function sent(path: string, init: RequestInit): Promise<Response> {
  try {
    return await fetch(path, init);
  } catch {
    throw new ServerFault(0, 'the server does not answer; what is on the screen stays, changes wait until it is back');
  }
}

async function read<T>(path: string): Promise<T> {
  const answer = await sent(path, {});
  if (!answer.ok) throw new ServerFault(answer.status, await told(answer));
  return (await answer.json()) as T;
}

async function post<T>(
  path: string,
  body: unknown,
  accepts: ReadonlySet<number> = new Set([200, 201, 202]),
): Promise<T> {
  const answer = await sent(path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  if (!accepts.has(answer.status)) throw new ServerFault(answer.status, await told(answer));
  return (await answer.json()) as T;
}

async function postBytes<T>(path: string, bytes: ArrayBuffer): Promise<T> {
  const answer = await sent(path, {
    method: 'POST',
    headers: { 'content-type': 'application/octet-stream' },
    body: bytes,
  });
  if (!answer.ok) throw new ServerFault(answer.status, await told(answer));
  return (await answer.json()) as T;
}

const at = (id: string, rest = ''): string => `/api/cars/${encodeURIComponent(id)}${rest}`;

export type NewCar =
  | { readonly from: 'demo'; readonly who: string }
  | { readonly from: 'empty'; readonly name: string; readonly who: string }
  | { readonly from: 'file'; readonly text: string; readonly who: string };

export type JobWish =
  | { readonly kind: 'ways'; readonly line: string; readonly count: number }
  | { readonly kind: 'plan' }
  | { readonly kind: 'what-if'; readonly edits: readonly Edit[]; readonly lines?: readonly string[] };

/** Everything the screen asks of the server, in one place. */
export const calls = {
  cars: () => read<readonly ShelvedCar[]>('/api/cars'),
  addCar: (wish: NewCar) => post<KeptCar>('/api/cars', wish),
  car: (id: string) => read<KeptCar>(at(id)),
  keep: (id: string, wish: { base: number; edits: readonly Edit[]; who: string }) =>
    post<Kept>(at(id, '/edits'), wish, answeredWithBody),
  undo: (id: string, who: string) => post<KeptCar>(at(id, '/undo'), { who }),
  redo: (id: string, who: string) => post<KeptCar>(at(id, '/redo'), { who }),
  goBack: (id: string, revision: number, who: string) => post<KeptCar>(at(id, '/go-back'), { revision, who }),
  history: (id: string, before: number, count: number) =>
    read<readonly Step[]>(at(id, `/history?before=${before}&count=${count}`)),
  namePoint: (id: string, revision: number, name: string) => post<unknown>(at(id, '/points'), { revision, name }),
  standing: (id: string) => read<Standing>(at(id, '/standing')),
  begin: (id: string, wish: JobWish) => post<{ readonly job: string }>(at(id, '/jobs'), wish),
  job: <Answer>(job: string) => read<Job<Answer>>(`/api/jobs/${encodeURIComponent(job)}`),
  stop: async (job: string): Promise<void> => {
    await sent(`/api/jobs/${encodeURIComponent(job)}`, { method: 'DELETE' });
  },
  drag: (id: string, wish: { revision: number; part: string; byMm: readonly [number, number, number] }) =>
    post<Dragged>(at(id, '/drag'), wish),
  formulas: () => read<readonly ListedFormula[]>('/api/formulas'),
  shop: () => read<Shop>('/api/shop'),
  importCar: (bytes: ArrayBuffer, who: string) =>
    postBytes<KeptCar>(`/api/cars/import?who=${encodeURIComponent(who)}`, bytes),
  mesh: async (id: string, file: string, triangles: number): Promise<ArrayBuffer> => {
    const answer = await sent(at(id, `/mesh?file=${encodeURIComponent(file)}&triangles=${triangles}`), {});
    if (!answer.ok) throw new ServerFault(answer.status, await told(answer));
    return answer.arrayBuffer();
  },
  exportPath: (id: string): string => at(id, '/export'),
  cardPath: (id: string, line: string): string => at(id, `/cards/${encodeURIComponent(line)}.svg`),
  wallMapPath: (id: string): string => at(id, '/wall-map.svg'),
};
