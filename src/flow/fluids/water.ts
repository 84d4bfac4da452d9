import { iceKelvin } from '#units';

/** A term n x^i y^j of a published sum. */
type Term = readonly [i: number, j: number, n: number];

const gasConstantJKgK = 461.526;
const criticalKelvin = 647.096;
const criticalDensityKgM3 = 322;

/** Region 1. Source: iapws-if97 table 2. */
const region1: readonly Term[] = [
  [0, -2, 0.14632971213167],
  [0, -1, -0.84548187169114],
  [0, 0, -0.3756360367204e1],
  [0, 1, 0.33855169168385e1],
  [0, 2, -0.95791963387872],
  [0, 3, 0.15772038513228],
  [0, 4, -0.16616417199501e-1],
  [0, 5, 0.81214629983568e-3],
  [1, -9, 0.28319080123804e-3],
  [1, -7, -0.60706301565874e-3],
  [1, -1, -0.18990068218419e-1],
  [1, 0, -0.32529748770505e-1],
  [1, 1, -0.21841717175414e-1],
  [1, 3, -0.5283835796993e-4],
  [2, -3, -0.47184321073267e-3],
  [2, 0, -0.30001780793026e-3],
  [2, 1, 0.47661393906987e-4],
  [2, 3, -0.44141845330846e-5],
  [2, 17, -0.72694996297594e-15],
  [3, -4, -0.31679644845054e-4],
  [3, 0, -0.28270797985312e-5],
  [3, 6, -0.85205128120103e-9],
  [4, -5, -0.22425281908e-5],
  [4, -2, -0.65171222895601e-6],
  [4, 10, -0.14341729937924e-12],
  [5, -8, -0.40516996860117e-6],
  [8, -11, -0.12734301741641e-8],
  [8, -6, -0.17424871230634e-9],
  [21, -29, -0.68762131295531e-18],
  [23, -31, 0.14478307828521e-19],
  [29, -38, 0.26335781662795e-22],
  [30, -39, -0.11947622640071e-22],
  [31, -40, 0.18228094581404e-23],
  [32, -41, -0.93537087292458e-25],
];
const region1Pa = 16.53e6;
const region1Kelvin = 1386;

const sum = (terms: readonly Term[], of: (i: number, j: number) => number): number =>
  terms.reduce((total, [i, j, n]) => total + n * of(i, j), 0);

/**
 * Density of liquid water.
 *
 *     1/rho = (R T/p) pi g_pi(pi, tau),   pi = p/16.53 MPa,   tau = 1386 K/T
 *
 * @param temperatureC - of the water [C]
 * @param pressureAbsPa - absolute pressure, at least the vapour pressure [Pa]
 * @returns density [kg/m3]
 * @valid 0 <= temperatureC <= 350, vapour pressure <= pressureAbsPa <= 1e8
 * @source iapws-if97 region 1, equation 7
 * @example waterDensity(20, 101325) // 998.21
 */
export function waterDensity(temperatureC: number, pressureAbsPa: number): number {
  const kelvin = temperatureC + iceKelvin;
  const x = 7.1 - pressureAbsPa / region1Pa;
  const y = region1Kelvin / kelvin - 1.222;
  const slope = -sum(region1, (i, j) => (i === 0 ? 0 : i * x ** (i - 1) * y ** j));
  return region1Pa / (gasConstantJKgK * kelvin * slope);
}

/**
 * Specific heat of liquid water at constant pressure.
 *
 *     c = -R tau^2 g_tautau(pi, tau)
 *
 * @param temperatureC - of the water [C]
 * @param pressureAbsPa - absolute pressure, at least the vapour pressure [Pa]
 * @returns specific heat [J/(kg K)]
 * @valid 0 <= temperatureC <= 350, vapour pressure <= pressureAbsPa <= 1e8
 * @source iapws-if97 region 1, table 3
 * @example waterSpecificHeat(20, 101325) // 4184.8
 */
export function waterSpecificHeat(temperatureC: number, pressureAbsPa: number): number {
  const tau = region1Kelvin / (temperatureC + iceKelvin);
  const x = 7.1 - pressureAbsPa / region1Pa;
  const y = tau - 1.222;
  return -gasConstantJKgK * tau ** 2 * sum(region1, (i, j) => j * (j - 1) * x ** i * y ** (j - 2));
}

