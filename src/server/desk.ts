import { createHash } from 'node:crypto';
import { type Dragged, openedSnag, type Standing, standingWithFound } from '#answers';
import { type Car, carWithShop } from '#car';
import type { KeptAnswers, SharedCar, StandingCrew, ToCut } from '#crew';
import type { Vec } from '#geometry';
import type { MeshUnit } from '#intake';
import type { Way } from '#lines';
import type { PanelNest } from '#panels';
import type { KeptCar, Shelf } from '#shelf';
import type { OpenedNumber } from '#snags';
import { FlowDesk } from './flow-desk.ts';
import { HeatDesk } from './heat-desk.ts';
import type { Passing } from './in-passing.ts';
import { ReachDesk } from './reach-desk.ts';
import { RequestFault } from './request-fault.ts';
import { ScanDesk, type SharedMeshes } from './scan-desk.ts';
import type { Tried } from './tried.ts';

/** A car as it stands, at one revision. */
export interface StandingCar extends Standing {
  readonly revision: number;
}

/** How far what is worked out behind is. */
export interface HowFar extends Pick<Passing<unknown>, 'state' | 'text'> {
  /** What is among the snags is that of the car before its last change. */
  readonly isOld: boolean;
}

/** The same with what takes longer, as far as that is worked out: what flows, what cooks, what no tool reaches and meets no rule. */
export interface StandingWithAll extends StandingCar {
  readonly behind: { readonly flow: HowFar; readonly cook: HowFar; readonly off: HowFar };
}

const howFar = ({ state, answer, text }: Passing<unknown>): HowFar => ({
  state,
  isOld: state === 'waiting' && answer !== null,
  ...(text === undefined ? {} : { text }),
});

const NOT_ASKED = { state: 'none', answer: null } as const;

export interface DragWish {
  readonly part: string;
  readonly byMm: Vec;
  readonly turnDeg?: Vec | undefined;
  readonly aboutMm?: Vec | undefined;
}

/** Answers kept for cars that were looked at last. */
const MOST_KEPT = 6;

/** The answer that is kept, or a new one; what failed is asked again. */
function lastAsked<T>(known: Map<string, Promise<T>>, key: string, ask: () => Promise<T>): Promise<T> {
  const had = known.get(key);
  if (had !== undefined) return had;
  const answer = ask();
  known.set(key, answer);
  answer.catch(() => known.delete(key));
  for (const oldest of known.keys()) {
    if (known.size <= MOST_KEPT) break;
    known.delete(oldest);
  }
  return answer;
}

/** What nobody has asked for yet and is worked out all the same: some 20 s of processor for a whole car, 5 of it what flows. */
export type Behind = 'all' | 'flow' | 'nothing';

/** What is asked about the cars on the shelf, worked out on threads that stay. */
export class Desk {
  readonly shelf: Shelf;
  readonly crew: StandingCrew;
  readonly scans: ScanDesk;
  readonly tried: Tried;
  readonly kept: KeptAnswers | undefined;
  readonly flow: FlowDesk;
  readonly heat: HeatDesk;
  private readonly reach: ReachDesk;
  private readonly behind: Behind;
  private readonly standings = new Map<string, Promise<Standing>>();
  private readonly cuts = new Map<string, Promise<ToCut>>();
  private readonly nests = new Map<string, Promise<PanelNest>>();

  /**
   * @param kept - where plans are kept from one run of the program to the next
   * @param behind - what is worked out behind of a car that is looked at
   */
  constructor(shelf: Shelf, crew: StandingCrew, tried: Tried, kept?: KeptAnswers, behind: Behind = 'all') {
    this.behind = behind;
    this.kept = kept;
    this.shelf = shelf;
    this.crew = crew;
    this.scans = new ScanDesk(crew, tried.beside('scan-pictures'));
    this.tried = tried;
    this.flow = new FlowDesk(crew, (id, car) => this.shared(id, car));
    this.heat = new HeatDesk(crew, this.flow, (id, car) => this.shared(id, car), kept);
    this.reach = new ReachDesk(crew);
  }

  /** A car of the shelf, with what the shop has, as threads take it. */
  async shared(id: string, car: Car): Promise<SharedCar> {
    const shop = await this.shelf.shop();
    const whole = carWithShop(car, shop);
    const meshes = await this.meshesOf(id, whole);
    const key = createHash('sha256')
      .update(JSON.stringify(whole))
      .update(meshes.map(({ file, hash }) => `${file} ${hash}`).join('\n'))
      .digest('hex');
    return { key, car: whole, meshes };
  }

