/**
 * Bending stiffness of a plate.
 *
 *     D = E t^3 / (12 (1 - nu^2))
 *
 * @param stiffnessMpa - Young's modulus [MPa]
 * @param thicknessMm - thickness [mm]
 * @param poisson - Poisson's ratio [-]
 * @returns D [N mm]
 * @valid stiffnessMpa > 0, thicknessMm > 0, 0 <= poisson < 0.5
 * @source plate-theory
 * @example plateStiffness(70000, 1.2, 0.33) // 11312
 */
export const plateStiffness = (stiffnessMpa: number, thicknessMm: number, poisson: number): number =>
  (stiffnessMpa * thicknessMm ** 3) / (12 * (1 - poisson ** 2));

/** How two opposite edges are held, seen across the plate one way. */
export type PairHold = 'simply' | 'clamped' | 'clamped-simply' | 'clamped-free' | 'simply-free';

/** Warburton's numbers of the first beam shape: G, H, J. Source: warburton-1954, from memory. */
const beamNumbers: Readonly<Record<PairHold, readonly [g: number, h: number, j: number]>> = {
  simply: [1, 1, 1],
  clamped: [1.506, 1.248, 1.248],
  'clamped-simply': [1.25, 1.165, 1.165],
  'clamped-free': [0.597, -0.087, 0.471],
  'simply-free': [0, 0, 0.304],
};

/**
 * First frequency number of a rectangular plate with any pair of holds either way, by one beam shape each way; a little high
 * (0.4 % clamped all round), exact where all edges are simply held.
 *
 *     lambda = pi^2 sqrt(Ga^4 (b/a)^4 + Gb^4 + 2 (b/a)^2 (nu Ha Hb + (1 - nu) Ja Jb)),  omega = lambda / b^2 sqrt(D / (rho t))
 *
 * @param aspect - b/a, short side over long side [-]
 * @param poisson - Poisson's ratio [-]
 * @param along - hold of the two edges that the long side runs between [word]
 * @param across - hold of the two edges that the short side runs between [word]
 * @returns lambda on the short side [-]
 * @valid 0 < aspect <= 1
 * @source warburton-1954
 * @example frequencyNumber(1, 0.3, 'simply', 'simply') // 19.739
 */
export function frequencyNumber(aspect: number, poisson: number, along: PairHold, across: PairHold): number {
  const [ga, ha, ja] = beamNumbers[along];
  const [gb, hb, jb] = beamNumbers[across];
  const mixed = 2 * aspect ** 2 * (poisson * ha * hb + (1 - poisson) * ja * jb);
  return Math.PI ** 2 * Math.sqrt(ga ** 4 * aspect ** 4 + gb ** 4 + mixed);
}

/**
 * First frequency of a flat rectangular plate by its frequency number.
 *
 *     f = lambda / (2 pi b^2) sqrt(D / (rho t))
 *
 * @param lambda - frequency number on the short side [-]
 * @param shortMm - short side [mm]
 * @param stiffnessNmm - D [N mm]
 * @param densityKgM3 - density [kg/m3]
 * @param thicknessMm - thickness [mm]
 * @returns frequency [Hz]
 * @valid shortMm > 0, all positive
 * @source plate-theory
 * @example flatPlateFrequency(19.739, 200, 11312, 2700, 1.2) // 146.8
 */
export const flatPlateFrequency = (
  lambda: number,
  shortMm: number,
  stiffnessNmm: number,
  densityKgM3: number,
  thicknessMm: number,
): number => (lambda / (2 * Math.PI * shortMm ** 2)) * Math.sqrt(stiffnessNmm / (densityKgM3 * 1e-12 * thicknessMm));

/** Clamped plates pressed one way: a/b and k. Source: timoshenko-stability, from memory. */
const clampedPressed = [
  [0.75, 11.69],
  [1, 10.07],
  [1.25, 9.25],
  [1.5, 8.33],
  [1.75, 8.11],
  [2, 7.88],
  [2.25, 7.63],
  [2.5, 7.57],
  [3, 7.37],
] as const;
const CLAMPED_LONG = 6.97;

function interpolated(table: readonly (readonly number[])[], x: number, column: number): number {
  const i = Math.max(
    1,
    table.findIndex((row) => row[0]! >= x),
  );
  const [p, q] = [table[i - 1]!, table[i]!];
  return p[column]! + ((x - p[0]!) / (q[0]! - p[0]!)) * (q[column]! - p[column]!);
}

/**
 * Buckling number of a rectangular plate pressed along its length: simply held by half waves, clamped by table; beyond it the
 * long plate's 6.97.
 *
 *     k = min over m of (m b/a + a/(m b))^2,  sigma = k pi^2 E / (12 (1 - nu^2)) (t/b)^2
 *
 * @param slender - a/b, length that is pressed over the width [-]
 * @param isClamped - 1 clamped, 0 simply held [-]
 * @returns k [-]
 * @valid slender >= 0.2; clamped slender >= 0.75
 * @source timoshenko-stability
 * @example pressedNumber(1, 0) // 4
 */
