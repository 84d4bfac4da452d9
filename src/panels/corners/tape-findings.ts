import type { Panel } from '#car';
import { distance } from '#geometry';
import { mm, type PanelFinding, placeOf } from '../finding.ts';
import type { BalancedCorners, TapeCheck } from './balanced-corners.ts';

/** A residual this many times its own spread is no chance any more. */
const ODD = 3;
/** Twice out of tolerance: the flat would be cut wrong. */
const GROSS = 2;

/** Tapes that the corners contradict, the oddest first; corners that nothing tells. */
export function tapeFindings(panel: Panel, balanced: BalancedCorners): readonly PanelFinding[] {
  if (panel.corners === undefined) return [];
  if (balanced.untold.length > 0) return [untold(panel, balanced.untold)];
  const odd = balanced.tapes
    .filter(isOff)
    .sort((a, b) => b.oddness - a.oddness || Math.abs(b.residualMm) - Math.abs(a.residualMm));
  return [...odd.map((tape, i) => disagrees(panel, balanced, tape, i === 0)), ...placeless(panel, balanced)];
}

const isOff = ({ residualMm, knownToMm, rawMm, rawToleranceMm, oddness }: TapeCheck): boolean =>
  Math.abs(residualMm) > knownToMm || oddness > ODD || (rawMm !== undefined && Math.abs(rawMm) > rawToleranceMm!);

function disagrees(panel: Panel, { corners }: BalancedCorners, tape: TapeCheck, isOddest: boolean): PanelFinding {
  const { from, to, readMm, residualMm, knownToMm, rawMm, rawToleranceMm } = tape;
  const [a, b] = [from, to].map((id) => corners.find((corner) => corner.id === id)!);
  const off = rawMm ?? residualMm;
  const limit = rawToleranceMm ?? knownToMm;
  const said = readMm - off;
  const balancedTo = distance(a!.at, b!.at);
  return {
    code: 'panel-tape-disagrees',
    level: Math.abs(off) > GROSS * limit ? 'stop' : 'fix',
    panel: panel.id,
    at: `${from}-${to}`,
    text: `${panel.id}: the tape ${from} to ${to} reads ${mm(readMm)}, ${rawMm === undefined ? 'the other readings make it' : 'its corners are'} ${mm(said)} apart: ${mm(Math.abs(off))} off, ${mm(limit)} allowed${isOddest ? '; it fits the others worst' : ''}`,
    value: Number(Math.abs(off).toFixed(1)),
    limit: Number(limit.toFixed(1)),
    unit: 'mm',
    source: 'least-squares',
    place: placeOf([(a!.at[0] + b!.at[0]) / 2, (a!.at[1] + b!.at[1]) / 2, (a!.at[2] + b!.at[2]) / 2]),
    cures: [
      `tape ${from} to ${to} again: all readings together make it ${mm(balancedTo)}`,
      `measure the corners ${from} and ${to} again`,
    ],
    inputs: [
      { name: 'left after balancing', value: mm(residualMm) },
      { name: 'times its own spread', value: tape.oddness.toFixed(1) },
    ],
  };
}

/** Corners with a place that tell the plane of a panel. */
const PLANE_CORNERS = 3;

function untold(panel: Panel, ids: readonly string[]): PanelFinding {
  const placed = (panel.corners ?? []).filter(({ atMm }) => atMm !== undefined).length;
  return {
    code: 'panel-corner-untold',
    level: 'stop',
    panel: panel.id,
    at: ids[0]!,
    text: `${panel.id}: nothing tells where ${ids.join(', ')} ${ids.length === 1 ? 'is' : 'are'}: it cannot be laid out`,
    value: ids.length,
    limit: 0,
    unit: 'corners',
    source: 'geometry',
    cures: [
      placed > 0 && placed < PLANE_CORNERS
        ? `give ${ids[0]} a place too: three places tell the plane, and a rough one does, with how well it is known (50 mm); the tapes put it right`
        : `give ${ids[0]} a place, or tapes to two corners that have one`,
    ],
  };
}

function placeless(panel: Panel, balanced: BalancedCorners): PanelFinding[] {
  if (!balanced.placeless) return [];
  return [
    {
      code: 'panel-placeless',
      level: 'note',
      panel: panel.id,
      text: `${panel.id}: laid out by its tapes alone; where it is on the car is not known, and it counts as flat`,
      source: 'least-squares',
      cures: ['give three of its corners a place on the car'],
    },
  ];
}
