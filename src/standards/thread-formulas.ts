/** ASME B1.1 and ISO 68-1 share the 60-degree profile: H = 0.866025 P; pitch line 3H/8 in from the crest, minor 5H/8. */
const pitchLineShare = 0.649519;
const internalMinorShare = 1.082532;
/** Root and pitch lines averaged, unified inch threads. */
const unifiedStressShare = 0.9743;
/** The same for metric threads (ISO 898-1). */
const metricStressShare = 0.9382;

/**
 * Basic pitch diameter of a 60-degree thread.
 *
 *     d2 = D - 0.649519 P
 *
 * @param majorMm - major diameter [mm]
 * @param pitchMm - pitch [mm]
 * @returns pitch diameter [mm]
 * @valid 1 <= majorMm <= 200, 0.2 <= pitchMm <= 6
 * @source asme-b1-1
 * @example threadPitchDiameter(33.3375, 2.116667) // 31.963
 */
export const threadPitchDiameter = (majorMm: number, pitchMm: number): number => majorMm - pitchLineShare * pitchMm;

/**
 * Basic minor diameter of an internal 60-degree thread: the hole before tapping, at full engagement.
 *
 *     D1 = D - 1.082532 P
 *
 * @param majorMm - major diameter [mm]
 * @param pitchMm - pitch [mm]
 * @returns internal minor diameter [mm]
 * @valid 1 <= majorMm <= 200, 0.2 <= pitchMm <= 6
 * @source asme-b1-1
 * @example threadInternalMinor(33.3375, 2.116667) // 31.046
 */
export const threadInternalMinor = (majorMm: number, pitchMm: number): number => majorMm - internalMinorShare * pitchMm;

/**
 * Tensile stress area of a unified inch thread.
 *
 *     At = pi/4 (D - 0.9743 P)^2
 *
 * @param majorMm - major diameter [mm]
 * @param pitchMm - pitch [mm]
 * @returns stress area [mm2]
 * @valid 1 <= majorMm <= 200, 0.2 <= pitchMm <= 6
 * @source asme-b1-1
 * @example unifiedTensileArea(33.3375, 2.116667) // 768.2
 */
export const unifiedTensileArea = (majorMm: number, pitchMm: number): number =>
  (Math.PI / 4) * (majorMm - unifiedStressShare * pitchMm) ** 2;

/**
 * Tensile stress area of a metric thread.
 *
 *     As = pi/4 (d - 0.9382 P)^2
 *
 * @param majorMm - major diameter [mm]
 * @param pitchMm - pitch [mm]
 * @returns stress area [mm2]
 * @valid 1 <= majorMm <= 100, 0.2 <= pitchMm <= 6
 * @source iso-898-1
 * @example metricTensileArea(10, 1.5) // 57.99
 */
export const metricTensileArea = (majorMm: number, pitchMm: number): number =>
  (Math.PI / 4) * (majorMm - metricStressShare * pitchMm) ** 2;

/** B1.20.1: E0 = D - (0.05 D + 1.1) p; the thread tapers 1 in 16 on the diameter. */
const taperSlopeShare = 0.05;
const taperOffset = 1.1;
const taperPerLength = 1 / 16;

/**
 * Pitch diameter at the small end of an American taper pipe thread.
 *
 *     E0 = D - (0.05 D + 1.1) p        (D and p in inches)
 *
 * @param pipeOdIn - outside of the pipe [in]
 * @param pitchIn - pitch [in]
 * @returns pitch diameter at the small end [in]
 * @valid 0.3 <= pipeOdIn <= 24, 0.03 <= pitchIn <= 0.13
 * @source asme-b1-20-1
 * @example taperPitchDiameterAtEnd(0.405, 1 / 27) // 0.36351
 */
export const taperPitchDiameterAtEnd = (pipeOdIn: number, pitchIn: number): number =>
  pipeOdIn - (taperSlopeShare * pipeOdIn + taperOffset) * pitchIn;

/**
 * Pitch diameter of an American taper pipe thread at the hand-tight plane.
 *
 *     E1 = E0 + L1 / 16
 *
 * @param endPitchDiameterIn - pitch diameter at the small end [in]
 * @param handTightIn - hand-tight engagement L1 [in]
 * @returns pitch diameter at the hand-tight plane [in]
 * @valid 0.2 <= endPitchDiameterIn <= 24, 0.1 <= handTightIn <= 3
 * @source asme-b1-20-1
 * @example taperPitchDiameterHandTight(0.36351, 0.1615) // 0.3736
 */
export const taperPitchDiameterHandTight = (endPitchDiameterIn: number, handTightIn: number): number =>
  endPitchDiameterIn + taperPerLength * handTightIn;

/**
 * Width across the corners of a sharp hexagon.
 *
 *     c = 2 a / sqrt(3)
 *
 * @param acrossFlatsMm - width across flats [mm]
 * @returns width across corners [mm]; the greatest it can be, real corners are rounded
 * @valid 3 <= acrossFlatsMm <= 150
 * @source geometry
 * @example hexAcrossCorners(31.75) // 36.66
 */
export const hexAcrossCorners = (acrossFlatsMm: number): number => (2 * acrossFlatsMm) / Math.sqrt(3);
