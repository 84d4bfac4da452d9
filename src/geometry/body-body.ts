import type { Body } from './body.ts';
import { BodyField } from './body-field.kernel.ts';
import { type BodyGap, boundsApart, farAway, leastGap } from './body-gap.ts';
import { bodyShape } from './body-shape.ts';

const fields = new WeakMap<Body, BodyField>();

/** The body as something to measure from; built once for each body. */
export function bodyField(body: Body): BodyField {
  const found = fields.get(body);
  if (found !== undefined) return found;
  const made = new BodyField(bodyShape(body));
  fields.set(body, made);
  return made;
}

/**
 * The gap between two bodies, surface to surface, right to 0.05 mm; flat ends and mitres as for `bodyGap`. Negative when they
 * overlap: then how deep the deepest place of either lies in the other.
 *
 * @param a - one body [mm]; `at` is on it
 * @param b - the other body [mm]; `on` is on it
 * @param beyondMm - gaps from here on come back as Infinity [mm]
 */
export function bodyBodyGap(a: Body, b: Body, beyondMm = Infinity): BodyGap {
  const [sa, sb] = [bodyShape(a), bodyShape(b)];
  if (boundsApart(sa.bounds, sb.bounds) >= beyondMm) return farAway(sa);
  const there = leastGap(sa, bodyField(b), TUBE, beyondMm);
  if (there.gapMm >= 0) return there;
  const back = leastGap(sb, bodyField(a), TUBE, beyondMm);
  return back.gapMm < there.gapMm ? { gapMm: back.gapMm, at: back.on, on: back.at } : there;
}

const TUBE = { convex: false, floorMm: -Infinity } as const;

/** The least gap between two lines' bodies, or Infinity from `beyondMm` on. */
export function pathsGap(a: readonly Body[], b: readonly Body[], beyondMm = Infinity): BodyGap {
  let best: BodyGap | null = null;
  for (const p of a) {
    for (const q of b) {
      const gap = bodyBodyGap(p, q, best === null ? beyondMm : Math.min(beyondMm, best.gapMm));
      if (best === null || gap.gapMm < best.gapMm) best = gap;
    }
  }
  return best ?? { gapMm: Infinity, at: [0, 0, 0], on: [0, 0, 0] };
}
