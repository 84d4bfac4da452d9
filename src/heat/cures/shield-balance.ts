import type { Exchange } from '../exchange/exchange-factors.ts';
import type { Patch } from '../exchange/patch.ts';
import { stefanBoltzmann } from '../laws/radiation.ts';

/** Temperatures of what radiates [K]: of each surface, the surroundings last. */
export type Temperatures = ArrayLike<number>;

/**
 * Heat that patches take up by radiation, less what they give off [W].
 *
 * @param rows - exchange of these patches, row by row
 * @param first - row of the first of them
 * @param ownK - temperature of each [K]
 */
export function radiationTaken(
  patches: readonly Patch[],
  rows: Exchange,
  first: number,
  ownK: (patch: number) => number,
  temperatures: Temperatures,
): number {
  return patches.reduce((sum, { areaM2, emissivity }, p) => {
    const own = ownK(p) ** 4;
    let taken = 0;
    for (let k = rows.starts[first + p]!; k < rows.starts[first + p + 1]!; k++)
      taken += rows.share[k]! * (temperatures[rows.to[k]!]! ** 4 - own);
    return sum + emissivity * areaM2 * stefanBoltzmann * taken;
  }, 0);
}

/** What stands between, of one temperature: its faces, and the air on them. */
export interface ShieldAsk {
  readonly faces: readonly Patch[];
  /** Exchange of the faces, from row `first` on. */
  readonly rows: Exchange;
  readonly first: number;
  /** Its own number among the surfaces. */
  readonly surface: number;
  readonly temperatures: Temperatures;
  readonly airK: number;
  /** Heat transfer to the air, each face [W/(m2 K)]. */
  readonly airWPerM2K: number;
}

/** Nothing in a bay is hotter or colder [K]. */
const COLDEST_K = 1;
const HOTTEST_K = 3000;
/** Halvings of that range: to less than a millionth of a kelvin. */
const HALVINGS = 44;

/**
 * Temperature at which a shield gives off as much as it takes up: by radiation on each face, and to the air. What it takes up less what
 * it gives off falls as it gets hotter, so that there is one and halving finds it.
 *
 * @returns [K]
 */
export function shieldTemperature(ask: ShieldAsk): number {
  const { faces, rows, first, surface, airK, airWPerM2K } = ask;
  const temperatures = Float64Array.from(ask.temperatures);
  const area = faces.reduce((sum, { areaM2 }) => sum + areaM2, 0);
  let low = COLDEST_K;
  let high = HOTTEST_K;
  for (let i = 0; i < HALVINGS; i++) {
    const own = (low + high) / 2;
    temperatures[surface] = own;
    const left = radiationTaken(faces, rows, first, () => own, temperatures) + airWPerM2K * area * (airK - own);
    if (left > 0) low = own;
    else high = own;
  }
  return (low + high) / 2;
}
