import { indexHundredCSt, indexZeroCSt } from './viscosity-index-table.ts';

/** The table's first column, viscosity at 100 C [mm2/s], by its steps: [from, step, rows up to the next from]. */
const steps = [
  [2, 0.1, 180],
  [20, 0.2, 50],
  [30, 0.5, 80],
] as const;

/** Place in the table, with the fraction to the next row. */
function rowOf(at100CSt: number): number {
  let rows = 0;
  for (const [from, step, count] of steps) {
    const along = (at100CSt - from) / step;
    if (along >= -1e-9 && along <= count + 1e-9) return rows + along;
    rows += count;
  }
  return Number.NaN;
}

/** A column at a viscosity, straight between its rows; NaN outside the table. */
function column(values: readonly number[], at100CSt: number): number {
  const row = rowOf(at100CSt);
  const below = Math.min(Math.floor(row + 1e-9), values.length - 2);
  const lower = values[below] ?? Number.NaN;
  const upper = values[below + 1] ?? Number.NaN;
  return lower + (upper - lower) * (row - below);
}

/**
 * Viscosity index: how little an oil thins with heat, from its viscosities at 40 and 100 C.
 *
 *     VI = 100 (L - U)/(L - H)                        up to 100
 *     VI = 100 + (10^N - 1)/0.00715,  N = log(H/U)/log(Y)   above
 *
 * with Y at 100 C, U at 40 C; L and H from the table at Y, straight between its rows.
 *
 * @param at40CSt - kinematic viscosity at 40 C [mm2/s]
 * @param at100CSt - kinematic viscosity at 100 C [mm2/s]
 * @returns viscosity index [-]
 * @valid 2 <= at100CSt <= 70, at40CSt > at100CSt
 * @source astm-d2270 table 1, procedures A and B
 * @example viscosityIndex(73.3, 8.86) // 92
 */
export function viscosityIndex(at40CSt: number, at100CSt: number): number {
  const zero = column(indexZeroCSt, at100CSt);
  const hundred = column(indexHundredCSt, at100CSt);
  if (at40CSt >= hundred) return (100 * (zero - at40CSt)) / (zero - hundred);
  return 100 + (10 ** (Math.log10(hundred / at40CSt) / Math.log10(at100CSt)) - 1) / 0.00715;
}

/**
 * Viscosity at 40 C of an oil of which the viscosity at 100 C and the viscosity index are stated: the index turned round.
 *
 *     U = L - VI (L - H)/100                      up to 100
 *     U = H / Y^log10(1 + 0.00715 (VI - 100))     above
 *
 * @param at100CSt - kinematic viscosity at 100 C [mm2/s]
 * @param index - viscosity index [-]
 * @returns kinematic viscosity at 40 C [mm2/s]
 * @valid 2 <= at100CSt <= 70, 0 <= index <= 400
 * @source astm-d2270 table 1, procedures A and B
 * @example viscosityAt40(8.86, 92.43) // 73.3
 */
export function viscosityAt40(at100CSt: number, index: number): number {
  const zero = column(indexZeroCSt, at100CSt);
  const hundred = column(indexHundredCSt, at100CSt);
  if (index <= 100) return zero - (index * (zero - hundred)) / 100;
  return hundred / at100CSt ** Math.log10(1 + 0.00715 * (index - 100));
}
