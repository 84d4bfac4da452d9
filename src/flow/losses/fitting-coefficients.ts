import type { SourceId } from '#sources';

/**
 * Loss coefficient of a fitting from slow to fast by two constants; the bore enters in inches, as the constants were fitted.
 *
 *     K = K1/Re + Kinf (1 + 1/D)
 *
 * @param k1 - slow constant [-]
 * @param kInf - fast constant [-]
 * @param boreIn - bore [in]
 * @param reynolds - Reynolds number in the bore [-]
 * @returns loss coefficient on the velocity head in the bore [-]
 * @valid 0.5 <= boreIn <= 24, reynolds > 0
 * @source hooper-1981
 * @example twoConstantLossCoefficient(1500, 4, 2, 1e4) // 6.15
 */
export const twoConstantLossCoefficient = (k1: number, kInf: number, boreIn: number, reynolds: number): number =>
  k1 / reynolds + kInf * (1 + 1 / boreIn);

/**
 * Loss coefficient of a fitting from slow to fast by three constants; the nominal diameter enters in inches.
 *
 *     K = K1/Re + Ki (1 + Kd/Dn^0.3)
 *
 * @param k1 - slow constant [-]
 * @param ki - fast constant [-]
 * @param kd - constant of size [in^0.3]
 * @param nominalIn - nominal diameter [in]
 * @param reynolds - Reynolds number in the bore [-]
 * @returns loss coefficient on the velocity head in the bore [-]
 * @valid 0.5 <= nominalIn <= 24, reynolds > 0
 * @source darby-1999
 * @example threeConstantLossCoefficient(950, 0.25, 4, 2, 1e4) // 1.1573
 */
export const threeConstantLossCoefficient = (
  k1: number,
  ki: number,
  kd: number,
  nominalIn: number,
  reynolds: number,
): number => k1 / reynolds + ki * (1 + kd / nominalIn ** 0.3);

interface TwoConstantRow {
  readonly id: string;
  readonly text: string;
  readonly k1: number;
  readonly kInf: number;
  readonly source: SourceId;
}

const two = <const I extends string>(id: I, text: string, k1: number, kInf: number) =>
  ({ id, text, k1, kInf, source: 'hooper-1981' }) as const satisfies TwoConstantRow;

/** The two constants, as printed. Rows whose names are garbled in the copy read are left out. */
export const twoConstantFittings = [
  two('elbow-90-screwed', '90 deg elbow, R/D 1, screwed', 800, 0.4),
  two('elbow-90-welded', '90 deg elbow, R/D 1, flanged or welded', 800, 0.25),
  two('mitre-90-one-weld', '90 deg mitre, one weld', 1000, 1.15),
  two('mitre-90-two-welds', '90 deg mitre, two welds', 800, 0.35),
  two('mitre-90-four-welds', '90 deg mitre, four welds', 800, 0.27),
  two('mitre-90-five-welds', '90 deg mitre, five welds', 800, 0.25),
  two('elbow-45-long', '45 deg elbow, R/D 1.5', 500, 0.15),
  two('mitre-45-one-weld', '45 deg mitre, one weld', 500, 0.25),
  two('tee-run-screwed', 'tee, straight through, screwed', 200, 0.1),
  two('valve-gate', 'gate valve, full bore', 300, 0.1),
  two('valve-plug', 'plug valve, reduced trim, beta 0.8', 1000, 0.25),
  two('valve-globe', 'globe valve', 1500, 4),
  two('valve-diaphragm', 'diaphragm valve, dam type', 1000, 2),
  two('valve-butterfly', 'butterfly valve', 800, 0.25),
  two('check-swing', 'swing check valve', 1500, 1.5),
  two('check-tilting-disc', 'tilting-disc check valve', 1000, 0.5),
] as const;

interface ThreeConstantRow {
  readonly id: string;
  readonly text: string;
  readonly k1: number;
  readonly ki: number;
  readonly kd: number;
  readonly source: SourceId;
}

const three = <const I extends string>(id: I, text: string, k1: number, ki: number, kd: number) =>
  ({ id, text, k1, ki, kd, source: 'darby-1999' }) as const satisfies ThreeConstantRow;

/** The three constants, as printed; fitted to half-inch pipe and larger, so that hose sizes are at their edge. */
export const threeConstantFittings = [
  three('elbow-90-threaded', '90 deg elbow, R/D 1, threaded', 800, 0.14, 4),
  three('elbow-90-flanged', '90 deg elbow, R/D 1, flanged or welded', 800, 0.091, 4),
  three('elbow-90-rd2', '90 deg elbow, R/D 2', 800, 0.056, 3.9),
  three('elbow-90-rd6', '90 deg elbow, R/D 6', 800, 0.075, 4.2),
  three('mitre-90', '90 deg mitre, one weld', 1000, 0.27, 4),
  three('mitre-90-three-welds', '90 deg mitre, three welds', 800, 0.035, 4.2),
  three('elbow-45-threaded', '45 deg elbow, R/D 1, threaded', 500, 0.071, 4.2),
  three('mitre-45', '45 deg mitre, one weld', 500, 0.086, 4),
  three('mitre-45-two-welds', '45 deg mitre, two welds', 500, 0.052, 4),
  three('elbow-180-flanged', '180 deg elbow, R/D 1, flanged', 1000, 0.12, 4),
  three('elbow-180', '180 deg elbow, R/D 1.5', 1000, 0.1, 4),
  three('tee-branch-threaded', 'tee, run to branch, R/D 1.5', 800, 0.14, 4),
  three('tee-branch-flanged', 'tee, run to branch, R/D 1, flanged', 800, 0.28, 4),
  three('tee-run-threaded', 'tee, straight through, threaded', 200, 0.091, 4),
  three('tee-run-flanged', 'tee, straight through, flanged', 150, 0.05, 4),
  three('valve-angle-45', 'angle valve, 45 deg, full bore', 950, 0.25, 4),
  three('valve-angle-90', 'angle valve, 90 deg, full bore', 1000, 0.69, 4),
  three('valve-plug-branch', 'plug valve, branch flow', 500, 0.41, 4),
  three('valve-plug', 'plug valve, straight through', 300, 0.084, 3.9),
  three('valve-gate', 'gate valve', 300, 0.037, 3.9),
  three('valve-ball', 'ball valve', 300, 0.017, 3.5),
  three('check-swing', 'swing check valve', 1500, 0.46, 4),
  three('check-lift', 'lift check valve', 2000, 2.85, 3.8),
] as const;

export type FittingId = (typeof threeConstantFittings)[number]['id'];
