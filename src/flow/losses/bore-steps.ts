/**
 * Loss of a sudden expansion on the velocity head before it.
 *
 *     K = (1 - (d/D)^2)^2
 *
 * @param smallOverLarge - bore before over bore behind [-]
 * @returns loss coefficient on the velocity in the smaller bore [-]
 * @valid 0 <= smallOverLarge <= 1
 * @source borda-carnot
 * @example suddenExpansion(0.5) // 0.5625
 */
export const suddenExpansion = (smallOverLarge: number): number => (1 - smallOverLarge * smallOverLarge) ** 2;

/**
 * Loss of a sudden, sharp-edged contraction on the velocity head behind it.
 *
 *     K = 0.5 (1 - (d/D)^2)
 *
 * @param smallOverLarge - bore behind over bore before [-]
 * @returns loss coefficient on the velocity in the smaller bore [-]; other handbooks go up to 1.4 times this
 * @valid 0 <= smallOverLarge <= 1
 * @source tp-410
 * @example suddenContraction(0.4) // 0.42
 */
export const suddenContraction = (smallOverLarge: number): number => 0.5 * (1 - smallOverLarge * smallOverLarge);

/**
 * Loss of a conical widening on the velocity head before it.
 *
 *     K = 2.6 sin(t/2) (1 - (d/D)^2)^2 for t < 45 deg; (1 - (d/D)^2)^2 from there on
 *
 * @param smallOverLarge - bore before over bore behind [-]
 * @param includedAngleDeg - full angle of the cone [deg]
 * @returns loss coefficient on the velocity in the smaller bore [-]
 * @valid 0 <= smallOverLarge <= 1, 0 < includedAngleDeg <= 180
 * @source tp-410
 * @example conicalExpansion(0.5, 15) // 0.1909
 */
export function conicalExpansion(smallOverLarge: number, includedAngleDeg: number): number {
  const sudden = suddenExpansion(smallOverLarge);
  return includedAngleDeg >= 45 ? sudden : 2.6 * Math.sin((includedAngleDeg * Math.PI) / 360) * sudden;
}

/** Entrances and the exit, on the velocity head in the bore; a sharp entrance is given as 0.5 to 0.57 by the handbooks. */
export const sharpEntrance = 0.5;
export const inwardEntrance = 0.78;
export const anyExit = 1;

/**
 * Loss of an entrance with a rounded edge on the velocity head in the bore.
 *
 *     K = 0.5 / (1 + 36 (r/D)^1.2)
 *
 * @param edgeOverBore - radius of the edge over the bore [-]
 * @returns loss coefficient [-]; handbooks spread by up to two
 * @valid 0 <= edgeOverBore <= 1
 * @source swamee-entrance
 * @example roundedEntrance(0.1) // 0.1528
 */
export const roundedEntrance = (edgeOverBore: number): number => 0.5 / (1 + 36 * edgeOverBore ** 1.2);
