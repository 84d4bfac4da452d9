import type { Panel } from '#car';
import type { BalancedCorner } from '../corners/balanced-corners.ts';
import { mm, type PanelFinding, placeOf } from '../finding.ts';
import { nearestOn, type PanelScan } from './panel-scan.ts';

/** A corner may be this much further from the scan than it is known: how well a scan is laid into a car (common practice) [mm]. */
const SCAN_LIES_MM = 10;

/** Corners moved onto the scan that they stand on. One that is too far from it is told and stays where it was measured. */
export function snappedCorners(
  panel: Panel,
  corners: readonly BalancedCorner[],
  scan: PanelScan | undefined,
): { readonly corners: readonly BalancedCorner[]; readonly findings: readonly PanelFinding[] } {
  if (scan === undefined) return { corners, findings: [] };
  const findings: PanelFinding[] = scan.missing.length === 0 ? [] : [unread(panel, scan)];
  const snapped = corners.map((corner) => {
    const nearest = nearestOn(scan, corner.at);
    if (nearest === undefined) return corner;
    if (nearest.mm <= corner.knownToMm + SCAN_LIES_MM) return { ...corner, at: nearest.point };
    findings.push(farOff(panel, corner, scan, nearest.mm));
    return corner;
  });
  return { corners: snapped, findings };
}

function farOff(panel: Panel, corner: BalancedCorner, scan: PanelScan, offMm: number): PanelFinding {
  const limit = corner.knownToMm + SCAN_LIES_MM;
  return {
    code: 'panel-corner-off-scan',
    level: 'fix',
    panel: panel.id,
    at: corner.id,
    part: scan.part,
    text: `${panel.id}: corner ${corner.id} is ${mm(offMm)} from the scan of ${scan.part} that it stands on; ${mm(limit)} allowed: it stays where it was measured`,
    value: Number(offMm.toFixed(1)),
    limit: Number(limit.toFixed(1)),
    unit: 'mm',
    source: 'common-practice',
    place: placeOf(corner.at),
    cures: [`measure corner ${corner.id} again`, `look at how the scan of ${scan.part} is laid into the car`],
    inputs: [
      { name: 'corner known to', value: mm(corner.knownToMm) },
      { name: 'scan laid into the car to', value: mm(SCAN_LIES_MM) },
    ],
  };
}

const unread = (panel: Panel, scan: PanelScan): PanelFinding => ({
  code: 'panel-scan-unread',
  level: 'note',
  panel: panel.id,
  part: scan.part,
  text: `${panel.id}: the scan of ${scan.part} is not all there (${scan.missing.join('; ')}): ${scan.meshes.length === 0 ? 'corners stay as measured, and no bow is read' : 'corners and bow are read from the rest'}`,
  source: 'the car file',
  cures: [`put the mesh of ${scan.part} beside the car file`, `take onScan off ${panel.id}`],
});
