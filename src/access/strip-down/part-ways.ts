import { dot, type Vec } from '#geometry';
import { joinedMover, movedMover, type Mover } from '../removal/mover.ts';
import { motionOf, type Pose, poseBetween } from '../removal/pose.ts';
import { allowedDepth, lengthOut } from '../removal/straight-pulls.ts';
import { depthIn, passesClear, touchesAlong } from '../removal/touch.kernel.ts';
import { twoPulls } from '../removal/two-pulls.ts';
import { turningWay } from '../removal/turning-way.ts';
import { ownDirections, type Scene, type SceneObstacle } from './scene.ts';
import { staysOn } from './hand-reach.ts';
import { COMMON } from './strip-moves.ts';

/** One straight way and what is in it. */
interface StraightWay {
  readonly key: string;
  readonly direction: Vec;
  readonly touches: readonly SceneObstacle[];
}

/** A way with turns and what is in it. */
interface TurnedWay {
  readonly keys: readonly Pose[];
  readonly touches: readonly SceneObstacle[];
}

/** Directions nearer than this are the same [-]: cosine of 3 degrees. */
const SAME = Math.cos((3 * Math.PI) / 180);
/** A sheet passes what is no nearer than this to its places [mm]. */
const SHEET_PASSES_MM = 8;
/** Places tried before a way with turns is given up. */
const TRIES = 2000;
const TRIES_PAST_ALL = 100;

/** How parts and panels come out of a scene. Each question is worked out once, and only when it is asked. */
export class PartWays {
  private readonly straight = new Map<string, readonly SceneObstacle[]>();
  private readonly directions = new Map<string, Vec>();
  private readonly byPart = new Map<string, readonly string[]>();
  /** By obstacle and part: the searches ask the same of each pair thousands of times. */
  private readonly against = new Map<SceneObstacle, Map<string, boolean>>();
  private readonly turned = new Map<string, TurnedWay | null>();
  private readonly scene: Scene;
  /** What is in the way for good. */
  private readonly staying: readonly SceneObstacle[];
  /** What may come off. */
  private readonly leaving: readonly SceneObstacle[];
  private readonly groupOf: (id: string) => readonly string[];
  /** Ids of parts for which no way was found, however much else comes off. */
  readonly wayless = new Set<string>();

  /** @param groupOf - a part with all that it carries */
  constructor(scene: Scene, groupOf: (id: string) => readonly string[]) {
    this.scene = scene;
    this.groupOf = groupOf;
    this.staying = scene.obstacles.filter((way) => staysOn(scene, way));
    this.leaving = scene.obstacles.filter((way) => !staysOn(scene, way));
    scene.common.forEach((direction, i) => this.directions.set(`${COMMON}${i}`, direction));
  }

  direction(key: string): Vec | undefined {
    return this.directions.get(key);
  }

  turn(key: string): TurnedWay | null {
    return this.turned.get(key) ?? null;
  }

  /**
   * The ways of a part that is wanted off: where every straight one wants other parts off first, one with turns past everything that is
   * on besides. `waysOf` stays as it is: what one job looks for leaves the next as it was.
   */
  waysOfWanted(id: string): readonly string[] {
    const ways = this.waysOf(id);
    const isBarred = (way: string): boolean => (this.touches(id, way) ?? []).some(({ kind }) => kind !== 'line');
    if (ways.length === 0 || ways.includes(turnedName(id)) || !ways.every(isBarred)) return ways;
    const known = this.turned.get(turnedName(id));
    if (known !== undefined) return known === null ? ways : [...ways, turnedName(id)];
    const key = this.turnedKey(id, true);
    return key === null ? ways : [...ways, key];
  }

  /** For the straight ways with least in them: what a part meets, first what stays on. */
  hindrances(id: string): readonly { readonly direction: Vec; readonly touches: readonly string[] }[] {
    return this.tried(id)
      .map(({ key, direction }) => ({ direction, touches: this.touches(id, key) ?? [] }))
      .toSorted((a, b) => a.touches.length - b.touches.length)
      .slice(0, 3)
      .map(({ direction, touches }) => ({
        direction,
        touches: [
          ...new Set(touches.toSorted((a, b) => rankOf(this.scene, a) - rankOf(this.scene, b)).map((way) => way.owner)),
        ],
      }));
  }

