import { type CarG, pullOn } from './level.ts';
import { needPositive, FlowError } from '../flow-error.ts';

/** The first wave of a tank at 1 g: how fast it swings, how fast it dies. */
export interface FirstWave {
  readonly frequencyHz: number;
  /** Share of critical damping [-], 0 or more. */
  readonly damping: number;
}

/** A moment of the drive: what the car does, from here to the next sample run along a straight line. */
export interface GSample extends CarG {
  readonly timeS: number;
}

/** The surface at a moment: the g that it stands square to, which may run past the car's own. */
export interface MovingSurface {
  readonly timeS: number;
  readonly g: CarG;
  /** From the tank's upright to the surface's. */
  readonly tiltDeg: number;
  /** The wave was held at the limit: the number is no longer one of the linear theory. */
  readonly isHeld: boolean;
}

/** Two numbers of the plan: along and across the car. */
type Pair = readonly [number, number];

/** A pendulum beyond the horizontal is no surface any more [deg]; our choice. */
const MOST_TILT_DEG = 90;

/**
 * The surface through a time series of g, as the plane that the equivalent pendulum stands square to. Its two angles obey
 *
 *     t'' + 2 z w t' + w^2 (t - T) = 0,  w = 2 pi f sqrt(total g)
 *
 * T being where the car's own g would hold it. Solved exactly over each sample, T and w^2 taken as said by the sample's two
 * ends, so that the answer does not depend on how finely a straight run is sampled. It starts at rest.
 *
 * @throws FlowError for times that do not rise, or a wave without frequency
 */
export function movingSurface(wave: FirstWave, samples: readonly GSample[]): readonly MovingSurface[] {
  needPositive('frequencyHz', wave.frequencyHz, 'Hz');
  if (!(wave.damping >= 0 && Number.isFinite(wave.damping))) throw new FlowError('damping', wave.damping, '0 or more');
  const first = samples[0];
  if (first === undefined) return [];
  let was = aimOf(first);
  let at: Pair = was.angle;
  let rate: Pair = [0, 0];
  const out: MovingSurface[] = [surfaceAt(first, at, was.total, false)];
  samples.slice(1).forEach((sample, i) => {
    const before = samples[i]!;
    const span = sample.timeS - before.timeS;
    needPositive(`sample ${i + 1} timeS less the one before`, span, 's');
    const aim = aimOf(sample);
    const omega = 2 * Math.PI * wave.frequencyHz * Math.sqrt((was.total + aim.total) / 2);
    const step = (k: 0 | 1): Pair => stepOf(omega, wave.damping, span, [at[k], rate[k]], [was.angle[k], aim.angle[k]]);
    const [along, across] = [step(0), step(1)];
    const held = heldWithin([along[0], across[0]], [along[1], across[1]], Math.max(MOST_TILT_DEG, degOf(aim.angle)));
    at = held.at;
    rate = held.rate;
    was = aim;
    out.push(surfaceAt(sample, at, aim.total, held.isHeld));
  });
  return out;
}

const degOf = (angle: Pair): number => (Math.hypot(...angle) * 180) / Math.PI;

/** Where the car's own g holds the pendulum: the tilt as an angle along and across, and the pull [g]. */
function aimOf(g: CarG): { readonly angle: Pair; readonly total: number } {
  const pull = pullOn(g);
  const flat = Math.hypot(g.longitudinalG, g.lateralG);
  const tilt = Math.atan2(flat, g.verticalG);
  const total = Math.hypot(...pull);
  if (flat === 0) return { angle: [0, 0], total };
  return { angle: [(g.longitudinalG / flat) * tilt, (g.lateralG / flat) * tilt], total };
}

function surfaceAt(sample: GSample, angle: Pair, total: number, isHeld: boolean): MovingSurface {
  const tilt = Math.hypot(...angle);
  const across = tilt === 0 ? 0 : (total * Math.sin(tilt)) / tilt;
  const g = { longitudinalG: angle[0] * across, lateralG: angle[1] * across, verticalG: total * Math.cos(tilt) };
  return { timeS: sample.timeS, g, tiltDeg: degOf(angle), isHeld };
}

