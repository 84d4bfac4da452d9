import type { Way } from '#lines';
import type { Catalogue } from '#standards';
import type { Pen, Shape, Spot } from './drawing.ts';
import { type DrawnFitting, drawnFitting, type FittingItem, portBoss, type StripScale } from './fitting-shapes.ts';
import type { StripItem } from './make-up-parts.ts';
import { numberTag } from './number-tag.ts';
import { pictureBounds } from './picture-bounds.ts';
import { drawnRuns, leastRunsWidth, trueWidth } from './run-shapes.ts';
import type { RowWish } from './strip-wish.ts';
import { type Pose, turnOf } from './unrolled.ts';

export type StripRow = readonly StripItem[];
/** How thick the thickest part is drawn: a -16 hose end at this many ems, others by a gentler law, so that small ones are seen. */
const USUAL_OD_MM = 40;
const USUAL_EMS = 2.5;
const GENTLER = 0.55;
/** Tried again this much smaller until the row has room. */
const SMALLER = 0.88;
const TRIES = 16;
/** What adding up places may miss by. */
const ROUNDING = 1e-6;

/** One row of the strip: what is at the left, the runs between, what is at the right. */
export function stripRow(items: StripRow, way: Way, catalogue: Catalogue, wish: RowWish): Shape[] {
  const thickest = Math.max(...way.bodies.map((body) => body.odMm));
  let scale = ((wish.size * USUAL_EMS) / thickest) * (thickest / USUAL_OD_MM) ** GENTLER;
  let drawn: Shape[] = [];
  for (let i = 0; i < TRIES; i++, scale *= SMALLER) {
    const made = rowAt(items, way, catalogue, wish, scale);
    drawn = made.shapes;
    const box = pictureBounds(drawn);
    if (made.fits && box.right - box.left <= wish.width + ROUNDING) return drawn;
  }
  return drawn;
}

function rowAt(items: StripRow, way: Way, catalogue: Catalogue, wish: RowWish, scale: number) {
  const firstSoft = items.findIndex((item) => item.kind === 'run' || item.kind === 'over');
  const lastSoft = items.findLastIndex((item) => item.kind === 'run' || item.kind === 'over');
  const [left, runs, right] =
    firstSoft < 0
      ? [[], [], items]
      : [items.slice(0, firstSoft), items.slice(firstSoft, lastSoft + 1), items.slice(lastSoft + 1)];
  const pen: Pen = { role: 'ink', width: wish.size * 0.11 };
  const look: StripScale = { scale, pen, thin: { role: 'ink', width: wish.size * 0.055 } };
  const softOd = Math.max(0, ...runs.map((item) => ('odMm' in item ? item.odMm : 0)));
  const ends = { look, catalogue, wish, softOd };
  const atLeft = chain([...left].reverse(), { at: [0, 0], headingRad: Math.PI }, 1, ends);
  const probe = chain(right, { at: [0, 0], headingRad: 0 }, -1, ends);
  const leftBox = atLeft.shapes.length === 0 ? null : pictureBounds(atLeft.shapes);
  const rightBox = probe.shapes.length === 0 ? null : pictureBounds(probe.shapes);
  const room = wish.width - Math.max(0, -(leftBox?.left ?? 0)) - Math.max(0, rightBox?.right ?? 0);
  const inwards = Math.max(0, leftBox?.right ?? 0) + Math.max(0, -(rightBox?.left ?? 0));
  const least = Math.max(leastRunsWidth(runs, scale, wish), inwards + wish.size * 2, wish.width * 0.18);
  const length = Math.max(least, Math.min(room, trueWidth(runs, scale)));
  const middle = drawnRuns(runs, way, length, look, wish);
  const atRight = chain(right, { at: [length, 0], headingRad: 0 }, -1, ends);
  return { shapes: [...middle, ...atLeft.shapes, ...atRight.shapes], fits: room >= least };
}

interface EndsLook {
  readonly look: StripScale;
  readonly catalogue: Catalogue;
  readonly wish: RowWish;
  readonly softOd: number;
}

/** Fittings one after the other from the hose outwards, ending in the port; each with its number beside it. */
function chain(items: readonly StripItem[], from: Pose, side: 1 | -1, ends: EndsLook): { shapes: Shape[] } {
  const { look, wish } = ends;
  const shapes: Shape[] = [];
  const numbers: Spot[] = [];
  const tags: Shape[] = [];
  let pose = from;
  let turned = 0;
  let width = ends.softOd * look.scale;
  // Numbers stand outside of the bend; above where there is none, for the cut length stands below.
  const tagSide = (turnOfAll(items) < NEARLY_STRAIGHT_RAD ? side : -side) as 1 | -1;
  for (const item of items) {
    let middle: Pose = pose;
    let half = width / 2;
    if (item.kind === 'fitting') {
      // Beyond half a turn the next bend goes back, or it would run into the hose.
      const way = turned > Math.PI * 1.03 ? (-side as 1 | -1) : side;
      const made: DrawnFitting = drawnFitting(item, outwards(item, side), pose, way, look, ends.catalogue);
      shapes.push(...made.shapes);
      turned += Math.abs(made.end.headingRad - pose.headingRad);
      pose = made.end;
      middle = made.middle;
      half = made.halfWidth;
      width = made.halfWidth * 2;
    } else if (item.kind === 'port') {
      const boss = portBoss(pose, Math.max(width * 1.35, wish.size * 1.6), wish.size * 0.95, look);
      middle = {
        at: [(pose.at[0] + boss.end.at[0]) / 2, (pose.at[1] + boss.end.at[1]) / 2],
        headingRad: pose.headingRad,
      };
      half = Math.max(width * 0.675, wish.size * 0.8);
      shapes.unshift(...boss.shapes);
      pose = boss.end;
    } else continue;
    tags.push(...numberTag(wish.names.get(item) ?? 0, middle, half, tagSide, numbers, wish.size));
  }
  return { shapes: [...shapes, ...tags] };
}

const NEARLY_STRAIGHT_RAD = 0.3;

const turnOfAll = (items: readonly StripItem[]): number =>
  items.reduce(
    (sum, item) => sum + (item.kind === 'fitting' ? item.bodies.reduce((s, body) => s + turnOf(body.steps), 0) : 0),
    0,
  );

/** A fitting's stretches from the hose outwards; at the left the line runs the other way. */
function outwards(item: FittingItem, side: 1 | -1) {
  if (side === -1) return item.bodies;
  const reversed = [...item.bodies].reverse();
  return reversed.map((body, i) => {
    // A step carries the turn before it: walked backwards, the turn before a step is the one that stood behind it.
    const turns = body.steps.map((step) => step.turnRad);
    const after = i === 0 ? 0 : (reversed[i - 1]!.steps[0]?.turnRad ?? 0);
    const steps = body.steps.map((step, k) => ({ lengthMm: step.lengthMm, turnRad: turns[k + 1] ?? after })).reverse();
    return { ...body, steps };
  });
}
