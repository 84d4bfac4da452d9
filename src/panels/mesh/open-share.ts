/**
 * Open share of round holes in rows set off by half, 60 degrees.
 *
 *     share = pi / (2 sqrt(3)) (d/p)^2
 *
 * @param holeMm - hole [mm]
 * @param pitchMm - centre to centre [mm]
 * @returns open share [-]
 * @valid 0 < holeMm <= pitchMm
 * @source perforated-sheet
 * @example openShareRound(3, 5) // 0.3265
 */
export const openShareRound = (holeMm: number, pitchMm: number): number =>
  (Math.PI / (2 * Math.sqrt(3))) * (holeMm / pitchMm) ** 2;

/**
 * Open share of round holes in a square pattern.
 *
 *     share = pi / 4 (d/p)^2
 *
 * @param holeMm - hole [mm]
 * @param pitchMm - centre to centre [mm]
 * @returns open share [-]
 * @valid 0 < holeMm <= pitchMm
 * @source perforated-sheet
 * @example openShareSquare(3, 5) // 0.2827
 */
export const openShareSquare = (holeMm: number, pitchMm: number): number => (Math.PI / 4) * (holeMm / pitchMm) ** 2;

/**
 * Open share of hexagon holes side to side.
 *
 *     share = (a/p)^2
 *
 * @param acrossFlatsMm - across flats [mm]
 * @param pitchMm - centre to centre [mm]
 * @returns open share [-]
 * @valid 0 < acrossFlatsMm <= pitchMm
 * @source perforated-sheet
 * @example openShareHexagon(6, 8) // 0.5625
 */
export const openShareHexagon = (acrossFlatsMm: number, pitchMm: number): number => (acrossFlatsMm / pitchMm) ** 2;

/**
 * Open share of woven wire.
 *
 *     share = (w / (w + d))^2
 *
 * @param openingMm - clear opening between wires [mm]
 * @param wireMm - wire [mm]
 * @returns open share [-]
 * @valid openingMm > 0, wireMm > 0
 * @source perforated-sheet
 * @example openShareWoven(5, 1) // 0.6944
 */
export const openShareWoven = (openingMm: number, wireMm: number): number => (openingMm / (openingMm + wireMm)) ** 2;

/** A mesh as the car file says it: exactly one of these. */
export interface MeshKind {
  readonly openPercent?: number | undefined;
  readonly woven?: { readonly openingMm: number; readonly wireMm: number } | undefined;
  readonly round?: { readonly holeMm: number; readonly pitchMm: number } | undefined;
  readonly square?: { readonly holeMm: number; readonly pitchMm: number } | undefined;
  readonly hexagon?: { readonly acrossFlatsMm: number; readonly pitchMm: number } | undefined;
}

/** Share of an opening that its mesh leaves open; 1 without mesh, and never more. */
export const meshOpenShare = (mesh: MeshKind | undefined): number =>
  mesh === undefined ? 1 : Math.min(1, shareOf(mesh));

function shareOf(mesh: MeshKind): number {
  const { openPercent, woven, round, square, hexagon } = mesh;
  if (openPercent !== undefined) return openPercent / 100;
  if (woven) return openShareWoven(woven.openingMm, woven.wireMm);
  if (round) return openShareRound(round.holeMm, round.pitchMm);
  if (square) return openShareSquare(square.holeMm, square.pitchMm);
  return hexagon ? openShareHexagon(hexagon.acrossFlatsMm, hexagon.pitchMm) : 1;
}
