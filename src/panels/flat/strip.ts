import type { PanelEdge } from '#car';
import type { Point2 } from '#geometry';
import type { PanelSheet } from '../panel-sheet.ts';
import { bendAllowance, joggleAngle, joggleSlope, setback } from './bend-formulas.ts';
import type { FlatLine } from './lines.ts';

/** A stretch of a strip, walking off the sheet: flat, or a bend. */
export type StripStep =
  | { readonly kind: 'flat'; readonly lengthMm: number }
  | {
      readonly kind: 'bend';
      readonly turnDeg: number;
      readonly way: 'up' | 'down';
      readonly radiusMm: number;
      readonly allowanceMm: number;
    };

/** What stands beyond a panel's edge on its flat: from its first tangent line outwards. */
export interface Strip {
  readonly kind: 'flange' | 'joggle' | 'tab';
  readonly steps: readonly StripStep[];
  /** Flat width over all [mm]. */
  readonly reachMm: number;
  /** From the measured edge back to the first tangent line [mm]. */
  readonly setbackMm: number;
  /** Flat beyond the last bend: what a fixing may stand in [mm]. */
  readonly landMm: number;
}

/** A strip where it is on the drawing. */
export interface LaidStrip extends Strip {
  /** Its first tangent line, in ring order: the strip lies outside it. */
  readonly base: FlatLine;
  /** Its two flanks, from the tangent line outwards. */
  readonly start: readonly Point2[];
  readonly end: readonly Point2[];
}

/** Steepest joggle where the step is high enough for it [deg]. */
const JOGGLE_DEG = 45;

export const stepLength = (step: StripStep): number => (step.kind === 'flat' ? step.lengthMm : step.allowanceMm);

export const wayOf = (towards: 'inside' | 'outside'): 'up' | 'down' => (towards === 'inside' ? 'down' : 'up');

/** Height of a flange over its convex face [mm]: where it stands up from the outside face, the sheet's thickness comes to it. */
export function convexHeight(heightMm: number, turnDeg: number, way: 'up' | 'down', thicknessMm: number): number {
  return way === 'down' ? heightMm : heightMm + thicknessMm * Math.tan((turnDeg * Math.PI) / 360);
}

interface Folded {
  readonly heightMm: number;
  readonly turnDeg: number;
  readonly towards: 'inside' | 'outside';
  readonly radiusMm?: number | undefined;
}

/** A single bend and what stands beyond it. */
export function foldedStrip(kind: 'flange' | 'tab', fold: Folded, sheet: PanelSheet): Strip {
  const radiusMm = fold.radiusMm ?? sheet.bendRadiusMm;
  const way = wayOf(fold.towards);
  const setbackMm = setback(fold.turnDeg, radiusMm, sheet.thicknessMm);
  const allowanceMm = bendAllowance(fold.turnDeg, radiusMm, sheet.thicknessMm, sheet.kFactor);
  const landMm = convexHeight(fold.heightMm, fold.turnDeg, way, sheet.thicknessMm) - setbackMm;
  return {
    kind,
    setbackMm,
    landMm,
    reachMm: allowanceMm + Math.max(landMm, 0),
    steps: [
      { kind: 'bend', turnDeg: fold.turnDeg, way, radiusMm, allowanceMm },
      { kind: 'flat', lengthMm: Math.max(landMm, 0) },
    ],
  };
}

/** A step: two equal bends, the slope between them, and the land beyond. It begins at the measured edge. */
export function joggleStrip(joggle: NonNullable<PanelEdge['joggle']>, sheet: PanelSheet): Strip {
  const { thicknessMm, kFactor, bendRadiusMm: radiusMm } = sheet;
  const turnDeg = joggleAngle(joggle.stepMm, radiusMm, thicknessMm, JOGGLE_DEG);
  const allowanceMm = bendAllowance(turnDeg, radiusMm, thicknessMm, kFactor);
  const slope = Math.max(0, joggleSlope(joggle.stepMm, radiusMm, thicknessMm, turnDeg));
  const first = wayOf(joggle.towards);
  const bend = { kind: 'bend', turnDeg, radiusMm, allowanceMm } as const;
  return {
    kind: 'joggle',
    setbackMm: 0,
    landMm: joggle.landMm,
    reachMm: 2 * allowanceMm + slope + joggle.landMm,
    steps: [
      { ...bend, way: first },
      { kind: 'flat', lengthMm: slope },
      { ...bend, way: first === 'down' ? 'up' : 'down' },
      { kind: 'flat', lengthMm: joggle.landMm },
    ],
  };
}

/** What an edge's own words make of it; a curved edge takes no straight bend. */
export function stripOf(spec: PanelEdge | undefined, sheet: PanelSheet): Strip | undefined {
  if (spec?.flange !== undefined) return foldedStrip('flange', spec.flange, sheet);
  if (spec?.joggle !== undefined) return joggleStrip(spec.joggle, sheet);
  return undefined;
}
