/** A rule of lightening holes that a web keeps; the stiffness of a flanged rim is never counted. */
export interface LighteningFault {
  readonly text: string;
  readonly value: number;
  readonly limit: number;
  readonly unit: 'mm' | '';
}

/** Hole over the web's depth, metal between rims in diameters, rim to the edge in diameters. Source: common-practice. */
const MOST_OF_DEPTH = 0.6;
const WEB_DIAMETERS = 1;
const EDGE_DIAMETERS = 0.5;

/** What a row of lightening holes breaks of the usual rules [mm]. */
export function lighteningFaults(
  diameterMm: number,
  pitchMm: number,
  deepMm: number,
  edgeMm: number,
): LighteningFault[] {
  const faults: LighteningFault[] = [];
  if (diameterMm > MOST_OF_DEPTH * deepMm)
    faults.push({ text: 'hole over the depth of the web', value: diameterMm / deepMm, limit: MOST_OF_DEPTH, unit: '' });
  if (pitchMm - diameterMm < WEB_DIAMETERS * diameterMm)
    faults.push({
      text: 'metal between two holes',
      unit: 'mm',
      value: pitchMm - diameterMm,
      limit: WEB_DIAMETERS * diameterMm,
    });
  if (edgeMm < EDGE_DIAMETERS * diameterMm)
    faults.push({ text: 'rim to the edge', unit: 'mm', value: edgeMm, limit: EDGE_DIAMETERS * diameterMm });
  return faults;
}
