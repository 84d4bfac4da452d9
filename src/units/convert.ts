import type {
  CubicMetresPerSecond,
  Kelvin,
  KelvinDifference,
  Kilograms,
  Metres,
  MetresPerSecond,
  NewtonMetres,
  PascalsAbsolute,
  PascalsGauge,
  Radians,
  SquareMetres,
} from './brand.ts';

/** Exact by the 1959 agreement on the yard and pound. Source: si-brochure-2019, nist-sp811. */
export const mmPerInch = 25.4;
/** Standard gravity [m/s2], exact. */
export const standardGravity = 9.80665;
/** International pound [kg], exact. */
export const kilogramsPerPound = 0.45359237;
/** Ice point on the kelvin scale [K], exact. */
export const iceKelvin = 273.15;
/** Standard atmosphere [Pa], exact. */
export const standardAtmospherePa = 101_325;
/** Pounds-force per square inch [Pa]: lb * g / in2. */
export const pascalsPerPsi = (kilogramsPerPound * standardGravity) / (mmPerInch / 1000) ** 2;
/** US liquid gallon [L]: 231 cubic inches, exact. */
export const litresPerUsGallon = 3.785411784;
/** Imperial gallon [L], exact since 1985. */
export const litresPerImperialGallon = 4.54609;

export const metresFromMm = (mm: number): Metres => (mm / 1000) as Metres;
export const mmFromMetres = (length: Metres): number => length * 1000;
export const mmFromInches = (inches: number): number => inches * mmPerInch;
export const inchesFromMm = (mm: number): number => mm / mmPerInch;
export const squareMetresFromMm2 = (mm2: number): SquareMetres => (mm2 / 1e6) as SquareMetres;
export const mm2FromSquareMetres = (area: SquareMetres): number => area * 1e6;

export const pascalsGaugeFromBar = (bar: number): PascalsGauge => (bar * 1e5) as PascalsGauge;
export const barFromPascalsGauge = (pressure: PascalsGauge): number => pressure / 1e5;
export const barFromPsi = (psi: number): number => (psi * pascalsPerPsi) / 1e5;
export const psiFromBar = (bar: number): number => (bar * 1e5) / pascalsPerPsi;
export const pascalsAbsoluteFromBar = (bar: number): PascalsAbsolute => (bar * 1e5) as PascalsAbsolute;
export const barFromPascalsAbsolute = (pressure: PascalsAbsolute): number => pressure / 1e5;
/** Gauge to absolute; `outside` is the air pressure round the car [Pa absolute]. */
export const absoluteFromGauge = (
  gauge: PascalsGauge,
  outside: PascalsAbsolute = standardAtmospherePa as PascalsAbsolute,
): PascalsAbsolute => (gauge + outside) as PascalsAbsolute;
export const gaugeFromAbsolute = (
  absolute: PascalsAbsolute,
  outside: PascalsAbsolute = standardAtmospherePa as PascalsAbsolute,
): PascalsGauge => (absolute - outside) as PascalsGauge;

export const kelvinFromC = (celsius: number): Kelvin => (celsius + iceKelvin) as Kelvin;
export const celsiusFromKelvin = (temperature: Kelvin): number => temperature - iceKelvin;
export const celsiusFromF = (fahrenheit: number): number => (fahrenheit - 32) / 1.8;
export const fahrenheitFromC = (celsius: number): number => celsius * 1.8 + 32;
export const kelvinDifference = (kelvin: number): KelvinDifference => kelvin as KelvinDifference;

export const radiansFromDeg = (deg: number): Radians => ((deg * Math.PI) / 180) as Radians;
export const degFromRadians = (angle: Radians): number => (angle * 180) / Math.PI;

const secondsPerMinute = 60;
export const flowFromLMin = (lMin: number): CubicMetresPerSecond =>
  (lMin / 1000 / secondsPerMinute) as CubicMetresPerSecond;
export const lMinFromFlow = (flow: CubicMetresPerSecond): number => flow * 1000 * secondsPerMinute;

export const newtonMetres = (nm: number): NewtonMetres => nm as NewtonMetres;
/** Pound-force inches to newton metres. */
export const nmFromInLb = (inLb: number): number => inLb * kilogramsPerPound * standardGravity * (mmPerInch / 1000);
/** Pound-force feet to newton metres. */
export const nmFromLbFt = (lbFt: number): number => nmFromInLb(lbFt * 12);
export const lbFtFromNm = (nm: number): number => nm / nmFromLbFt(1);
export const inLbFromNm = (nm: number): number => nm / nmFromInLb(1);
export const kilograms = (kg: number): Kilograms => kg as Kilograms;
export const metresPerSecond = (v: number): MetresPerSecond => v as MetresPerSecond;