  /** A part with all that it carries: what a way with turns was looked for with. */
  goesWith(id: string): readonly string[] {
    return this.groupOf(id);
  }

  /** Keys of the ways of a part worth trying: a free one alone; else those whose touches hold no other's. */
  waysOf(id: string): readonly string[] {
    const known = this.byPart.get(id);
    if (known !== undefined) return known;
    const found = this.worked(id);
    this.byPart.set(id, found);
    return found;
  }

  private worked(id: string): readonly string[] {
    const candidates: StraightWay[] = [];
    const isStopped = this.stopping(id);
    for (const { key, direction } of this.tried(id)) {
      if (isStopped(direction)) continue;
      const touches = this.fewTouches(id, key, direction, candidates);
      if (touches === null) continue;
      if (touches.length === 0) return [key];
      candidates.push({ key, direction, touches });
    }
    const kept: StraightWay[] = [];
    for (const way of candidates.toSorted((a, b) => a.touches.length - b.touches.length))
      if (!kept.some((few) => few.touches.every((touch) => way.touches.includes(touch)))) kept.push(way);
    if (kept.length > 0) return kept.map(({ key }) => key);
    const key = this.turnedKey(id);
    if (key !== null) return [key];
    this.wayless.add(id);
    return [];
  }

  private tried(id: string): readonly { readonly key: string; readonly direction: Vec }[] {
    const own = ownDirections(this.scene, id).map((direction, i) => {
      const common = this.scene.common.findIndex((other) => dot(other, direction) > SAME);
      const key = common >= 0 ? `${COMMON}${common}` : `own ${id} ${i}`;
      this.directions.set(key, this.directions.get(key) ?? direction);
      return { key, direction };
    });
    const all = [...own, ...this.scene.common.map((direction, i) => ({ key: `${COMMON}${i}`, direction }))];
    return all.filter(({ key }, i) => all.findIndex((other) => other.key === key) === i);
  }

  /** What a part touches along a way; undefined: it cannot go so. */
  touches(id: string, key: string): readonly SceneObstacle[] | undefined {
    const direction = this.directions.get(key);
    return direction === undefined ? this.turnedTouches(id, key) : this.straightTouches(id, key, direction);
  }

  private straightTouches(id: string, key: string, direction: Vec): readonly SceneObstacle[] {
    const name = `${id}|${key}`;
    const known = this.straight.get(name);
    if (known !== undefined) return known;
    const found = this.scene.obstacles.filter((way) => way.owner !== id && this.isTouched(id, direction, way));
    this.straight.set(name, found);
    return found;
  }

  /** Whether something that stays on is in the way; what stopped the last way is looked at first. */
  private stopping(id: string): (direction: Vec) => boolean {
    const staying = this.staying.filter(({ owner }) => owner !== id);
    return (direction) => {
      const at = staying.findIndex((way) => this.isTouched(id, direction, way));
      if (at > 0) staying.unshift(...staying.splice(at, 1));
      return at >= 0;
    };
  }

  /** What may leave and is touched on a way; null once it is all that is touched on one of the others, and maybe more. */
  private fewTouches(
    id: string,
    key: string,
    direction: Vec,
    others: readonly StraightWay[],
  ): readonly SceneObstacle[] | null {
    const known = this.straight.get(`${id}|${key}`);
    if (known !== undefined) return known;
    const touched = new Set<SceneObstacle>();
    // What other ways meet is most likely met on this one too.
    const order = new Set([...others.flatMap(({ touches }) => touches), ...this.leaving]);
    for (const way of order) {
      if (way.owner === id || !this.isTouched(id, direction, way)) continue;
      touched.add(way);
      if (others.some(({ touches }) => touches.every((touch) => touched.has(touch)))) return null;
    }
    const found = this.leaving.filter((way) => touched.has(way));
    this.straight.set(`${id}|${key}`, found);
    return found;
  }

  private isTouched(id: string, direction: Vec, way: SceneObstacle): boolean {
    const mover = this.scene.moverFor(id);
    if (mover === undefined || this.scene.world.bay.partById.get(id)?.part.gives === true) return false;
    const length = lengthOut(mover, this.scene.bounds, direction);
    if (passesClear(mover, way, direction, length)) return false;
    // Sheets that lie edge to edge or over each other part where they meet.
    if (way.kind === 'panel' && this.scene.panels.has(id) && depthIn(mover, way, 0) > 0) return false;
    return touchesAlong(mover, way, direction, length, this.allowed(id, mover, way));
  }