function heldWithin(at: Pair, rate: Pair, mostDeg: number): { at: Pair; rate: Pair; isHeld: boolean } {
  const tilt = degOf(at);
  if (tilt <= mostDeg) return { at, rate, isHeld: false };
  const back = mostDeg / tilt;
  const out = (at[0] * rate[0] + at[1] * rate[1]) / (at[0] ** 2 + at[1] ** 2);
  // What runs outward is stopped by the roof; what runs along it or back goes on.
  const kept: Pair = out > 0 ? [rate[0] - out * at[0], rate[1] - out * at[1]] : rate;
  return { at: [at[0] * back, at[1] * back], rate: kept, isHeld: true };
}

/** Differences of damping from 1 below which the two roots are one [-]. */
const CRITICAL = 1e-9;

/**
 * The damped oscillator over one step, exactly, toward an aim that runs along a straight line: place and rate at its end.
 *
 *     x = T(t) - 2 z v / w + y,  v the slope of T,  y the free swing from what is left
 */
export function stepOf(omega: number, damping: number, spanS: number, from: Pair, aim: Pair): Pair {
  const slope = (aim[1] - aim[0]) / spanS;
  // Without pull nothing draws the surface anywhere: it runs on.
  if (omega === 0) return [from[0] + from[1] * spanS, from[1]];
  const lag = (2 * damping * slope) / omega;
  const y = from[0] - aim[0] + lag;
  const u = from[1] - slope;
  const [place, rate] = freeSwing(omega, damping, spanS, y, u);
  return [aim[1] - lag + place, slope + rate];
}

function freeSwing(omega: number, damping: number, t: number, y: number, u: number): Pair {
  const fade = damping * omega;
  const gap = 1 - damping * damping;
  if (Math.abs(gap) < CRITICAL) {
    const e = Math.exp(-omega * t);
    const b = u + omega * y;
    return [e * (y + b * t), e * (b - omega * (y + b * t))];
  }
  if (gap > 0) {
    const w = omega * Math.sqrt(gap);
    const e = Math.exp(-fade * t);
    const b = (u + fade * y) / w;
    const [c, s] = [Math.cos(w * t), Math.sin(w * t)];
    return [e * (y * c + b * s), e * ((b * w - fade * y) * c - (y * w + fade * b) * s)];
  }
  const w = omega * Math.sqrt(-gap);
  const [slow, fast] = [-(omega * omega) / (fade + w), -fade - w];
  const a = (u - fast * y) / (slow - fast);
  const [p, q] = [a * Math.exp(slow * t), (y - a) * Math.exp(fast * t)];
  return [p + q, slow * p + fast * q];
}

/** What a step of g does to a surface at rest. */
export interface StepTilt {
  /** Where it comes to rest. */
  readonly restDeg: number;
  /** How far it swings at most, held to the limit. */
  readonly mostDeg: number;
  /** When, after the step. */
  readonly afterS: number;
  readonly isHeld: boolean;
}

/** The swing after a step from rest on the level to a g held: first and greatest overshoot. */
export function stepTilt(wave: FirstWave, g: CarG): StepTilt {
  needPositive('frequencyHz', wave.frequencyHz, 'Hz');
  if (!(wave.damping >= 0 && Number.isFinite(wave.damping))) throw new FlowError('damping', wave.damping, '0 or more');
  const aim = aimOf(g);
  const restDeg = degOf(aim.angle);
  if (wave.damping >= 1) return { restDeg, mostDeg: restDeg, afterS: Infinity, isHeld: false };
  const root = Math.sqrt(1 - wave.damping ** 2);
  const free = restDeg * (1 + Math.exp((-Math.PI * wave.damping) / root));
  const mostDeg = Math.min(free, Math.max(MOST_TILT_DEG, restDeg));
  const afterS = 1 / (2 * wave.frequencyHz * Math.sqrt(aim.total) * root);
  return { restDeg, mostDeg, afterS, isHeld: mostDeg < free };
}
