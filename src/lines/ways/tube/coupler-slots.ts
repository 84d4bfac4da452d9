import { type Vec, addScaled, distance, dot, sub } from '#geometry';
import { type Corners, tubeRun } from './tube-run.ts';

/** A place for a coupler on the way of tubes: its middle, and the way the line runs there. */
export interface Slot {
  readonly at: Vec;
  readonly along: Vec;
  /** How many of the places that the tubes are led through come before it. */
  readonly stopsBefore: number;
}

/** What the couplers between tubes want of a way over. */
export interface SlotNeeds {
  /** Straight that the first tube must begin with, and the last end with [mm]. */
  readonly startMm: number;
  readonly endMm: number;
  readonly couplers: readonly {
    /** Straight tube wanted before and after the hose that shows, what lies under the hose included [mm]. */
    readonly beforeMm: number;
    readonly afterMm: number;
    showingMm(at: Vec, along: Vec): number;
    isClear(at: Vec, along: Vec): boolean;
  }[];
  /** Least length of each tube [mm]. */
  readonly apartMm: readonly number[];
  /** Places that a coupler cannot sit on, and what they want free on either side [mm]. */
  readonly stops: readonly { readonly at: Vec; readonly roomMm: number }[];
}

export interface SlotSet {
  readonly slots: readonly Slot[];
  /** How far the couplers lie from dividing the way evenly, summed [mm]. */
  readonly unevenMm: number;
  /** The straights are too short as they are: the tubes must find others. */
  readonly forced: boolean;
}

/** Sets of places that are carried on, coupler by coupler. */
const KEPT = 12;
/** Sets given for one way over. */
const GIVEN = 3;

interface Straight {
  readonly fromMm: number;
  readonly toMm: number;
  readonly at: Vec;
  readonly along: Vec;
}

interface Partial {
  readonly slots: readonly (Slot & { readonly s: number; readonly endsMm: number })[];
  readonly unevenMm: number;
}

/**
 * Where couplers can sit on a way over: in order, each on a straight with room for it, those first that divide the way most
 * evenly. Where no straight is long enough, the middles of the legs, to be tried.
 */
export function slotSets(corners: Corners, radiusMm: number, needs: SlotNeeds): SlotSet[] {
  const { lengthMm } = tubeRun(corners, radiusMm);
  const straights = straightsOf(corners, radiusMm);
  const stops = needs.stops.map((stop) => ({ ...stop, s: nearestOn(straights, stop.at) }));
  const given = (forced: boolean): SlotSet[] => {
    let sets: Partial[] = [{ slots: [], unevenMm: 0 }];
    needs.couplers.forEach((_, k) => {
      const wantedMm = (lengthMm * (k + 1)) / (needs.couplers.length + 1);
      sets = sets.flatMap((set) =>
        straights.flatMap((straight) => {
          const slot = slotOn(straight, lengthMm, needs, k, set.slots.at(-1)?.endsMm ?? null, stops, wantedMm, forced);
          if (slot === null) return [];
          return [{ slots: [...set.slots, slot], unevenMm: set.unevenMm + Math.abs(slot.s - wantedMm) }];
        }),
      );
      sets.sort((p, q) => p.unevenMm - q.unevenMm);
      sets = sets.slice(0, KEPT);
    });
    return sets.slice(0, GIVEN).map(({ slots, unevenMm }) => ({ slots, unevenMm, forced }));
  };
  const good = given(false);
  return good.length > 0 ? good : given(true);
}

/** The place on a straight nearest to where the coupler is wanted; null where it has no room. */
function slotOn(
  straight: Straight,
  lengthMm: number,
  needs: SlotNeeds,
  k: number,
  before: number | null,
  stops: readonly { readonly s: number; readonly roomMm: number }[],
  wantedMm: number,
  forced: boolean,
): (Slot & { s: number; endsMm: number }) | null {
  const coupler = needs.couplers[k]!;
  const middle = addScaled(straight.at, straight.along, (straight.toMm - straight.fromMm) / 2);
  const half = coupler.showingMm(middle, straight.along) / 2;
  const beforeMm = half + coupler.beforeMm;
  const afterMm = half + coupler.afterMm;
  const first = before === null ? needs.startMm : before + needs.apartMm[k]!;
  const isLast = k === needs.couplers.length - 1;
  const lo = forced ? straight.fromMm : Math.max(straight.fromMm + beforeMm, first + half);
  const hi = forced ? straight.toMm : Math.min(straight.toMm - afterMm, lengthMm - (isLast ? needs.endMm + half : 0));
  if (hi < lo || (forced && before !== null && lo < before)) return null;
  const wanted = forced ? (lo + hi) / 2 : Math.max(lo, Math.min(hi, wantedMm));
  const isFree = (s: number): boolean =>
    s >= lo - 1e-9 &&
    s <= hi + 1e-9 &&
    stops.every((stop) => stop.s - s >= afterMm + stop.roomMm || s - stop.s >= beforeMm + stop.roomMm) &&
    coupler.isClear(addScaled(straight.at, straight.along, s - straight.fromMm), straight.along);
  for (let off = 0; off <= hi - lo + STEP_MM; off += STEP_MM)
    for (const s of off === 0 ? [wanted] : [wanted - off, wanted + off])
      if (isFree(s))
        return {
          at: addScaled(straight.at, straight.along, s - straight.fromMm),
          along: straight.along,
          stopsBefore: stops.filter((stop) => stop.s < s).length,
          s,
          endsMm: s + half,
        };
  return null;
}

/** Where a straight is not free in its middle, places this far apart are looked at [mm]. */
const STEP_MM = 25;

function straightsOf(corners: Corners, radiusMm: number): Straight[] {
  const { straightsMm, bendsRad, along } = tubeRun(corners, radiusMm);
  let s = 0;
  return along.map((d, i) => {
    const tangent = i === 0 ? 0 : radiusMm * Math.tan(bendsRad[i - 1]! / 2);
    const straight = {
      fromMm: s,
      toMm: s + Math.max(0, straightsMm[i]!),
      at: addScaled(corners[i]!, d, tangent),
      along: d,
    };
    s += straightsMm[i]! + radiusMm * (bendsRad[i] ?? 0);
    return straight;
  });
}

/** How far along the way its nearest straight place to a point lies [mm]. */
function nearestOn(straights: readonly Straight[], point: Vec): number {
  let best = { s: 0, d: Number.POSITIVE_INFINITY };
  for (const { fromMm, toMm, at, along } of straights) {
    const off = Math.max(0, Math.min(toMm - fromMm, dot(sub(point, at), along)));
    const d = distance(point, addScaled(at, along, off));
    if (d < best.d) best = { s: fromMm + off, d };
  }
  return best.s;
}
