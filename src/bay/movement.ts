import type { Mover } from '#car';
import { composed, inverseOf, motionAbout, type RigidMotion, shifted, still, type Vec } from '#geometry';

/** A mover with the poses it is looked at in. */
export interface BayMover {
  readonly id: string;
  readonly name: string;
  /** Nominal first, then the extremes, then a few between. */
  readonly poses: readonly RigidMotion[];
  /** Nominal and the extremes only. */
  readonly extremes: readonly RigidMotion[];
  /** It swings so wide that between its ends there is room for what it would strike. */
  readonly isSwing: boolean;
}

/** Between nominal and an extreme, also half way, and never further on than this: a swing is not furthest out at its ends for everything beside it [deg]. */
const STEP_DEG = 4;

/** The poses a mover is looked at in: as drawn, each extreme of its swing with each end of its slide, and half way to each. */
export function bayMover(mover: Mover): BayMover {
  const turns: readonly number[] = mover.turnDeg ?? [0];
  const slides: readonly Vec[] = mover.slideMm ?? [[0, 0, 0]];
  const ends = turns.flatMap((turn) => slides.map((slide) => ({ turn, slide })));
  const steps = Math.max(2, ...turns.map((turn) => Math.ceil(Math.abs(turn) / STEP_DEG)));
  const at = (part: number): RigidMotion[] => ends.map((e) => pose(mover, e.turn * part, e.slide, part));
  const extremes = distinct([still, ...at(1)]);
  return {
    id: mover.id,
    name: mover.name ?? mover.id,
    extremes,
    poses: distinct([...extremes, ...Array.from({ length: steps - 1 }, (_, i) => at((i + 1) / steps)).flat()]),
    isSwing: steps > 2,
  };
}

function pose(mover: Mover, turnDeg: number, slide: Vec, part: number): RigidMotion {
  const moved = shifted([slide[0] * part, slide[1] * part, slide[2] * part]);
  if (turnDeg === 0 || mover.axis === undefined) return moved;
  return composed(moved, motionAbout(mover.pivotMm ?? [0, 0, 0], mover.axis, (turnDeg * Math.PI) / 180));
}

/** All poses of a mover: nominal, the extremes and a few between. */
export function poses(mover: BayMover): readonly RigidMotion[] {
  return mover.poses;
}

function distinct(motions: readonly RigidMotion[]): readonly RigidMotion[] {
  const kept: RigidMotion[] = [];
  for (const m of motions) if (!kept.some((k) => isSame(k, m))) kept.push(m);
  return kept;
}

function isSame(a: RigidMotion, b: RigidMotion): boolean {
  const near = (u: Vec, v: Vec): boolean => u.every((c, i) => Math.abs(c - v[i]!) < 1e-12 * Math.max(1, Math.abs(c)));
  return near(a.shift, b.shift) && a.rows.every((r, i) => near(r, b.rows[i]!));
}

/** One joint pose of what is concerned: where the line's two ends and a part have gone. */
export interface JointPose {
  readonly from: RigidMotion;
  readonly to: RigidMotion;
  readonly part: RigidMotion;
}

/**
 * Every joint pose of a line's two ends and a part that differs in how they stand to each other; nominal first. Two things on
 * one mover go together: if all three share one, nominal is all there is.
 *
 * @param ids - movers of the line's start, its other end and the part; null stands on the chassis
 */
export function jointPoses(
  movers: ReadonlyMap<string, BayMover>,
  ids: { readonly from: string | null; readonly to: string | null; readonly part: string | null },
): readonly JointPose[] {
  if (ids.from === ids.to && ids.to === ids.part) return [{ from: still, to: still, part: still }];
  const concerned = [...new Set([ids.from, ids.to, ids.part])].filter(
    (id) => id !== null && movers.has(id),
  ) as string[];
  let combos: ReadonlyMap<string, RigidMotion>[] = [new Map()];
  for (const id of concerned) {
    const mover = movers.get(id)!;
    const options = concerned.length === 1 || (mover.isSwing && id === ids.part) ? mover.poses : mover.extremes;
    combos = combos.flatMap((c) => options.map((o) => new Map([...c, [id, o]])));
  }
  const of = (c: ReadonlyMap<string, RigidMotion>, id: string | null): RigidMotion =>
    id === null ? still : (c.get(id) ?? still);
  return combos.map((c) => ({ from: of(c, ids.from), to: of(c, ids.to), part: of(c, ids.part) }));
}

/** The part's motion as seen from a line that stands still at that end. */
export function relativeTo(line: RigidMotion, part: RigidMotion): RigidMotion {
  if (line === still) return part;
  if (line === part) return still;
  return composed(inverseOf(line), part);
}
