import { laminarUpTo, turbulentFrom } from './friction-factor.ts';

/**
 * Which equation a bore's friction follows: `all-regimes` is the one this project works with; the others are for
 * published networks that were worked with them, and are joined to laminar flow between Reynolds 2000 and 4000.
 */
export type FrictionRule = 'all-regimes' | 'colebrook' | 'haaland' | 'swamee-jain' | 'blasius';

/**
 * Writes f Re^2 and its slope d(f Re^2)/dRe for a Reynolds number above zero. The product is worked with, not f: it is what
 * the pressure is proportional to, it rises throughout, and at rest it goes to zero instead of f to infinity.
 */
export type FrictionForce = (reynolds: number, out: Float64Array) => void;

/** Below this the other terms of the all-regime equation are smaller than the last bit of 64 Re [-]. */
const surelyLaminar = 700;
const eightTo12 = 8 ** 12;

/** The friction of one bore by one rule. */
export function frictionForce(rule: FrictionRule, relativeRoughness: number): FrictionForce {
  return rule === 'all-regimes' ? allRegimeForce(relativeRoughness) : joinedForce(rule, relativeRoughness);
}

/**
 * The all-regime equation as 8 Re (8^12 + H)^(1/12) with H = Re^12 (A + B)^-1.5. It rises: d ln(f Re^2)/d ln Re =
 * 1 + H/(8^12 + H) (1 - s/8) with s = d ln(A + B)/d ln Re <= 14.4/ln(Re/7) < 5 where H counts.
 */
function allRegimeForce(relativeRoughness: number): FrictionForce {
  const rough = 0.27 * relativeRoughness;
  const lnSeven = Math.log(7);
  return (re, out) => {
    if (re < surelyLaminar) {
      out[0] = 64 * re;
      out[1] = 64;
      return;
    }
    const e = Math.exp(0.9 * (lnSeven - Math.log(re)));
    const x = e + rough;
    const theta = -2.457 * Math.log(x);
    const theta4 = theta * theta * theta * theta;
    const a = theta4 * theta4 * theta4 * theta4;
    const q = 37530 / re;
    const q4 = q * q * q * q;
    const b = q4 * q4 * q4 * q4;
    const sum = a + b;
    const re4 = re * re * re * re;
    const h = (re4 * re4 * re4) / (sum * Math.sqrt(sum));
    const rise = ((16 * 2.457 * 0.9 * e * a) / (x * theta) - 16 * b) / sum;
    const force = 8 * re * Math.cbrt(Math.sqrt(Math.sqrt(eightTo12 + h)));
    out[0] = force;
    out[1] = (force / re) * (1 + (h / (eightTo12 + h)) * (1 - rise / 8));
  };
}

/** A turbulent rule above 4000, 64 Re below 2000, and between them a cubic of ln(f Re^2) over ln Re with both end slopes. */
function joinedForce(rule: Exclude<FrictionRule, 'all-regimes'>, relativeRoughness: number): FrictionForce {
  const turbulent = turbulentForce(rule, relativeRoughness);
  const edge = new Float64Array(2);
  turbulent(turbulentFrom, edge);
  const width = Math.log(turbulentFrom / laminarUpTo);
  const y0 = Math.log(64 * laminarUpTo);
  const rise = Math.log(edge[0]!) - y0;
  // Both end slopes in units of the band's width; they lie below three times the rise, so that the cubic rises.
  const m0 = width;
  const m1 = ((turbulentFrom * edge[1]!) / edge[0]!) * width;
  const c2 = 3 * rise - 2 * m0 - m1;
  const c3 = m0 + m1 - 2 * rise;
  return (re, out) => {
    if (re <= laminarUpTo) {
      out[0] = 64 * re;
      out[1] = 64;
    } else if (re >= turbulentFrom) turbulent(re, out);
    else {
      const t = Math.log(re / laminarUpTo) / width;
      const force = Math.exp(y0 + t * (m0 + t * (c2 + t * c3)));
      out[0] = force;
      out[1] = (force * (m0 + t * (2 * c2 + 3 * t * c3))) / (width * re);
    }
  };
}

/** f Re^2 of the turbulent rules; with x = 1/sqrt(f) it is (Re/x)^2, its slope 2 Re/x^2 (1 - Re x'/x). */
function turbulentForce(rule: Exclude<FrictionRule, 'all-regimes'>, relativeRoughness: number): FrictionForce {
  if (rule === 'blasius')
    return (re, out) => {
      const f = 0.3164 / Math.sqrt(Math.sqrt(re));
      out[0] = f * re * re;
      out[1] = 1.75 * f * re;
    };
  const rough = rule === 'haaland' ? (relativeRoughness / 3.7) ** 1.11 : relativeRoughness / 3.7;
  if (rule === 'colebrook') return colebrookForce(rough);
  const [factor, smooth, power] = rule === 'haaland' ? [1.8, 6.9, 1] : [2, 6.97 ** 0.9, 0.9];
  return (re, out) => {
    const part = power === 1 ? smooth / re : smooth / re ** power;
    const inside = rough + part;
    const x = -factor * Math.log10(inside);
    const reTimesSlope = (factor * power * part) / (Math.LN10 * inside);
    out[0] = (re / x) ** 2;
    out[1] = ((2 * re) / (x * x)) * (1 - reTimesSlope / x);
  };
}

function colebrookForce(rough: number): FrictionForce {
  return (re, out) => {
    const smooth = 2.51 / re;
    let x = 6;
    let inside = 0;
    for (let i = 0; i < 12; i++) {
      inside = rough + smooth * x;
      const step = (x + 2 * Math.log10(inside)) / (1 + (2 * smooth) / (Math.LN10 * inside));
      x -= step;
      if (Math.abs(step) < 1e-13 * x) break;
    }
    inside = rough + smooth * x;
    const k = 2 / (Math.LN10 * inside);
    const reTimesSlope = (k * smooth * x) / (1 + k * smooth);
    out[0] = (re / x) ** 2;
    out[1] = ((2 * re) / (x * x)) * (1 - reTimesSlope / x);
  };
}
