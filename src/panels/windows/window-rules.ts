import { drillOfAtLeast, drills } from './drills.ts';
import type { WindowSpec } from './window-spec.ts';

/** Least web in thicknesses, and in any case [mm]. Source: common-practice. */
const WEB_THICKNESSES = 2;
const WEB_LEAST_MM = 6;
/** Least inside corner in thicknesses, and in any case [mm]. Source: from-memory. */
const CORNER_THICKNESSES = 3;
const CORNER_LEAST_MM = 6;

/** Least web between two openings, and from an opening to an edge, where nothing else is said [mm]. */
export const usualWebMm = (thicknessMm: number): number => Math.max(WEB_THICKNESSES * thicknessMm, WEB_LEAST_MM);

/** Least radius of an inside corner [mm]: a sharp one starts a crack. */
export const usualCornerMm = (thicknessMm: number): number =>
  Math.max(CORNER_THICKNESSES * thicknessMm, CORNER_LEAST_MM);

/** Least distance from the rim of an opening to the line of a fold [mm]: 2t + R. */
export const clearOfFoldMm = (thicknessMm: number, radiusMm: number): number => 2 * thicknessMm + radiusMm;

/** The rules that a field is laid out by [mm]. */
export interface FieldRules {
  readonly webMm: number;
  readonly edgeMm: number;
  readonly drillMm: number;
}

export function fieldRules(
  spec: Pick<WindowSpec, 'thicknessMm' | 'webMm' | 'edgeMm' | 'cornerDrillMm' | 'drills'>,
): FieldRules {
  const least = 2 * usualCornerMm(spec.thicknessMm);
  const drill = spec.cornerDrillMm ?? drillOfAtLeast(least, spec.drills ?? drills)?.mm ?? least;
  return {
    webMm: spec.webMm ?? usualWebMm(spec.thicknessMm),
    edgeMm: spec.edgeMm ?? usualWebMm(spec.thicknessMm),
    drillMm: drill,
  };
}
