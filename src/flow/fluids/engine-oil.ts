import { iceKelvin } from '#units';

/** A row of the table of unused engine oil. */
interface OilRow {
  readonly kelvin: number;
  readonly densityKgM3: number;
  readonly specificHeatJKgK: number;
  readonly conductivityWMK: number;
}

const row = (kelvin: number, densityKgM3: number, specificHeatJKgK: number, conductivityWMK: number): OilRow => ({
  kelvin,
  densityKgM3,
  specificHeatJKgK,
  conductivityWMK,
});

/** Unused engine oil. Source: heat-transfer-a5. */
const unusedOil: readonly [OilRow, OilRow, ...OilRow[]] = [
  row(273, 899.1, 1796, 0.147),
  row(280, 895.3, 1827, 0.144),
  row(290, 890, 1868, 0.145),
  row(300, 884.1, 1909, 0.145),
  row(310, 877.9, 1951, 0.145),
  row(320, 871.8, 1993, 0.143),
  row(330, 865.8, 2035, 0.141),
  row(340, 859.9, 2076, 0.139),
  row(350, 853.9, 2118, 0.138),
  row(360, 847.8, 2161, 0.138),
  row(370, 841.8, 2206, 0.137),
  row(380, 836, 2250, 0.136),
  row(390, 830.6, 2294, 0.135),
  row(400, 825.1, 2337, 0.134),
  row(410, 818.9, 2381, 0.133),
  row(420, 812.1, 2427, 0.133),
  row(430, 806.5, 2471, 0.132),
];

/** A column of the table, straight between its rows and on from its ends. */
function fromTable(temperatureC: number, column: (oil: OilRow) => number): number {
  const kelvin = temperatureC + iceKelvin;
  let [below, above] = unusedOil;
  for (const next of unusedOil.slice(2)) {
    if (kelvin <= above.kelvin) break;
    [below, above] = [above, next];
  }
  const share = (kelvin - below.kelvin) / (above.kelvin - below.kelvin);
  return column(below) + (column(above) - column(below)) * share;
}

/**
 * Specific heat of engine oil, from the table of a heat-transfer textbook; oils differ by 5 % or so.
 *
 *     c = table(T), straight between its rows and on from its ends (273 to 430 K)
 *
 * @param temperatureC - of the oil [C]
 * @returns specific heat [J/(kg K)]
 * @valid -40 <= temperatureC <= 160
 * @source heat-transfer-a5
 * @example oilSpecificHeat(96.85) // 2206
 */
export const oilSpecificHeat = (temperatureC: number): number => fromTable(temperatureC, (oil) => oil.specificHeatJKgK);

/**
 * Conductivity of engine oil, from the table of a heat-transfer textbook; oils differ by 10 % or so.
 *
 *     k = table(T), straight between its rows (273 to 430 K); below them as at 273 K
 *
 * The two coldest rows slope the wrong way (0.147, 0.144, 0.145): drawn on they would give 0.165 at -40 C.
 *
 * @param temperatureC - of the oil [C]
 * @returns thermal conductivity [W/(m K)]
 * @valid -40 <= temperatureC <= 160
 * @source heat-transfer-a5
 * @example oilConductivity(96.85) // 0.137
 */
export const oilConductivity = (temperatureC: number): number =>
  fromTable(Math.max(temperatureC, unusedOil[0].kelvin - iceKelvin), (oil) => oil.conductivityWMK);

/**
 * Density of the textbook's unused engine oil (about an SAE 50 without thickener, 891 kg/m3 at 15 C).
 *
 *     rho = table(T), straight between its rows and on from its ends (273 to 430 K)
 *
 * @param temperatureC - of the oil [C]
 * @returns density [kg/m3]
 * @valid -40 <= temperatureC <= 160
 * @source heat-transfer-a5
 * @example unusedOilDensity(96.85) // 841.8
 */
export const unusedOilDensity = (temperatureC: number): number => fromTable(temperatureC, (oil) => oil.densityKgM3);

/** Temperature at which densities of petroleum are stated [C]. */
const statedC = 15;
/** Expansion of lubricating oil times its density [kg/(m3 K)]; 0.34878 per degF in the standard. */
const lubricantExpansion = 0.34878 * 1.8;

/**
 * Density of a lubricating oil at a temperature from its density at 15 C.
 *
 *     rho = rho15 exp(-a dT (1 + 0.8 a dT)),   a = 0.6278/rho15,   dT = T - 15
 *
 * @param temperatureC - of the oil [C]
 * @param densityAt15KgM3 - as stated on its sheet [kg/m3]
 * @returns density [kg/m3]
 * @valid -40 <= temperatureC <= 160, 800 <= densityAt15KgM3 <= 1164
 * @source api-mpms-11-1 lubricating oils
 * @example oilDensity(100, 870) // 815.8
 */
export function oilDensity(temperatureC: number, densityAt15KgM3: number): number {
  const swell = (lubricantExpansion / densityAt15KgM3) * (temperatureC - statedC);
  return densityAt15KgM3 * Math.exp(-swell * (1 + 0.8 * swell));
}
