import type { Panel } from '#car';
import { distance } from '#geometry';
import { mm } from '../finding.ts';
import { bendingMoment, twistPull, twistShear } from '../flat/bend-formulas.ts';
import { slitStopMm, usualNeckMm } from '../flat/relief-slits.ts';
import type { PanelSheet } from '../panel-sheet.ts';
import type { PanelSurface } from './panel-surface.ts';
import type { CreaseChoice } from './surface-shape.ts';

/** A slit along a diagonal, and the neck that is bent by hand; how hard, where the sheet's strength is known. */
export function reliefWords({ from, to, turnDeg, lengthMm }: CreaseChoice, sheet: PanelSheet): string {
  const neck = Math.min(usualNeckMm(), lengthMm / 2);
  const strong = sheet.row?.yieldMpa;
  const hard =
    strong === undefined ? '' : ` (${(bendingMoment(strong, neck, sheet.thicknessMm) / 1000).toFixed(1)} N m)`;
  return `relieve it: a slit from ${from} towards ${to} to a ${mm(slitStopMm(sheet))} hole ${mm(neck)} short of ${to}, where it is bent ${turnDeg.toFixed(1)} degrees by hand${hard}; its lips stay on each other, and are sealed`;
}

/** Share of the yield in shear up to which a sheet springs in and back. Our own: half. */
const SPRINGS_TO = 0.5;
/** Yield in shear over yield in tension, by the energy of distortion. */
const SHEAR_YIELD = 1 / Math.sqrt(3);
/** The formula holds for small turns: a corner up to this share of the shorter side. Our own. */
const SMALL_TURN = 0.1;

/**
 * What it takes to pull the flat sheet into the twist with its fixings; nothing where a fold stiffens an edge, the turn is no small
 * one, the sheet's strength is unknown or would be used up.
 */
export function springWords(panel: Panel, { shape, corners }: PanelSurface, sheet: PanelSheet): string[] {
  const { stiffnessGpa, poisson, yieldMpa } = sheet.row ?? {};
  const isStiff = (panel.edges ?? []).some(({ flange, joggle }) => flange !== undefined || joggle !== undefined);
  if (isStiff || shape.liftMm === undefined || corners.length !== 4) return [];
  if (stiffnessGpa === undefined || poisson === undefined || yieldMpa === undefined) return [];
  const side = (k: number): number => distance(corners[k]!.at, corners[(k + 1) % 4]!.at);
  const [long, wide] = [(side(0) + side(2)) / 2, (side(1) + side(3)) / 2];
  if (shape.liftMm > SMALL_TURN * Math.min(long, wide)) return [];
  const pull = twistPull(stiffnessGpa * 1000, poisson, sheet.thicknessMm, shape.liftMm, long, wide);
  const shear = twistShear(pull, sheet.thicknessMm);
  if (shear > SPRINGS_TO * SHEAR_YIELD * yieldMpa) return [];
  return [
    `leave it flat and let its fixings spring it in: ${pull.toFixed(1)} N at each corner, ${shear.toFixed(1)} MPa of shear; only while no edge is folded, and it springs out when they are undone`,
  ];
}
