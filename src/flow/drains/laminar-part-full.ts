/** Even number of steps of the integral: twice as many move the ratio by less than 1e-9. */
const steps = 400;

/**
 * Laminar flow in a part-full round pipe over that in the same pipe running full, at the same fall.
 *
 *     q = int y^2 dA - pi int_0^inf k tanh(k t) F(k)^2 dk,  F = r^2 sin t (k sin t cosh kt - cos t sinh kt)/sinh(k pi)
 *     ratio = 8 q/(pi r^4);  t = acos(1 - 2 h/D), y below the free surface
 *
 * The velocity solves Poisson's equation with no slip at the wall and no shear at the surface. In bipolar coordinates about
 * the two ends of the surface the wall is the line sigma = t; the harmonic part is a Fourier integral, and Green's theorem
 * turns the flow into the one integral above. Half full it gives 1/2 exactly, full 1.
 *
 * @param depthOverBore - depth over bore [-]
 * @returns flow over that of the full pipe [-]
 * @valid 0 <= depthOverBore <= 1
 * @source part-full-laminar
 * @example laminarPartFullRatio(0.8) // 1.2330
 */
export function laminarPartFullRatio(depthOverBore: number): number {
  if (depthOverBore <= 0) return 0;
  if (depthOverBore >= 1) return 1;
  const t = Math.acos(1 - 2 * depthOverBore);
  return (8 * (surfaceMoment(t) - Math.PI * harmonicPart(t))) / Math.PI;
}

/** int y^2 dA of a segment about its chord, for radius 1: about the centre by Steiner's rule. */
function surfaceMoment(t: number): number {
  const s = Math.sin(t);
  const c = Math.cos(t);
  // Over the segment, y measured from the centre downward; the surface lies at cos t.
  const area = t - s * c;
  const first = (2 * s ** 3) / 3;
  const second = (t - s * c + 2 * s ** 3 * c) / 4;
  return second - 2 * c * first + c * c * area;
}

/** int_0^inf k tanh(kt) F^2 dk for radius 1 by Simpson's rule; k = K u^3 puts the steps where the integrand is. */
function harmonicPart(t: number): number {
  const s = Math.sin(t);
  const c = Math.cos(t);
  const last = 25 / (Math.PI - t) + 5;
  let sum = 0;
  for (let i = 1; i <= steps; i++) {
    const u = i / steps;
    const k = last * u * u * u;
    const weight = i === steps ? 1 : i % 2 === 1 ? 4 : 2;
    const twice = Math.exp(-2 * k * t);
    // cosh kt and sinh kt over sinh k pi, both without their large powers.
    const fade = Math.exp(-k * (Math.PI - t)) / (1 - Math.exp(-2 * k * Math.PI));
    const f = s * fade * (k * s * (1 + twice) - c * (1 - twice));
    sum += weight * k * ((1 - twice) / (1 + twice)) * f * f * 3 * last * u * u;
  }
  return sum / (3 * steps);
}

/**
 * Laminar flow in a round pipe that runs full under its own weight.
 *
 *     Q = pi rho g D^4 sin(fall)/(128 mu)
 *
 * @param boreM - bore [m]
 * @param slope - sine of the fall [-]
 * @param densityKgM3 - density [kg/m3]
 * @param viscosityPaS - viscosity [Pa s]
 * @returns flow [m3/s]
 * @valid Reynolds number below 2000
 * @source poiseuille-1840
 * @example 60000 * laminarFullDrain(0.0127, 0.34202, 845, 0.01) // 10.858
 */
export const laminarFullDrain = (boreM: number, slope: number, densityKgM3: number, viscosityPaS: number): number =>
  (Math.PI * densityKgM3 * 9.80665 * boreM ** 4 * slope) / (128 * viscosityPaS);
