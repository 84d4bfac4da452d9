import type { Fastener, Line, Part } from '#car';
import { type Bounds, grown } from '#geometry';
import { BY_HAND_KG } from '#standards';
import { fastenerMinutes, jointWork, minutesOf } from '../minutes/minutes-of.ts';
import type { Nut } from '../tool-reach.ts';
import { handReach, leastSets, staysOn } from './hand-reach.ts';
import { PartWays } from './part-ways.ts';
import { endId, type Scene, sceneOf, type SceneObstacle } from './scene.ts';
import type { AccessWorld } from '../access-world.ts';
import { bit, type Bond, type Clause, type InTheWay, type StripProblem, type Thing } from './strip-problem.ts';

/** One litre that runs counts as this much work [min], and each thing that comes off as this: what is weighed against minutes. */
export const LITRE_COSTS_MIN = 1;
const THING_COSTS_MIN = 0.05;
/** A joint of these that is opened counts as so much more work [min]: fuel is let down first, brakes and clutch are bled after. From memory. */
const OPENED_COSTS_MIN: Readonly<Record<string, number>> = { fuel: 3, 'fuel-return': 3, brake: 10, clutch: 10 };

/** Balls stand out of a part by less [mm]: only parts so near stand against each other. */
const NEAR_MM = 30;

const reachOver = (a: Bounds, b: Bounds): boolean =>
  [0, 1, 2].every((i) => a.min[i]! <= b.max[i]! && b.min[i]! <= a.max[i]!);

/** What a thing is. */
export type ThingKind = 'part' | 'panel' | 'line' | 'end' | 'hand';

/** The car as a strip-down problem: what may come off, without a goal yet. */
export interface CarProblem {
  readonly scene: Scene;
  readonly ways: PartWays;
  readonly kinds: readonly ThingKind[];
  readonly placeOf: ReadonlyMap<string, number>;
  readonly problem: Omit<StripProblem, 'goal'>;
  /** What is carried by what, all the way up: a part with all that it carries. */
  readonly groupOf: (id: string) => readonly string[];
  /** Nuts that no straight way of a hand was found for. */
  readonly unreached: ReadonlySet<string>;
  /** Minutes, litres aside. */
  readonly minutesOf: (place: number) => number;
}

/** A hand at a fastener or joint, as a name. */
export const nutId = (nut: Nut): string =>
  nut.kind === 'fastener' ? `${nut.part}/${nut.fastener}` : `${nut.line}@${nut.port}`;

/** @param litres - by end of a line: what runs from it when it is opened [L] */
export function carProblem(world: AccessWorld, litres: ReadonlyMap<string, number> = new Map()): CarProblem {
  return new Builder(sceneOf(world), litres).made();
}

class Builder {
  private readonly scene: Scene;
  private readonly litres: ReadonlyMap<string, number>;
  private readonly ids: string[] = [];
  private readonly kinds: ThingKind[] = [];
  private readonly minutes: number[] = [];
  private readonly placeOf = new Map<string, number>();
  private readonly unreached = new Set<string>();
  private readonly reaches = new Map<string, readonly Clause[]>();

  constructor(scene: Scene, litres: ReadonlyMap<string, number>) {
    this.scene = scene;
    this.litres = litres;
    const { car } = scene.world;
    for (const part of car.parts) this.add(part.id, 'part', part.staysOn === true ? 0 : this.lifting(part));
    for (const id of scene.panels.keys()) this.add(id, 'panel', minutesOf(car, 'panel-off').minutes);
    for (const line of car.lines) {
      this.add(line.id, 'line', this.lineMinutes(line));
      for (const which of ['from', 'to'] as const)
        this.add(endId(line.id, which), 'end', this.jointMinutes(line, which));
    }
  }

  private add(id: string, kind: ThingKind, minutes: number): void {
    this.placeOf.set(id, this.ids.length);
    this.ids.push(id);
    this.kinds.push(kind);
    this.minutes.push(minutes);
  }

  made(): CarProblem {
    const { car } = this.scene.world;
    const groupOf = this.groups();
    const ways = new PartWays(this.scene, groupOf);
    const things = this.ids.map((id, place) => lazyNeeds(this.thing(id, place), () => this.needsOf(id, place)));
    return {
      scene: this.scene,
      ways,
      kinds: this.kinds,
      placeOf: this.placeOf,
      groupOf,
      unreached: this.unreached,
      minutesOf: (place) => this.minutes[place]!,
      problem: {
        things,
        bonds: [
          ...car.parts.flatMap((part) => (part.fasteners ?? []).map((fastener) => this.bond(part, fastener))),
          ...[...this.scene.panels.values()].flatMap((row) => this.panelBonds(row.panel.id)),
        ],
        waysOf: (place) => (this.isSolid(place) ? ways.waysOf(this.ids[place]!) : ['free']),
        inTheWay: kept((place, way) => this.inTheWay(ways, place, way)),
        takersOf: (place) => this.takersOf(ways, place),
      },
    };
  }

