/** Factor of round-wire screens by Reynolds number of the gap, as printed. Source: applied-fluid-dynamics-handbook. */
const WIRE_REYNOLDS = [20, 30, 40, 60, 80, 100, 200, 400] as const;
const WIRE_FACTOR = [1.3, 1.1, 0.95, 0.83, 0.75, 0.7, 0.6, 0.52] as const;

/** Where the table of round-wire screens begins and ends. */
export const WIRE_RANGE = { least: WIRE_REYNOLDS[0], most: WIRE_REYNOLDS.at(-1)! } as const;

/**
 * Loss of a screen of round wire, on the velocity head before it. Between the rows of its table in a straight line; beyond its ends the
 * end's value: slower flow loses more, and the room says where that is.
 *
 *     K = b(Re) (1 - s^2)/s^2,   b = 1.3 at Re 20, 0.7 at 100, 0.52 at 400
 *
 * @param openShare - open share of its area [-]
 * @param reynolds - of the width between the wires at the speed in the gaps [-]
 * @returns loss coefficient [-]
 * @valid 0.05 <= openShare <= 0.8, 20 <= reynolds <= 400
 * @source applied-fluid-dynamics-handbook round-wire screens
 * @example wireScreenLoss(0.5, 100) // 2.10
 */
export const wireScreenLoss = (openShare: number, reynolds: number): number =>
  (wireFactor(reynolds) * (1 - openShare * openShare)) / (openShare * openShare);

function wireFactor(reynolds: number): number {
  const over = WIRE_REYNOLDS.findIndex((row) => row >= reynolds);
  if (over === 0) return WIRE_FACTOR[0];
  if (over === -1) return WIRE_FACTOR.at(-1)!;
  const [low, high] = [WIRE_REYNOLDS[over - 1]!, WIRE_REYNOLDS[over]!];
  const share = (reynolds - low) / (high - low);
  return WIRE_FACTOR[over - 1]! + share * (WIRE_FACTOR[over]! - WIRE_FACTOR[over - 1]!);
}

/**
 * Loss of a thin sharp-edged perforated sheet, on the velocity head before it.
 *
 *     K = (0.707 sqrt(1 - s) + 1 - s)^2/s^2
 *
 * @param openShare - open share of its area [-]
 * @returns loss coefficient [-]
 * @valid 0.1 <= openShare <= 1, sheet thinner than half a hole; printed tables differ by 12 %
 * @source idelchik-handbook
 * @example perforatedSheetLoss(0.5) // 4.00
 */
export const perforatedSheetLoss = (openShare: number): number =>
  ((0.707 * Math.sqrt(1 - openShare) + 1 - openShare) / openShare) ** 2;

/**
 * Loss of a grille of thick square-edged bars, on the velocity head before it.
 *
 *     K = (0.5 (1 - s) + 1 - s^2)/s^2
 *
 * @param openShare - open share of its area [-]
 * @returns loss coefficient [-]
 * @valid 0.1 <= openShare <= 1
 * @source applied-fluid-dynamics-handbook square-edged grilles
 * @example squareGrilleLoss(0.45) // 5.30
 */
export const squareGrilleLoss = (openShare: number): number =>
  (0.5 * (1 - openShare) + (1 - openShare * openShare)) / (openShare * openShare);

/** What is stretched over an opening. */
export interface MeshOver {
  readonly openShare: number;
  /** Width between its wires [m], where it is woven of round wire. */
  readonly wireGapM?: number;
  /** Holes punched in sheet. */
  readonly punched?: boolean;
}

/**
 * Loss of the mesh over an opening. Of a mesh of which only the open share is known the greatest of the three counts: fast through wire,
 * punched sheet, bars.
 */
export function meshLoss({ openShare, wireGapM, punched }: MeshOver, gapReynolds: (gapM: number) => number): number {
  if (openShare >= 1) return 0;
  if (wireGapM !== undefined) return wireScreenLoss(openShare, gapReynolds(wireGapM));
  if (punched === true) return perforatedSheetLoss(openShare);
  return Math.max(
    perforatedSheetLoss(openShare),
    squareGrilleLoss(openShare),
    wireScreenLoss(openShare, WIRE_RANGE.most),
  );
}
