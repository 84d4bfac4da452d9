import { type Bounds, norm, sub, unit, type Vec } from '#geometry';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { axisDirections } from './directions.ts';
import { movedMover, type Mover } from './mover.ts';
import type { Obstacle } from './obstacle.ts';
import { angleBetween, inPlace, motionOf, type Pose, poseBetween, turnAbout } from './pose.ts';
import { allowedDepth, lengthOut } from './straight-pulls.ts';
import { depthIn, touchesAlong } from './touch.kernel.ts';

/** Between two looks no place of the part goes further than this [mm]; what stands apart keeps half of it. */
const LOOK_MM = 4;
/** One step of the search: the middle moves by this at most [mm] ... */
const STEP_MM = 70;
/** ... and the part turns by this at most [rad]. */
const STEP_RAD = 0.35;
/** Shares of the aims: away along a way that is tried first; anywhere in and about the bay. */
const AIM_OUT = 0.45;
/** Aims lie this far beyond the part's own reach [mm]. */
const ABOUT_MM = 200;
/** Share of the aims that are turned about an axis of the car: bays are built along them. */
const SQUARE_AXIS = 0.6;

export interface TurningWish {
  readonly seed: number;
  /** How many places are tried before it is given up. */
  readonly tries: number;
  /** Told what is done; false stops. */
  readonly watch?: (done: number, total: number) => boolean;
}

/** A way out with turns, or none found. */
export interface TurningAnswer {
  readonly keys: readonly Pose[] | null;
  readonly tried: number;
}

interface Spot extends Pose {
  readonly from: number;
}

/**
 * A way out with turns: places grow from where the part stands towards seeded aims, each joined by a straight move with an even turn
 * that is looked at every few millimetres; from each a straight pull out is tried. None found says no more than that.
 */
export function turningWay(
  mover: Mover,
  obstacles: readonly Obstacle[],
  bounds: Bounds,
  directions: readonly Vec[],
  wish: TurningWish,
): TurningAnswer {
  const search = new Search(mover, obstacles, bounds, directions, wish.seed);
  for (let tried = 1; tried <= wish.tries; tried++) {
    if (wish.watch?.(tried, wish.tries) === false) return { keys: null, tried };
    const keys = search.step();
    if (keys !== null) return { keys, tried };
  }
  return { keys: null, tried: wish.tries };
}

class Search {
  private readonly spots: Spot[] = [{ ...inPlace, from: -1 }];
  private readonly allowed: readonly number[];
  private readonly generator: ReturnType<typeof xoroshiro128plus>;
  private readonly mover: Mover;
  private readonly obstacles: readonly Obstacle[];
  private readonly bounds: Bounds;
  private readonly directions: readonly Vec[];

  constructor(mover: Mover, obstacles: readonly Obstacle[], bounds: Bounds, directions: readonly Vec[], seed: number) {
    this.mover = mover;
    this.obstacles = obstacles;
    this.bounds = bounds;
    this.directions = directions;
    this.allowed = obstacles.map((way) => allowedDepth(mover, way));
    this.generator = xoroshiro128plus(seed);
    for (let n = 0; n < 8; n++) this.generator.next();
  }

  /** One more place; the whole way where it leads out. */
  step(): readonly Pose[] | null {
    const aim = this.aim();
    const from = this.nearest(aim);
    const to = this.towards(this.spots[from]!, aim);
    const got = this.reached(this.spots[from]!, to);
    if (got === null) return null;
    this.spots.push({ ...got, from });
    const out = this.pullOut(got);
    return out === null ? null : [...this.wayTo(this.spots.length - 1), out];
  }

  private chance(low: number, high: number): number {
    return low + (high - low) * uniformFloat64(this.generator);
  }

  private aim(): Pose {
    const isOut = this.chance(0, 1) < AIM_OUT;
    const direction = this.directions[Math.floor(this.chance(0, this.directions.length - 1e-9))]!;
    const far = this.chance(0, this.mover.reachMm + ABOUT_MM);
    const shift: Vec = isOut
      ? [direction[0] * far, direction[1] * far, direction[2] * far]
      : [this.chance(-1, 1) * far, this.chance(-1, 1) * far, this.chance(-1, 1) * far];
    const axis =
      this.chance(0, 1) < SQUARE_AXIS
        ? axisDirections[Math.floor(this.chance(0, axisDirections.length - 1e-9))]!
        : unit([this.chance(-1, 1), this.chance(-1, 1), this.chance(-1, 1) + 1e-9]);
    const angle = this.chance(0, 1) < 0.3 ? 0 : this.chance(-Math.PI / 2, Math.PI / 2);
    return { shift, turn: turnAbout(axis, angle) };
  }

  /** How far two poses lie apart: way of the middle and of the far side of the part [mm]. */
  private apart(a: Pose, b: Pose): number {
    return norm(sub(a.shift, b.shift)) + 0.5 * this.mover.reachMm * angleBetween(a.turn, b.turn);
  }

  private nearest(aim: Pose): number {
    let best = 0;
    let least = Infinity;
    this.spots.forEach((spot, i) => {
      const d = this.apart(spot, aim);
      if (d < least) [best, least] = [i, d];
    });
    return best;
  }

  private towards(from: Pose, aim: Pose): Pose {
    const way = norm(sub(aim.shift, from.shift));
    const angle = angleBetween(from.turn, aim.turn);
    return poseBetween(from, aim, Math.min(1, STEP_MM / Math.max(way, 1e-9), STEP_RAD / Math.max(angle, 1e-9)));
  }

  /** The furthest clear pose on the way, looked at step by step; null where not even a third of it is clear. */
  private reached(from: Pose, to: Pose): Pose | null {
    const way = norm(sub(to.shift, from.shift)) + this.mover.reachMm * angleBetween(from.turn, to.turn);
    const looks = Math.max(1, Math.ceil(way / LOOK_MM));
    let got: Pose | null = null;
    for (let k = 1; k <= looks; k++) {
      const pose = poseBetween(from, to, k / looks);
      if (!this.isClear(pose)) return 3 * k > looks ? got : null;
      got = pose;
    }
    return to;
  }

  private isClear(pose: Pose): boolean {
    const moved = movedMover(this.mover, motionOf(pose, this.mover.middle));
    return this.obstacles.every((way, i) => {
      const allowed = this.allowed[i]! === 0 ? -LOOK_MM / 2 : this.allowed[i]!;
      return depthIn(moved, way, allowed) <= allowed;
    });
  }

  private pullOut(pose: Pose): Pose | null {
    const moved = movedMover(this.mover, motionOf(pose, this.mover.middle));
    for (const direction of this.directions) {
      const length = lengthOut(moved, this.bounds, direction);
      const isFree = this.obstacles.every((way, i) => !touchesAlong(moved, way, direction, length, this.allowed[i]!));
      if (isFree)
        return {
          turn: pose.turn,
          shift: [
            pose.shift[0] + direction[0] * length,
            pose.shift[1] + direction[1] * length,
            pose.shift[2] + direction[2] * length,
          ],
        };
    }
    return null;
  }

  private wayTo(last: number): Pose[] {
    const keys: Pose[] = [];
    for (let i = last; i >= 0; i = this.spots[i]!.from)
      keys.unshift({ shift: this.spots[i]!.shift, turn: this.spots[i]!.turn });
    return keys;
  }
}