  private isSolid(place: number): boolean {
    return this.kinds[place] === 'part' || this.kinds[place] === 'panel';
  }

  private lifting(part: Part): number {
    const { car } = this.scene.world;
    const byHoist = part.lifts === 'hoist' || (part.lifts === undefined && (part.massKg ?? 0) > BY_HAND_KG.value);
    return minutesOf(car, byHoist ? 'part-by-hoist' : 'part-by-hand').minutes;
  }

  private lineMinutes(line: Line): number {
    const { car, ways } = this.scene.world;
    const clamps = (ways.get(line.id)?.clamps ?? []).length;
    const through = line.through.reduce((sum, { kind }) => sum + minutesOf(car, kind).minutes, 0);
    return minutesOf(car, 'line-off').minutes + clamps * minutesOf(car, 'clamp').minutes + through;
  }

  private jointMinutes(line: Line, which: 'from' | 'to'): number {
    const { car, bay } = this.scene.world;
    const port = bay.ports.get(line[which])?.port;
    return port === undefined ? 0 : minutesOf(car, jointWork(port, line)).minutes;
  }

  private thing(id: string, place: number): Omit<Thing, 'needs'> {
    const { car, bay } = this.scene.world;
    const kind = this.kinds[place]!;
    const part = bay.partById.get(id)?.part;
    const line = kind === 'line' ? car.lines.find((one) => one.id === id) : undefined;
    const partOf = (ref: string): number => this.placeOf.get(ref.split('.')[0]!) ?? -1;
    const ends = car.lines.flatMap((one) =>
      (['from', 'to'] as const).flatMap((which) =>
        one[which].split('.')[0] === id ? [this.placeOf.get(endId(one.id, which))!] : [],
      ),
    );
    return {
      id,
      staysOn: kind === 'part' && part?.staysOn === true,
      cost: this.minutes[place]! + THING_COSTS_MIN + (kind === 'end' ? this.openingCosts(id) : 0),
      carries: car.parts.flatMap((rider) => (rider.sitsOn?.includes(id) ? [this.placeOf.get(rider.id)!] : [])),
      undoes: line === undefined ? (kind === 'part' ? ends : []) : [place + 1, place + 2],
      ...(line === undefined ? {} : { hangsBetween: [partOf(line.from), partOf(line.to)] }),
    };
  }

  /** What opening an end of a line counts for besides its minutes [min]. */
  private openingCosts(end: string): number {
    const line = this.scene.world.car.lines.find(({ id }) => end.startsWith(`${id}@`));
    return LITRE_COSTS_MIN * (this.litres.get(end) ?? 0) + (OPENED_COSTS_MIN[line?.duty ?? ''] ?? 0);
  }

  private needsOf(id: string, place: number): readonly Clause[] {
    const kind = this.kinds[place]!;
    const { car, bay } = this.scene.world;
    if (kind === 'part')
      return (bay.partById.get(id)?.part.comesAfter ?? []).map((before) => [bit(this.placeOf.get(before)!)]);
    if (kind === 'panel') return (this.scene.panels.get(id)?.lines ?? []).map((line) => [bit(this.placeOf.get(line)!)]);
    if (kind !== 'end') return [];
    const [lineId, which] = id.split('@') as [string, 'from' | 'to'];
    const ref = car.lines.find((line) => line.id === lineId)![which];
    const port = bay.ports.get(ref);
    if (port === undefined) return [];
    return this.reach({ kind: 'joint', line: lineId, port: ref }, () =>
      handReach(this.scene, port.at, null, new Set([port.partId, lineId])),
    );
  }

  private reach(nut: Nut, byHand: () => ReturnType<typeof handReach>): readonly Clause[] {
    const name = nutId(nut);
    const known = this.reaches.get(name);
    if (known !== undefined) return known;
    const sets = leastSets(byHand().clearedBy);
    if (sets.length === 0) this.unreached.add(name);
    const clause = sets.flatMap((set) => {
      const places = set.map((id) => this.placeOf.get(id));
      return places.some((place) => place === undefined) ? [] : [places.reduce((all, place) => all | bit(place!), 0n)];
    });
    const clauses: readonly Clause[] = clause.length === 0 || clause.includes(0n) ? [] : [clause];
    this.reaches.set(name, clauses);
    return clauses;
  }