export function pressedNumber(slender: number, isClamped: number): number {
  if (isClamped) return slender > 3 ? CLAMPED_LONG : interpolated(clampedPressed, slender, 1);
  let least = Infinity;
  for (let m = 1; m <= Math.ceil(slender) + 1; m++) least = Math.min(least, (m / slender + slender / m) ** 2);
  return least;
}

/**
 * Buckling number of a rectangular plate in shear along all its edges.
 *
 *     k = 5.35 + 4 (b/a)^2 simply held, 8.98 + 5.6 (b/a)^2 clamped
 *
 * @param aspect - b/a, short side over long side [-]
 * @param isClamped - 1 clamped, 0 simply held [-]
 * @returns k [-]
 * @valid 0 < aspect <= 1
 * @source timoshenko-stability
 * @example shearNumber(1, 0) // 9.35
 */
export const shearNumber = (aspect: number, isClamped: number): number =>
  isClamped ? 8.98 + 5.6 * aspect ** 2 : 5.35 + 4 * aspect ** 2;

/**
 * Stress at which a flat plate buckles, by its buckling number on the side b.
 *
 *     sigma = k pi^2 E / (12 (1 - nu^2)) (t/b)^2
 *
 * @param k - buckling number [-]
 * @param stiffnessMpa - Young's modulus [MPa]
 * @param poisson - Poisson's ratio [-]
 * @param thicknessMm - thickness [mm]
 * @param widthMm - side b that k goes with [mm]
 * @returns stress [MPa]
 * @valid all positive; above the yield strength the sheet yields first
 * @source timoshenko-stability
 * @example bucklingStress(4, 70000, 0.33, 1.2, 200) // 9.304
 */
export const bucklingStress = (
  k: number,
  stiffnessMpa: number,
  poisson: number,
  thicknessMm: number,
  widthMm: number,
): number => ((k * Math.PI ** 2 * stiffnessMpa) / (12 * (1 - poisson ** 2))) * (thicknessMm / widthMm) ** 2;

/** Clamped plates under even pressure: a/b, deflection and greatest edge moment. Source: timoshenko-plates table 35, from memory. */
const clampedPressure = [
  [1, 0.00126, 0.0513],
  [1.1, 0.0015, 0.0581],
  [1.2, 0.00172, 0.0639],
  [1.3, 0.00191, 0.0687],
  [1.4, 0.00207, 0.0726],
  [1.5, 0.0022, 0.0757],
  [1.6, 0.0023, 0.078],
  [1.7, 0.00238, 0.0799],
  [1.8, 0.00245, 0.0812],
  [1.9, 0.00249, 0.0822],
  [2, 0.00254, 0.0829],
] as const;
const CLAMPED_STRIP = [0.0026, 0.0833] as const;

/** Sum of Navier's double series for a simply held plate, term by term; converges as the fourth power. */
function navier(slender: number, term: (m: number, n: number) => number): number {
  let sum = 0;
  for (let m = 1; m <= 199; m += 2)
    for (let n = 1; n <= 199; n += 2) {
      const sign = ((m + n) / 2 - 1) % 2 === 0 ? 1 : -1;
      const base = ((m / slender) ** 2 + n ** 2) ** 2 * m * n;
      sum += (sign * term(m, n)) / base;
    }
  return sum;
}

/**
 * Deflection number of a rectangular plate under even pressure, at its middle.
 *
 *     w = alpha q b^4 / D;  simply held: alpha = 16/pi^6 sum +-1 / (m n ((m b/a)^2 + n^2)^2), clamped by table
 *
 * @param slender - a/b, long side over short side [-]
 * @param isClamped - 1 clamped, 0 simply held [-]
 * @returns alpha [-]
 * @valid slender >= 1; deflection up to half the thickness
 * @source timoshenko-plates
 * @example deflectionNumber(1, 0) // 0.00406
 */
export function deflectionNumber(slender: number, isClamped: number): number {
  if (isClamped) return slender > 2 ? CLAMPED_STRIP[0] : interpolated(clampedPressure, slender, 1);
  return (16 / Math.PI ** 6) * navier(slender, () => 1);
}

/**
 * Greatest bending moment of a rectangular plate under even pressure: across the short way, at the middle when simply held,
 * in the middle of the long edges when clamped.
 *
 *     M = beta q b^2, sigma = 6 M / t^2
 *
 * @param slender - a/b, long side over short side [-]
 * @param isClamped - 1 clamped, 0 simply held [-]
 * @param poisson - Poisson's ratio [-]; the clamped table is for 0.3
 * @returns beta [-]
 * @valid slender >= 1; deflection up to half the thickness
 * @source timoshenko-plates
 * @example momentNumber(1, 0, 0.3) // 0.0479
 */
export function momentNumber(slender: number, isClamped: number, poisson: number): number {
  if (isClamped) return slender > 2 ? CLAMPED_STRIP[1] : interpolated(clampedPressure, slender, 2);
  return (16 / Math.PI ** 4) * navier(slender, (m, n) => n ** 2 + poisson * (m / slender) ** 2);
}
