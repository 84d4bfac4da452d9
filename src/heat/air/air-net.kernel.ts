import { WIRE_RANGE, wireScreenLoss } from './mesh-loss.ts';

/** An opening as the network sees it: plain numbers. */
export interface NetOpening {
  readonly areaM2: number;
  /** Loss on the velocity head in the opening, without a wire screen [-]. */
  readonly loss: number;
  /** Open share and gap of a wire screen; absent: none, or counted in `loss`. */
  readonly wireShare?: number;
  readonly wireGapM?: number;
  readonly heightM: number;
  readonly outsidePa: number;
}

/** Air inside and outside at one temperature of the bay. */
export interface TwoAirs {
  readonly inKgM3: number;
  readonly outKgM3: number;
  readonly inPaS: number;
  readonly outPaS: number;
}

/** How the flows through all openings balance. */
export interface Balanced {
  /** Inside over outside at height 0 [Pa]. */
  readonly levelPa: number;
  /** Of each opening; positive is out [kg/s]. */
  readonly massKgS: Float64Array;
  /** Inside over outside at each opening [Pa]. */
  readonly overPa: Float64Array;
  /** What comes in and what goes out through openings and by force differ by this [kg/s]. */
  readonly restKgS: number;
}

const GRAVITY = 9.80665;
/** Halvings and secants until the root stands to the last bits of a double. */
const MOST_STEPS = 200;
/** A screen's factor changes less than in proportion to the speed, so that this many rounds settle it to the last bits. */
const SCREEN_ROUNDS = 40;

/** Speed in the opening under a drop of pressure: linear when it creeps, a velocity head and its losses when it does not [m/s]. */
export function speedUnder(opening: NetOpening, dropPa: number, kgM3: number, paS: number): number {
  if (dropPa <= 0) return 0;
  const creep = (6 * Math.PI * paS) / Math.sqrt((4 * opening.areaM2) / Math.PI);
  const { wireShare, wireGapM } = opening;
  const at = (loss: number) => (2 * dropPa) / (creep + Math.sqrt(creep * creep + 2 * kgM3 * loss * dropPa));
  if (wireShare === undefined || wireGapM === undefined) return at(opening.loss);
  let speed = at(opening.loss + wireScreenLoss(wireShare, WIRE_RANGE.most));
  for (let i = 0; i < SCREEN_ROUNDS; i++) {
    const next = at(opening.loss + wireScreenLoss(wireShare, (kgM3 * (speed / wireShare) * wireGapM) / paS));
    if (Math.abs(next - speed) <= 1e-15 * next) return next;
    speed = next;
  }
  return speed;
}

/**
 * The one pressure inside at which as much goes out as comes in: each flow rises with it, so that there is no other.
 *
 * @param forcedOutKgS - what fan and engine take out less what a fan blows in
 */
export function balancedFlows(openings: readonly NetOpening[], airs: TwoAirs, forcedOutKgS: number): Balanced {
  const stack = (airs.outKgM3 - airs.inKgM3) * GRAVITY;
  // Where each opening has no drop.
  const still = openings.map(({ heightM, outsidePa }) => outsidePa - stack * heightM);
  const massAt = (levelPa: number, i: number): number => {
    const over = levelPa - still[i]!;
    const [kgM3, paS] = over > 0 ? [airs.inKgM3, airs.inPaS] : [airs.outKgM3, airs.outPaS];
    return Math.sign(over) * kgM3 * openings[i]!.areaM2 * speedUnder(openings[i]!, Math.abs(over), kgM3, paS);
  };
  const sumAt = (levelPa: number): number => {
    let sum = forcedOutKgS;
    for (let i = 0; i < openings.length; i++) sum += massAt(levelPa, i);
    return sum;
  };
  const levelPa = openings.length === 0 ? 0 : root(sumAt, Math.min(...still), Math.max(...still));
  return {
    levelPa,
    massKgS: Float64Array.from(openings, (_, i) => massAt(levelPa, i)),
    overPa: Float64Array.from(openings, ({ heightM }) => levelPa + stack * heightM),
    restKgS: sumAt(levelPa),
  };
}

/** The root of a rising function, from a bracket that is widened until it holds it. */
function root(f: (x: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  let [fLow, fHigh] = [f(low), f(high)];
  for (let wider = Math.max(1e-3, high - low); fLow > 0; wider *= 4) [low, fLow] = [low - wider, f(low - wider)];
  for (let wider = Math.max(1e-3, high - low); fHigh < 0; wider *= 4) [high, fHigh] = [high + wider, f(high + wider)];
  return closedIn(f, low, fLow, high, fHigh);
}

/** Secants that keep the root between two ends, with a halving where one end stays (Illinois). */
export function closedIn(f: (x: number) => number, a: number, fa: number, b: number, fb: number): number {
  let [low, fLow, high, fHigh] = [a, fa, b, fb];
  if (fLow === 0) return low;
  if (fHigh === 0) return high;
  let stayed = 0;
  for (let i = 0; i < MOST_STEPS; i++) {
    const secant = high - (fHigh * (high - low)) / (fHigh - fLow);
    const inside = Number.isFinite(secant) && (secant - low) * (high - secant) > 0;
    const x = inside && i % 4 !== 3 ? secant : (low + high) / 2;
    if (x === low || x === high) break;
    const fx = f(x);
    if (fx === 0) return x;
    if (Math.sign(fx) === Math.sign(fLow)) {
      [low, fLow] = [x, fx];
      if (stayed === 1) fHigh /= 2;
      stayed = 1;
    } else {
      [high, fHigh] = [x, fx];
      if (stayed === -1) fLow /= 2;
      stayed = -1;
    }
    if (Math.abs(high - low) <= 4e-16 * Math.max(Math.abs(low), Math.abs(high))) break;
  }
  return Math.abs(f(low)) < Math.abs(f(high)) ? low : high;
}
