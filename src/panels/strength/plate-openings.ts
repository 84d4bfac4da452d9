import {
  distanceToOutline,
  isInOutline,
  type Outline,
  outlinePoints,
  type Point2,
  readyOutline,
  roundOutline,
} from '#geometry';
import { holeCuts } from '../holes/hole-cuts.ts';
import type { PanelLayout } from '../layout.ts';
import { slotOutline } from '../slot-outline.ts';
import type { WindowField } from '../windows/window-spec.ts';

/** Round holes under this change a panel's bending little, and are left out [mm]. Source: common-practice. */
const LEAST_MM = 20;
/** Metal about an opening that triangles need [mm]. */
const LEAST_METAL_MM = 1.5;

/** What is open in the plate: windows, and holes with metal about them; what is left out is said. */
export function platesOpenings(
  layout: PanelLayout,
  web: Outline,
  windows: readonly WindowField[],
): { readonly outlines: readonly Outline[]; readonly limits: readonly string[] } {
  const made = holeCuts(layout.holes, [], layout.sheet.thicknessMm);
  const round = made.holes.filter(({ corner }) => corner !== true);
  const large = round.filter(({ diameterMm }) => diameterMm >= LEAST_MM);
  const traced = layout.web === undefined ? (layout.flats[0]?.cutOuts ?? []) : [];
  const outlines = [...windows.flatMap(({ openings }) => openings), ...traced].map(({ outline }) => outline);
  let left = 0;
  for (const hole of [
    ...made.cutOuts.map(({ outline }) => outline),
    ...made.slots.map(slotOutline),
    ...large.map(({ at, diameterMm }) => roundOutline(at, diameterMm / 2)),
  ])
    if (hasMetal(hole, web, outlines)) outlines.push(hole);
    else left++;
  return {
    outlines,
    limits: [
      ...(left === 0 ? [] : [`${left} of its holes at an edge or another opening are not in it`]),
      ...(large.length === round.length
        ? []
        : [`holes under ${LEAST_MM} mm are not in it: stress at their rims is up to three times that about them`]),
    ],
  };
}

function hasMetal(hole: Outline, web: Outline, others: readonly Outline[]): boolean {
  const points = outlinePoints(hole, 0.2);
  const isClear = (outline: Outline, isInside: boolean): boolean => {
    const ready = readyOutline(outline);
    return points.every((at) => isInOutline(ready, at) === isInside && distanceToOutline(ready, at) > LEAST_METAL_MM);
  };
  return isClear(web, true) && others.every((other) => isClear(other, false) && !isInOutline(hole, other[0]!.at));
}

/** Middle of the room that an outline takes. */
export function boxMiddle(outline: Outline): Point2 {
  const [x0, y0, x1, y1] = readyOutline(outline).box;
  return [(x0 + x1) / 2, (y0 + y1) / 2];
}