  private readonly depths = new Map<string, number>();
  private allowed(id: string, mover: Mover, way: SceneObstacle): number {
    const name = `${id}|${way.id}`;
    let depth = this.depths.get(name);
    if (depth === undefined) {
      // A sheet gives: what it only passes close by does not hold it.
      const give = this.scene.panels.has(id) ? mover.overMm - SHEET_PASSES_MM : 0;
      this.depths.set(name, (depth = Math.max(give, allowedDepth(mover, way))));
    }
    return depth;
  }

  /** True where they stand against each other as drawn: one may go along with the other. */
  areAgainst(id: string, way: SceneObstacle): boolean {
    let known = this.against.get(way);
    if (known === undefined) this.against.set(way, (known = new Map()));
    let isAgainst = known.get(id);
    if (isAgainst === undefined) {
      const mover = this.scene.moverFor(id);
      isAgainst = mover !== undefined && depthIn(mover, way, 0) > 0;
      known.set(id, isAgainst);
    }
    return isAgainst;
  }

  private others(ids: readonly string[]): readonly SceneObstacle[] {
    return this.scene.obstacles.filter(({ owner }) => !ids.includes(owner));
  }

  private turnedTouches(id: string, key: string): readonly SceneObstacle[] | undefined {
    const way = this.turned.get(key);
    const root = key.slice('turn '.length);
    if (way === undefined || way === null || !this.groupOf(root).includes(id)) return undefined;
    return id === root ? way.touches : [];
  }

  /** In two pulls, else with turns. */
  private wayOut(id: string, mover: Mover, obstacles: readonly SceneObstacle[], tries: number): readonly Pose[] | null {
    const { bounds, common } = this.scene;
    return (
      twoPulls(mover, obstacles, bounds, ownDirections(this.scene, id), common) ??
      turningWay(mover, obstacles, bounds, common, { seed: 9, tries }).keys
    );
  }

  /** A way with turns past everything, or past what stays on: what else is in it has to come off first. */
  private turnedKey(id: string, isPastAll = false): string | null {
    const key = turnedName(id);
    const group = this.groupOf(id);
    const mover = joinedMover(group.flatMap((part) => this.scene.moverFor(part) ?? []));
    if (mover === undefined) return null;
    const attached = new Set(
      this.scene.world.car.lines.flatMap((line) =>
        group.some((part) => line.from.startsWith(`${part}.`) || line.to.startsWith(`${part}.`)) ? [line.id] : [],
      ),
    );
    const others = this.others(group).filter(({ owner, kind }) => kind !== 'line' || !attached.has(owner));
    const past = [others, ...(isPastAll ? [] : [others.filter((way) => staysOn(this.scene, way))])];
    for (const obstacles of past) {
      const keys = this.wayOut(id, mover, obstacles, isPastAll ? TRIES_PAST_ALL : TRIES);
      if (keys === null) continue;
      const touches = obstacles === others ? [] : touchedOn(mover, keys, others);
      this.turned.set(key, { keys, touches });
      return key;
    }
    this.turned.set(key, null);
    return null;
  }
}

const turnedName = (id: string): string => `turn ${id}`;

const rankOf = (scene: Scene, way: SceneObstacle): number => (staysOn(scene, way) ? 0 : 1);

/** Between two looks along a way with turns no place goes further than this [mm]. */
const LOOK_MM = 4;

/** What a mover touches on a way that was found past other things. */
function touchedOn(mover: Mover, keys: readonly Pose[], obstacles: readonly SceneObstacle[]): readonly SceneObstacle[] {
  const allowed = obstacles.map((way) => allowedDepth(mover, way));
  const touched = new Set<SceneObstacle>();
  keys.slice(1).forEach((to, i) => {
    const from = keys[i]!;
    const way = Math.hypot(...[0, 1, 2].map((k) => to.shift[k]! - from.shift[k]!)) + mover.reachMm;
    const looks = Math.ceil(way / LOOK_MM);
    for (let k = 1; k <= looks; k++) {
      const moved = movedMover(mover, motionOf(poseBetween(from, to, k / looks), mover.middle));
      obstacles.forEach((one, n) => {
        if (!touched.has(one) && depthIn(moved, one, allowed[n]!) > allowed[n]!) touched.add(one);
      });
    }
  });
  return [...touched];
}
