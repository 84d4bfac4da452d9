import type { LossLaw } from '../network/loss-law.ts';
import { FlowError, needNotNegative, needPositive } from '../flow-error.ts';

/** One point of a measured pump curve. */
export interface CurvePoint {
  readonly flowM3S: number;
  readonly headM: number;
}

/** A centrifugal pump by its curve at one speed, from its inlet (first end) to its outlet. */
export interface CentrifugalPump {
  readonly where: string;
  readonly curve: readonly CurvePoint[];
  readonly curveTurnsPerS: number;
}

const gravityMS2 = 9.80665;
/** A curve that is level at a point still falls by this share of its mean slope, so that its law rises. */
const leastSlopeShare = 1e-3;

/** A pump's head over its flow at the curve's own speed, and its slope, for any flow. */
type HeadCurve = (flowM3S: number, out: Float64Array) => void;

/**
 * A centrifugal pump at a speed as a law. The curve is a monotone cubic through its points, beyond them a parabola, and goes
 * with the speed by the affinity laws: head by its square, flow by itself. A curve whose head rises with the flow somewhere
 * is unstable there (two flows at one head) and is refused by name.
 */
export function centrifugalPumpLaw(pump: CentrifugalPump, turnsPerS: number, densityKgM3: number): LossLaw {
  const { where } = pump;
  needNotNegative(`${where}, speed`, turnsPerS, '1/s');
  needPositive(`${where}, density of the fluid`, densityKgM3, 'kg/m3');
  const head = headCurve(pump);
  const weight = densityKgM3 * gravityMS2;
  const out = new Float64Array(2);
  // A pump at rest is a resistance; a thousandth of the curve's speed gives its law without dividing by zero.
  const speed = Math.max(turnsPerS / pump.curveTurnsPerS, 1e-3);
  const standing = turnsPerS === 0;
  head(0, out);
  const shutHead = standing ? out[0]! : 0;
  return (flowM3S) => {
    head(flowM3S / speed, out);
    return { dropPa: -weight * speed * speed * (out[0]! - shutHead), slope: -weight * speed * out[1]! };
  };
}

function headCurve(pump: CentrifugalPump): HeadCurve {
  const points = checkedCurve(pump);
  const n = points.length;
  const q = Float64Array.from(points, (p) => p.flowM3S);
  const h = Float64Array.from(points, (p) => p.headM);
  const m = monotoneSlopes(q, h);
  const bend = (h[0]! - h[n - 1]!) / (q[n - 1]! - q[0]!) ** 2;
  return (flow, out) => {
    if (flow <= q[0]! || flow >= q[n - 1]!) {
      const end = flow <= q[0]! ? 0 : n - 1;
      const x = flow - q[end]!;
      const curve = end === 0 ? bend : -bend;
      out[0] = h[end]! + x * (m[end]! + curve * x);
      out[1] = m[end]! + 2 * curve * x;
      return;
    }
    let i = 0;
    while (flow > q[i + 1]!) i++;
    const width = q[i + 1]! - q[i]!;
    const t = (flow - q[i]!) / width;
    const rise = h[i + 1]! - h[i]!;
    const a = m[i]! * width;
    const b = m[i + 1]! * width;
    const c2 = 3 * rise - 2 * a - b;
    const c3 = a + b - 2 * rise;
    out[0] = h[i]! + t * (a + t * (c2 + t * c3));
    out[1] = (a + t * (2 * c2 + 3 * t * c3)) / width;
  };
}

/** Slopes at the points by the weighted harmonic mean (Fritsch and Butland), ends by the three-point rule kept falling. */
function monotoneSlopes(q: Float64Array, h: Float64Array): Float64Array {
  const n = q.length;
  const secant = (i: number) => (h[i + 1]! - h[i]!) / (q[i + 1]! - q[i]!);
  const floor = (leastSlopeShare * (h[n - 1]! - h[0]!)) / (q[n - 1]! - q[0]!);
  const m = new Float64Array(n);
  for (let i = 1; i + 1 < n; i++) {
    const left = q[i]! - q[i - 1]!;
    const right = q[i + 1]! - q[i]!;
    const share = (left + 2 * right) / (3 * (left + right));
    m[i] = (secant(i - 1) * secant(i)) / (share * secant(i) + (1 - share) * secant(i - 1));
  }
  const end = (at: number, next: number, width: number, nextWidth: number) => {
    const slope = ((2 * width + nextWidth) * at - width * next) / (width + nextWidth);
    return Math.max(3 * at, Math.min(slope, floor, at * leastSlopeShare));
  };
  const last = n - 2;
  m[0] = n === 2 ? secant(0) : end(secant(0), secant(1), q[1]! - q[0]!, q[2]! - q[1]!);
  m[n - 1] = n === 2 ? secant(0) : end(secant(last), secant(last - 1), q[n - 1]! - q[n - 2]!, q[n - 2]! - q[n - 3]!);
  return m;
}

function checkedCurve(pump: CentrifugalPump): readonly CurvePoint[] {
  const { where, curve } = pump;
  needPositive(`${where}, speed of the curve`, pump.curveTurnsPerS, '1/s');
  if (curve.length < 2) throw new FlowError(`${where}, points of the pump curve`, curve.length, '2 points or more');
  curve.forEach((p, i) => {
    needNotNegative(`${where}, flow of point ${i} of the pump curve`, p.flowM3S, 'm3/s');
    needNotNegative(`${where}, head of point ${i} of the pump curve`, p.headM, 'm');
  });
  for (let i = 1; i < curve.length; i++) {
    const a = curve[i - 1]!;
    const b = curve[i]!;
    if (!(b.flowM3S > a.flowM3S))
      throw new FlowError(
        `${where}, flow of point ${i} of the pump curve`,
        `${b.flowM3S} m3/s`,
        `above ${a.flowM3S} m3/s, the point before`,
      );
    if (!(b.headM < a.headM))
      throw new FlowError(
        `${where}, pump curve from ${a.flowM3S} to ${b.flowM3S} m3/s`,
        `head goes from ${a.headM} to ${b.headM} m`,
        'a head that falls with the flow (a hump is unstable: two flows at one head)',
      );
  }
  return curve;
}
