/**
 * Darcy friction factor of laminar flow in a round bore.
 *
 *     f = 64/Re
 *
 * @param reynolds - Reynolds number [-]
 * @returns Darcy friction factor [-]; four times the Fanning one
 * @valid 0 < reynolds <= 2000
 * @source poiseuille-1840
 * @example laminarFrictionFactor(128) // 0.5
 */
export const laminarFrictionFactor = (reynolds: number): number => 64 / reynolds;

/**
 * Darcy friction factor from laminar to turbulent in one equation; its path between Reynolds 2000 and 4000 is a choice.
 *
 *     f = 8 ( (8/Re)^12 + (A + B)^-1.5 )^(1/12)
 *     A = ( -2.457 ln( (7/Re)^0.9 + 0.27 e/D ) )^16,  B = (37530/Re)^16
 *
 * @param reynolds - Reynolds number [-]
 * @param relativeRoughness - wall roughness over bore [-]
 * @returns Darcy friction factor [-]
 * @valid 0 < reynolds <= 1e8, 0 <= relativeRoughness <= 0.05
 * @source churchill-1977 equation 18
 * @example allRegimeFrictionFactor(1e5, 1e-4) // 0.018463
 */
export function allRegimeFrictionFactor(reynolds: number, relativeRoughness: number): number {
  const a = (-2.457 * Math.log((7 / reynolds) ** 0.9 + 0.27 * relativeRoughness)) ** 16;
  const b = (37530 / reynolds) ** 16;
  return 8 * ((8 / reynolds) ** 12 + (a + b) ** -1.5) ** (1 / 12);
}

/**
 * Darcy friction factor of turbulent flow by the implicit rough-pipe law, solved by Newton's method.
 *
 *     1/sqrt(f) = -2 log10( (e/D)/3.7 + 2.51/(Re sqrt(f)) )
 *
 * @param reynolds - Reynolds number [-]
 * @param relativeRoughness - wall roughness over bore [-]
 * @returns Darcy friction factor [-]
 * @valid 4e3 <= reynolds <= 1e8, 0 <= relativeRoughness <= 0.05
 * @source colebrook-1939
 * @example colebrookFrictionFactor(1e5, 1e-4) // 0.018514
 */
export function colebrookFrictionFactor(reynolds: number, relativeRoughness: number): number {
  const rough = relativeRoughness / 3.7;
  const smooth = 2.51 / reynolds;
  let x = 1 / Math.sqrt(haalandFrictionFactor(reynolds, relativeRoughness));
  for (let i = 0; i < 8; i++) {
    const inside = rough + smooth * x;
    const step = (x + 2 * Math.log10(inside)) / (1 + (2 * smooth) / (Math.LN10 * inside));
    x -= step;
    if (Math.abs(step) < 1e-14 * x) break;
  }
  return 1 / (x * x);
}

/**
 * Darcy friction factor of turbulent flow, explicit.
 *
 *     1/sqrt(f) = -1.8 log10( ((e/D)/3.7)^1.11 + 6.9/Re )
 *
 * @param reynolds - Reynolds number [-]
 * @param relativeRoughness - wall roughness over bore [-]
 * @returns Darcy friction factor [-]
 * @valid 4e3 <= reynolds <= 1e8, 0 <= relativeRoughness <= 0.05
 * @source haaland-1983
 * @example haalandFrictionFactor(1e5, 1e-4) // 0.018265
 */
export const haalandFrictionFactor = (reynolds: number, relativeRoughness: number): number =>
  (-1.8 * Math.log10((relativeRoughness / 3.7) ** 1.11 + 6.9 / reynolds)) ** -2;

/**
 * Darcy friction factor of turbulent flow, explicit, as published networks use it.
 *
 *     1/sqrt(f) = -2 log10( (e/D)/3.7 + (6.97/Re)^0.9 )
 *
 * @param reynolds - Reynolds number [-]
 * @param relativeRoughness - wall roughness over bore [-]
 * @returns Darcy friction factor [-]
 * @valid 5e3 <= reynolds <= 1e8, 1e-6 <= relativeRoughness <= 0.05
 * @source swamee-jain-1976
 * @example swameeJainFrictionFactor(1e5, 1e-4) // 0.018452
 */
export const swameeJainFrictionFactor = (reynolds: number, relativeRoughness: number): number =>
  (-2 * Math.log10(relativeRoughness / 3.7 + (6.97 / reynolds) ** 0.9)) ** -2;

/**
 * Darcy friction factor of turbulent flow in a smooth bore.
 *
 *     f = 0.3164/Re^0.25
 *
 * @param reynolds - Reynolds number [-]
 * @returns Darcy friction factor [-]
 * @valid 4e3 <= reynolds <= 1e5
 * @source blasius-1913
 * @example blasiusFrictionFactor(1e4) // 0.03164
 */
export const blasiusFrictionFactor = (reynolds: number): number => 0.3164 / reynolds ** 0.25;

/** Below this Reynolds number straight flow is laminar for certain; above the second one it is turbulent [-]. */
export const laminarUpTo = 2000;
export const turbulentFrom = 4000;

/** How the flow runs; `between` is the band that no equation knows, with what the friction factor may be there. */
export interface FrictionRegime {
  readonly regime: 'laminar' | 'between' | 'turbulent';
  /** Darcy friction factor: the value worked with, and the least and the most that it may be. */
  readonly factor: number;
  readonly least: number;
  readonly most: number;
}

/** The regime at a Reynolds number; in the band 2000 to 4000 the spread runs from the laminar to the turbulent value. */
export function frictionRegime(reynolds: number, relativeRoughness: number): FrictionRegime {
  const factor = allRegimeFrictionFactor(reynolds, relativeRoughness);
  if (reynolds <= laminarUpTo) return { regime: 'laminar', factor, least: factor, most: factor };
  if (reynolds >= turbulentFrom) return { regime: 'turbulent', factor, least: factor, most: factor };
  const laminar = laminarFrictionFactor(reynolds);
  const turbulent = colebrookFrictionFactor(reynolds, relativeRoughness);
  return {
    regime: 'between',
    factor,
    least: Math.min(laminar, turbulent, factor),
    most: Math.max(laminar, turbulent, factor),
  };
}