  private bond(part: Part, fastener: Fastener): Bond {
    const own = new Set([part.id, ...(fastener.into === undefined ? [] : [fastener.into])]);
    const reach = () =>
      this.reach({ kind: 'fastener', part: part.id, fastener: fastener.id }, () =>
        handReach(this.scene, fastener.atMm, fastener.faces, own),
      );
    return lazyNeeds(
      {
        id: `${part.id}/${fastener.id}`,
        a: this.placeOf.get(part.id)!,
        b: fastener.into === undefined ? -1 : (this.placeOf.get(fastener.into) ?? -1),
        cost: fastenerMinutes(this.scene.world.car, fastener),
      },
      reach,
    );
  }

  /** The fixings of a panel, a bond for each kind: they face outwards and are reached from there. */
  private panelBonds(id: string): readonly Bond[] {
    const { fixings } = this.scene.panels.get(id)!;
    const kinds = [...new Set(fixings.map(({ kind }) => kind))];
    return kinds.flatMap((kind): Bond[] => {
      const count = fixings.filter((one) => one.kind === kind).length;
      const work = kind === 'screw' ? 'socket' : kind;
      if (work !== 'quarter-turn' && work !== 'rivnut' && work !== 'rivet' && work !== 'socket') return [];
      const each = minutesOf(this.scene.world.car, work).minutes;
      return [{ id: `${id}/${count} x ${kind}`, a: this.placeOf.get(id)!, b: -1, cost: count * each, needs: [] }];
    });
  }

  private inTheWay(ways: PartWays, place: number, way: string): readonly InTheWay[] | undefined {
    if (!this.isSolid(place)) return [];
    return ways
      .touches(this.ids[place]!, way)
      ?.map((touch) => this.inWay(touch, touch.kind === 'part' && ways.areAgainst(this.ids[place]!, touch)));
  }

  /** Parts and panels that stand against a part. */
  private takersOf(ways: PartWays, place: number): readonly number[] {
    const own = this.kinds[place] === 'part' ? this.obstacles().get(place) : undefined;
    if (own === undefined) return [];
    const near = grown(own.bounds, NEAR_MM);
    return [...this.obstacles()].flatMap(([taker, { bounds, owner }]) =>
      taker !== place && reachOver(near, bounds) && ways.areAgainst(owner, own) ? [taker] : [],
    );
  }

  private byPlace: ReadonlyMap<number, SceneObstacle> | undefined;
  /** Parts and panels as they stand, by place. */
  private obstacles(): ReadonlyMap<number, SceneObstacle> {
    return (this.byPlace ??= new Map(
      this.scene.obstacles.flatMap((way) =>
        way.kind === 'line' ? [] : [[this.placeOf.get(way.owner)!, way] as const],
      ),
    ));
  }

  private inWay(touch: SceneObstacle, mayGoAlong: boolean): InTheWay {
    const owner = this.placeOf.get(touch.owner)!;
    if (touch.kind === 'line')
      return {
        line: owner,
        cleared: [bit(owner), ...touch.loosenedBy.map((end) => bit(this.placeOf.get(end)!))],
      };
    if (staysOn(this.scene, touch)) return { cleared: [] };
    return mayGoAlong ? { along: owner, cleared: [bit(owner)] } : { cleared: [bit(owner)] };
  }

  private groups(): (id: string) => readonly string[] {
    const { parts } = this.scene.world.car;
    const kept = new Map<string, readonly string[]>();
    const groupOf = (id: string): readonly string[] => {
      const known = kept.get(id);
      if (known !== undefined) return known;
      const riders = parts.filter(({ sitsOn }) => sitsOn?.includes(id));
      const all = [...new Set([id, ...riders.flatMap((rider) => groupOf(rider.id))])];
      kept.set(id, all);
      return all;
    };
    return groupOf;
  }
}

/** What is asked of each thing and way thousands of times is worked out once. */
function kept<T>(worked: (place: number, way: string) => T): (place: number, way: string) => T {
  const known: Map<string, T>[] = [];
  return (place, way) => {
    const ofPlace = (known[place] ??= new Map());
    if (!ofPlace.has(way)) ofPlace.set(way, worked(place, way));
    return ofPlace.get(way)!;
  };
}

/** What must be off before something is worked out only when it is asked for: most of a car is never asked. */
function lazyNeeds<T extends object>(
  row: T,
  needs: () => readonly Clause[],
): T & { readonly needs: readonly Clause[] } {
  let known: readonly Clause[] | undefined;
  return Object.defineProperty({ ...row } as T & { needs: readonly Clause[] }, 'needs', {
    enumerable: true,
    get: () => (known ??= needs()),
  });
}