  async meshesOf(id: string, car: Car): Promise<SharedMeshes> {
    const wanted = new Map<string, MeshUnit>();
    for (const part of car.parts)
      for (const { mesh } of part.shapes) if (mesh !== undefined) wanted.set(mesh.file, mesh.unit);
    if (wanted.size === 0) return [];
    const hashes = new Map((await this.shelf.scans(id)).map((row) => [row.file, row.hash]));
    const found: { file: string; hash: string; mesh: SharedMeshes[number]['mesh'] }[] = [];
    for (const [file, unit] of wanted) {
      const hash = hashes.get(file);
      // A scan that is not there yet is a snag of the car, not a fault of the question.
      if (hash === undefined) continue;
      const { mesh } = await this.scans.scan(file, unit, hash, () => this.shelf.scan(id, file));
      found.push({ file, hash: `${hash} ${unit}`, mesh });
    }
    return found;
  }

  /** Told of each car of which more is known than when it was last asked how it stands. */
  listen(hear: (id: string) => void): void {
    for (const desk of [this.flow, this.heat, this.reach]) desk.listen(hear);
  }

  /** As it stands, with what takes longer as far as that is known: it is worked out behind where it is not, and nobody waits for it. */
  async standing(id: string): Promise<StandingWithAll> {
    const kept = await this.shelf.openCar(id);
    const [stands, input] = [await this.standingOf(id, kept), await this.shared(id, kept.car)];
    const flow = this.behind === 'nothing' ? NOT_ASKED : this.flow.inPassing(id, input);
    const cook = this.behind === 'all' ? this.heat.inPassing(id, input, flow) : NOT_ASKED;
    const off = this.behind === 'all' ? this.reach.inPassing(id, input) : NOT_ASKED;
    return {
      ...standingWithFound(input.car, stands, { flow: flow.answer, heat: cook.answer, ...off.answer }),
      revision: kept.revision,
      behind: { flow: howFar(flow), cook: howFar(cook), off: howFar(off) },
    };
  }

  async standingOf(id: string, kept: Pick<KeptCar, 'car' | 'revision'>): Promise<StandingCar> {
    const input = await this.shared(id, kept.car);
    const tried = await this.tried.of(id);
    const key = `${input.key} ${tried.version}`;
    const answer = lastAsked(this.standings, key, () => this.crew.ask('standing', { input, tried: tried.ways }).answer);
    return { ...(await answer), revision: kept.revision };
  }

  /** What there is to cut of a car of the shelf: worked out once, whatever of it is drawn, printed or saved. */
  async toCut(id: string, car: Car): Promise<ToCut> {
    const input = await this.shared(id, car);
    return lastAsked(this.cuts, input.key, () => this.crew.ask('cut', { input }).answer);
  }

  /** Its panels on the sheets at hand. */
  async onSheets(id: string, car: Car): Promise<PanelNest> {
    const { key } = await this.shared(id, car);
    const { panels } = await this.toCut(id, car);
    return lastAsked(this.nests, key, () => this.crew.work('nest', { panels, sheets: car.sheets }).answer);
  }

  /** The number of a snag opened up; null where the car has no such snag now. */
  async opened(id: string, snag: string): Promise<OpenedNumber | null> {
    const { car } = await this.shelf.openCar(id);
    return openedSnag(carWithShop(car, await this.shelf.shop()), await this.standing(id), snag);
  }

  /** The thread for long work learns the car before it is asked. */
  async makeReady(id: string, car: Car): Promise<void> {
    await this.crew.work('ready', { input: await this.shared(id, car) }).answer;
  }

  private dragged: { readonly at: string; readonly input: SharedCar } | null = null;

  /** Gaps of all lines to a part in the builder's hand. The car does not change while it is dragged, so it is handed over once. */
  async drag(id: string, revision: number, wish: DragWish): Promise<Dragged> {
    const at = `${id} ${revision}`;
    if (this.dragged?.at !== at) {
      const kept = await this.shelf.openCar(id);
      if (kept.revision !== revision)
        throw new RequestFault(409, `the car has changed: it is at ${kept.revision}, the drag began at ${revision}`);
      this.dragged = { at, input: await this.shared(id, kept.car) };
    }
    const { input } = this.dragged;
    if (!input.car.parts.some((part) => part.id === wish.part))
      throw new RequestFault(404, `there is no part "${wish.part}" in this car`);
    const ask = () => this.crew.ask('drag', { key: input.key, ...wish }).answer;
    const known = await ask();
    if (known !== null) return known;
    await this.crew.ask('ready', { input }).answer;
    return (await ask()) ?? { gaps: [], ghosts: [] };
  }

  /** What a plan or a search made of lines that found no way, for their snags. */
  noteTried(id: string, refused: ReadonlyMap<string, Way>, found: readonly string[]): Promise<void> {
    return this.tried.note(id, refused, found);
  }
}