/** Source: iapws-viscosity, equations 11 and 12. */
const thinGas = [1.67752, 2.20462, 0.6366564, -0.241605];
const dense: readonly Term[] = [
  [0, 0, 0.520094],
  [1, 0, 0.850895e-1],
  [2, 0, -0.108374e1],
  [3, 0, -0.289555],
  [0, 1, 0.222531],
  [1, 1, 0.999115],
  [2, 1, 0.188797e1],
  [3, 1, 0.126613e1],
  [5, 1, 0.120573],
  [0, 2, -0.281378],
  [1, 2, -0.906851],
  [2, 2, -0.772479],
  [3, 2, -0.489837],
  [4, 2, -0.25704],
  [0, 3, 0.161913],
  [1, 3, 0.257399],
  [0, 4, -0.325372e-1],
  [3, 4, 0.698452e-1],
  [4, 5, 0.872102e-2],
  [3, 6, -0.435673e-2],
  [5, 6, -0.593264e-3],
];

const reciprocalSum = (coefficients: readonly number[], reduced: number): number =>
  coefficients.reduce((total, h, i) => total + h / reduced ** i, 0);

/**
 * Dynamic viscosity of water, without the peak near its critical point.
 *
 *     mu = 1e-6 mu0(T) exp(d sum H_ij (1/t - 1)^i (d - 1)^j),   t = T/647.096 K,   d = rho/322
 *
 * @param temperatureC - of the water [C]
 * @param densityKgM3 - of the water [kg/m3]
 * @returns dynamic viscosity [Pa s]
 * @valid 0 <= temperatureC <= 350, 600 <= densityKgM3 <= 1050
 * @source iapws-viscosity equations 10 to 12
 * @example waterViscosity(25, 998) // 0.0008897351
 */
export function waterViscosity(temperatureC: number, densityKgM3: number): number {
  const reduced = (temperatureC + iceKelvin) / criticalKelvin;
  const d = densityKgM3 / criticalDensityKgM3;
  const thin = (100 * Math.sqrt(reduced)) / reciprocalSum(thinGas, reduced);
  return 1e-6 * thin * Math.exp(d * sum(dense, (i, j) => (1 / reduced - 1) ** i * (d - 1) ** j));
}

/** Source: iapws-conductivity, equation 16, then 17 by powers of (1/t - 1) and within of (d - 1). */
const thinConductivity = [2.443221e-3, 1.323095e-2, 6.770357e-3, -3.454586e-3, 4.096266e-4];
const denseConductivity: readonly (readonly number[])[] = [
  [1.60397357, -0.646013523, 0.111443906, 0.102997357, -0.0504123634, 0.00609859258],
  [2.33771842, -2.78843778, 1.53616167, -0.463045512, 0.0832827019, -0.00719201245],
  [2.19650529, -4.54580785, 3.55777244, -1.40944978, 0.275418278, -0.0205938816],
  [-1.21051378, 1.60812989, -0.621178141, 0.0716373224],
  [-2.720337, 4.57586331, -3.18369245, 1.1168348, -0.19268305, 0.012913842],
];

/**
 * Thermal conductivity of water, without the peak near its critical point (0.5 % at 120 C).
 *
 *     k = 1e-3 k0(T) exp(d sum L_ij (1/t - 1)^i (d - 1)^j),   t = T/647.096 K,   d = rho/322
 *
 * @param temperatureC - of the water [C]
 * @param densityKgM3 - of the water [kg/m3]
 * @returns thermal conductivity [W/(m K)]
 * @valid 0 <= temperatureC <= 200, 600 <= densityKgM3 <= 1050
 * @source iapws-conductivity equations 15 to 17
 * @example waterConductivity(25, 998) // 0.60771
 */
export function waterConductivity(temperatureC: number, densityKgM3: number): number {
  const reduced = (temperatureC + iceKelvin) / criticalKelvin;
  const d = densityKgM3 / criticalDensityKgM3;
  const thin = Math.sqrt(reduced) / reciprocalSum(thinConductivity, reduced);
  const powers = denseConductivity.map((row) => row.reduce((total, l, j) => total + l * (d - 1) ** j, 0));
  return 1e-3 * thin * Math.exp(d * powers.reduce((total, row, i) => total + row * (1 / reduced - 1) ** i, 0));
}
