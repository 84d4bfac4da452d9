import { finishOf, heatSolid } from '#standards';
import type { Traced } from '../heat-memory.ts';
import { RAY_SEED } from '../car/heat-model.ts';
import type { LineHeat } from '../heat-answer.ts';
import { type ShieldPlace, shieldPlaces } from './shield-place.ts';

/** Half the length of line that a shield is placed for [mm]. */
const STRETCH_MM = 60;
/** Sheet of a shield, and air that it keeps to both sides. Common practice. */
const SHEET_MM = 0.8;
const AIR_GAP_MM = 12;
/** Still air to each face of it, about [W/(m2 K)]. */
const AIR_W_PER_M2_K = 8;
/** A source that brings less than this is not shielded from [K]. */
const SOURCE_K = 5;
const RAYS = 256;
const ICE_K = 273.15;

const SHEET = finishOf('aluminium-sheet');
/** As it gets in use: the dull end of its spread. */
export const SHIELD_FINISH = { ...SHEET, emissivity: SHEET.spread[1] };
export const SHIELD_NAME = `aluminium sheet, ${SHEET_MM} mm`;

/** Plates that cut the view of a line's worst place to what heats it, best first; none where nothing has room. */
export function shieldsFor(
  { model }: Traced,
  index: number,
  heat: LineHeat,
  temperatures: { readonly c: Float64Array; readonly patches: Float64Array },
): readonly ShieldPlace[] {
  const line = model.lines[index]!;
  const warm = heat.worst.shares.filter(({ kind, kelvin, watts }) => kind === 'part' && kelvin > SOURCE_K && watts > 0);
  const sources = warm.flatMap(({ of }) => {
    const part = model.parts.find((row) => row.part.id === of);
    return part === undefined ? [] : [part.surface];
  });
  if (sources.length === 0) return [];
  const near = [...line.patches.keys()].filter(
    (k) => Math.abs(line.patches[k]!.alongMm - heat.worst.alongMm) <= STRETCH_MM,
  );
  const kelvin = warm.reduce((sum, share) => sum + share.kelvin, 0);
  // Shares are told for the worst place; a stretch of so many places takes up as many times the watts.
  const watts = warm.reduce((sum, share) => sum + share.watts, 0) * (near.length / 8);
  return shieldPlaces({
    surfaces: model.surfaces,
    stretch: near.map((k) => line.patches[k]!),
    stretchK: near.map((k) => temperatures.patches[line.firstPatch + k]! + ICE_K),
    sources,
    temperatures: temperatures.c.map((c) => c + ICE_K),
    airK: (heat.points[0]?.airC ?? 25) + ICE_K,
    airWPerM2K: AIR_W_PER_M2_K,
    kelvinPerWatt: kelvin / watts,
    plate: {
      thicknessMm: SHEET_MM,
      densityKgPerM3: heatSolid('aluminium').densityKgM3,
      emissivityToSource: SHIELD_FINISH.emissivity,
      emissivityToLine: SHIELD_FINISH.emissivity,
    },
    airGapMm: AIR_GAP_MM,
    raysPerPatch: RAYS,
    seed: RAY_SEED,
  });
}
