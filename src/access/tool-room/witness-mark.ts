import { add, addScaled, scale, type Vec } from '#geometry';
import type { HandRoom } from './hand-room.ts';
import { planeAt, pointing } from './handle-swing.ts';
import type { Look } from './things.ts';
import type { ToolNut } from './tool-nut.ts';

/** Places round the nut for a mark, and how far ahead or behind the square way out it is looked at from [deg]. */
const PLACES = 8;
const TILTS_DEG = [0, 35, -35, 60, -60] as const;
/** A ray that comes this near to something has met it [mm]. */
const TOUCH_MM = 0.5;
/** No eye is looked for farther than this [mm]. */
const FAR_MM = 600;
const MOST_STEPS = 200;

/**
 * Is there a place round a nut where a mark across it is seen from outside? A ray goes out from each; it walks by the distance to the
 * nearest thing, which it can never pass through, until it comes to where someone can have their eyes.
 */
export function inSight(nut: ToolNut, look: Look, hands: HandRoom): boolean {
  const plane = planeAt(nut, (nut.flatsMm[0] + nut.flatsMm[1]) / 2);
  const outMm = nut.roundMm ?? Math.max(3, nut.acrossFlatsMm / Math.sqrt(3)) + 1;
  for (let n = 0; n < PLACES; n++) {
    const out = pointing(plane, (n * 360) / PLACES);
    const from = addScaled(plane.at, out, outMm);
    for (const tilt of TILTS_DEG) {
      const rad = (tilt * Math.PI) / 180;
      const along = add(scale(out, Math.cos(rad)), scale(nut.axis, Math.sin(rad)));
      if (getsOut(from, along, look, hands)) return true;
    }
  }
  return false;
}

function getsOut(from: Vec, along: Vec, look: Look, hands: HandRoom): boolean {
  let t = 0;
  for (let n = 0; n < MOST_STEPS && t < FAR_MM; n++) {
    const at = addScaled(from, along, t);
    if (hands.isOpen(at)) return true;
    const d = look.distance(...at, FAR_MM);
    if (d < TOUCH_MM) return false;
    t += d;
  }
  return t >= FAR_MM && hands.isOpen(addScaled(from, along, FAR_MM));
}
