import { hc } from 'hono/client';
import type { Dragged } from '#answers';
import type { Edit } from '#car';
import type { ToCut } from '#crew';
import type { MeshNotes, Placing } from '#intake';
import type { App } from '#server';
import type { KeptCar, ShelvedCar, Shop, Step } from '#shelf';
import type { OpenedNumber } from '#snags';
import type { ImportedCatalogue } from '#standards';
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

/** Paths and bodies are held against the server's own routes when this is compiled. */
const { api } = hc<App>('/');

interface Answered {
  readonly ok: boolean;
  readonly status: number;
  text(): Promise<string>;
  json(): Promise<unknown>;
}

/** Kept, clash and faults are all answers to a wish to change the car. */
const answersToEdits: ReadonlySet<number> = new Set([200, 409, 422]);

/**
 * What came back, as the room that made it describes it: the client's own idea of it is the same without the names. `also`: statuses that
 * are answers too.
 */
async function answer<T>(asked: Promise<Answered>, also?: ReadonlySet<number>): Promise<T> {
  const back = await heard(asked);
  // The shop's access code has run out, or the server was started anew: its door asks for it.
  if (back.status === 401) location.reload();
  if (!back.ok && also?.has(back.status) !== true) throw new ServerFault(back.status, await words(back));
  return (await back.json()) as T;
}

async function heard<B extends Answered>(asked: Promise<B>): Promise<B> {
  try {
    return await asked;
  } catch {
    throw new ServerFault(
      0,
      'the server does not answer; what is on the screen stays, nothing is kept until it is back',
    );
  }
}

async function words(back: Answered): Promise<string> {
  const text = await back.text();
  try {
    return String((JSON.parse(text) as { fault?: unknown }).fault ?? text);
  } catch {
    return text === '' ? `the server answered ${back.status}` : text;
  }
}

/** Bytes go as they are; the typed client sends text and forms only. */
const sentBytes = (path: string, bytes: ArrayBuffer): Promise<Response> =>
  fetch(path, { method: 'POST', headers: { 'content-type': 'application/octet-stream' }, body: bytes });

const at = (id: string, rest = ''): string => `/api/cars/${encodeURIComponent(id)}${rest}`;

export type NewCar =
  | { readonly from: 'demo'; readonly who: string }
  | { readonly from: 'empty'; readonly name: string; readonly who: string }
  | { readonly from: 'file'; readonly text: string; readonly who: string };

export type JobWish =
  | { readonly kind: 'ways'; readonly line: string; readonly count: number }
  | { readonly kind: 'plan' }
  | {
      readonly kind: 'book';
      readonly paper: 'A4' | 'A3' | 'Letter';
      readonly inches: boolean;
      readonly only: string[];
      readonly since?: number;
    }
  | { readonly kind: 'flow'; readonly case?: string }
  | { readonly kind: 'flow-try'; readonly line: string; readonly dash: number }
  | { readonly kind: 'heat' }
  | { readonly kind: 'heat-cures'; readonly line: string; readonly case: string }
  | { readonly kind: 'heat-try'; readonly edits: readonly Edit[]; readonly case: string }
  | { readonly kind: 'strength'; readonly panel: string }
  | {
      readonly kind: 'strip';
      readonly what: string;
      readonly aim: 'reach' | 'remove' | 'replace';
      readonly wins: boolean;
    }
  | { readonly kind: 'breaks' }
  | { readonly kind: 'rules' }
  | { readonly kind: 'due'; readonly day: string }
  | { readonly kind: 'laps'; readonly log: ArrayBuffer | null }
  | { readonly kind: 'template'; readonly photo: ArrayBuffer; readonly asked: PhotoAsked }
  | { readonly kind: 'compare'; readonly from: number; readonly to: number }
  | { readonly kind: 'what-if'; readonly edits: readonly Edit[]; readonly lines?: string[] };

/** What is said of a photo beside its bytes: lengths in mm, places in pixels of the photo the right way up. */
export interface PhotoAsked {
  readonly reference: string;
  readonly referenceThicknessMm: number;
  readonly referenceKnownMm: number;
  readonly thicknessMm: number;
  readonly cornersPx?: string;
  readonly onPx?: string;
}

/** What is to lie in the shop's box, what it can buy, or both. */
export type ShopWish = { readonly base: number; readonly who: string } & Partial<Pick<Shop, 'box' | 'catalogue'>>;

export interface ShopKept {
  readonly kind: 'kept' | 'clash';
  readonly now: Shop;
}

export interface DragWish {
  readonly revision: number;
  readonly part: string;
  readonly byMm: [number, number, number];
}

/** What the server read in a scan. */
export interface AddedScan {
  readonly triangles: number;
  readonly notes: MeshNotes;
}

