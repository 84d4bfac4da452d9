// What does a builder's input mean, in which unit, and how is a number printed?
export type {
  Branded,
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
export {
  absoluteFromGauge,
  barFromPascalsAbsolute,
  barFromPascalsGauge,
  barFromPsi,
  celsiusFromF,
  celsiusFromKelvin,
  degFromRadians,
  fahrenheitFromC,
  flowFromLMin,
  gaugeFromAbsolute,
  iceKelvin,
  inLbFromNm,
  inchesFromMm,
  kelvinDifference,
  kelvinFromC,
  kilograms,
  kilogramsPerPound,
  lMinFromFlow,
  lbFtFromNm,
  litresPerImperialGallon,
  litresPerUsGallon,
  metresFromMm,
  metresPerSecond,
  mm2FromSquareMetres,
  mmFromInches,
  mmFromMetres,
  mmPerInch,
  newtonMetres,
  nmFromInLb,
  nmFromLbFt,
  pascalsAbsoluteFromBar,
  pascalsGaugeFromBar,
  pascalsPerPsi,
  psiFromBar,
  radiansFromDeg,
  squareMetresFromMm2,
  standardAtmospherePa,
  standardGravity,
} from './convert.ts';
export type { Parsed } from './parsed.ts';
export {
  formatBar,
  formatC,
  formatDash,
  formatDeg,
  formatInches,
  formatKg,
  formatLMin,
  formatMm,
  formatNm,
  formatNumber,
  notKnown,
} from './format.ts';
export { parseLength, parseLengthMm } from './length.ts';
export type { TradeLength } from './length.ts';
export { parseAngle, parseFlow, parseMass, parseTorque } from './other-quantities.ts';
export { parsePressure } from './pressure.ts';
export type { TradePressure } from './pressure.ts';
export { parseTemperature, parseTemperatureDifference } from './temperature.ts';
export { inchText, spreadInches, type SpreadMm } from './inch-text.ts';
export { type Lengths, lengthsIn } from './said-lengths.ts';
export { spannerSize } from './spanner-size.ts';
export { usText } from './us-text.ts';
export { litresWords, minutesWords } from './work-words.ts';
export { inOtherUnits } from './in-other-units.ts';