/** Everything the screen asks of the server, in one place. */
export const calls = {
  cars: () => answer<readonly ShelvedCar[]>(api.cars.$get()),
  addCar: (json: NewCar) => answer<KeptCar>(api.cars.$post({ json })),
  car: (id: string) => answer<KeptCar>(api.cars[':id'].$get({ param: { id } })),
  keep: (id: string, json: { base: number; edits: readonly Edit[]; who: string }) =>
    answer<Kept>(api.cars[':id'].edits.$post({ param: { id }, json }), answersToEdits),
  undo: (id: string, who: string) => answer<KeptCar>(api.cars[':id'].undo.$post({ param: { id }, json: { who } })),
  redo: (id: string, who: string) => answer<KeptCar>(api.cars[':id'].redo.$post({ param: { id }, json: { who } })),
  goBack: (id: string, revision: number, who: string) =>
    answer<KeptCar>(api.cars[':id']['go-back'].$post({ param: { id }, json: { revision, who } })),
  points: (id: string) => answer<readonly Step[]>(api.cars[':id'].points.$get({ param: { id } })),
  history: (id: string, before: number, count: number) =>
    answer<readonly Step[]>(fetch(at(id, `/history?before=${before}&count=${count}`))),
  namePoint: (id: string, revision: number, name: string) =>
    answer<readonly Step[]>(api.cars[':id'].points.$post({ param: { id }, json: { revision, name } })),
  standing: (id: string) => answer<Standing>(api.cars[':id'].standing.$get({ param: { id } })),
  opened: (id: string, snag: string) => answer<OpenedNumber>(fetch(at(id, `/opened?snag=${encodeURIComponent(snag)}`))),
  begin: (id: string, json: Exclude<JobWish, { kind: 'laps' | 'template' }>) =>
    answer<{ readonly job: string }>(api.cars[':id'].jobs.$post({ param: { id }, json })),
  /** A driven log, or the example of one where none is given. */
  drive: (id: string, log: ArrayBuffer | null) =>
    answer<{ readonly job: string }>(
      log === null ? sentBytes(at(id, '/laps?log=demo'), new ArrayBuffer(0)) : sentBytes(at(id, '/laps'), log),
    ),
  readTemplate: (id: string, photo: ArrayBuffer, asked: PhotoAsked) => {
    const query = new URLSearchParams(Object.entries(asked).map(([name, value]) => [name, String(value)]));
    return answer<{ readonly job: string }>(sentBytes(at(id, `/template-photo?${query.toString()}`), photo));
  },
  job: <Answer>(job: string) => answer<Job<Answer>>(api.jobs[':job'].$get({ param: { job } })),
  stop: async (job: string): Promise<void> => {
    await heard(api.jobs[':job'].$delete({ param: { job } }));
  },
  drag: (id: string, json: DragWish) => answer<Dragged>(api.cars[':id'].drag.$post({ param: { id }, json })),
  shop: () => answer<Shop>(api.shop.$get()),
  keepShop: (json: ShopWish) => answer<ShopKept>(api.shop.$post({ json: json as never }), answersToEdits),
  readCatalogue: (text: string) => answer<ImportedCatalogue>(api.shop['read-csv'].$post({ json: { text } })),
  formulas: () => answer<readonly ListedFormula[]>(api.formulas.$get()),
  importCar: (bytes: ArrayBuffer, who: string) =>
    answer<KeptCar>(sentBytes(`/api/cars/import?who=${encodeURIComponent(who)}`, bytes)),
  scans: (id: string) => answer<readonly { readonly file: string }[]>(api.cars[':id'].scans.$get({ param: { id } })),
  addScan: (id: string, file: string, unit: string, bytes: ArrayBuffer) =>
    answer<AddedScan>(sentBytes(at(id, `/scans?file=${encodeURIComponent(file)}&unit=${unit}`), bytes)),
  placeByPoints: (
    id: string,
    json: { pairs: { inFile: [number, number, number]; inCar: [number, number, number] }[] },
  ) => answer<Placing>(api.cars[':id']['place-by-points'].$post({ param: { id }, json })),
  /** `unit` where no part of the car has taken the file yet. */
  mesh: async (id: string, file: string, level: number, unit?: string): Promise<ArrayBuffer> => {
    const inUnit = unit === undefined ? '' : `&unit=${unit}`;
    const back = await heard(fetch(at(id, `/mesh?file=${encodeURIComponent(file)}&level=${level}${inUnit}`)));
    if (!back.ok) throw new ServerFault(back.status, await words(back));
    return back.arrayBuffer();
  },
  cut: (id: string) => answer<ToCut>(api.cars[':id'].cut.$get({ param: { id } })),
  /** A panel's flat as a file to cut or print from. */
  flatPath: (id: string, panel: string, ending: 'dxf' | 'svg' | 'pdf', wish: { paper: string; isInch: boolean }) =>
    at(id, `/panels/${encodeURIComponent(panel)}.${ending}?paper=${wish.paper}${wish.isInch ? '&unit=in' : ''}`),
  sheetsPath: (id: string, ending: 'dxf' | 'svg' | 'pdf', wish: { paper: string; isInch: boolean }) =>
    at(id, `/sheets/panels.${ending}?paper=${wish.paper}${wish.isInch ? '&unit=in' : ''}`),
  shelfCopyPath: '/api/shelf-copy',
  exportPath: (id: string): string => at(id, '/export'),
  bookPath: (id: string, file: string): string => at(id, `/book/${file}`),
  cardPath: (id: string, line: string, isInch: boolean): string =>
    at(id, `/cards/${encodeURIComponent(line)}.svg${isInch ? '?unit=in' : ''}`),
  wallMapPath: (id: string, isInch: boolean): string => at(id, `/wall-map.svg${isInch ? '?unit=in' : ''}`),
};
