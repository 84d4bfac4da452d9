import type { Shape } from '#car';
import type { VesselInside } from '../circuit/vessel-state.ts';
import type { WavePlan } from '../tank/first-wave.ts';

/** An axis that leans less than this counts as upright [share of its length]. */
const UPRIGHT = 0.02;

/**
 * The plan of a vessel as the published waves know it: an upright cylinder, or a box along the car. Undefined for every
 * other shape: it has a first wave too, but none that is published in closed form.
 */
export function wavePlanOf({ drawn, tank }: VesselInside): WavePlan | undefined {
  if (tank === null) return undefined;
  const { inside } = drawn.vessel;
  const shapes: readonly Pick<Shape, 'box' | 'cylinder'>[] =
    inside === undefined ? drawn.part.shapes : [{ box: inside.box, cylinder: inside.cylinder }];
  const plans = shapes.flatMap((shape) => planOf(shape) ?? []);
  const own = plans.find(({ volumeM3 }) => Math.abs(volumeM3 / tank.outsideM3 - 1) < 1e-3);
  if (own === undefined) return undefined;
  // A stated volume draws the inside together evenly.
  const drawnIn = Math.cbrt(tank.volumeM3 / tank.outsideM3);
  return own.plan.kind === 'round'
    ? { kind: 'round', radiusMm: own.plan.radiusMm * drawnIn }
    : { kind: 'box', alongMm: own.plan.alongMm * drawnIn, acrossMm: own.plan.acrossMm * drawnIn };
}

function planOf({
  box,
  cylinder,
}: Pick<Shape, 'box' | 'cylinder'>): { readonly plan: WavePlan; readonly volumeM3: number } | undefined {
  if (cylinder !== undefined) {
    const { fromMm, toMm, radiusMm } = cylinder;
    const axis = [toMm[0] - fromMm[0], toMm[1] - fromMm[1], toMm[2] - fromMm[2]] as const;
    const length = Math.hypot(...axis);
    if (Math.hypot(axis[0], axis[1]) > UPRIGHT * length) return undefined;
    return { plan: { kind: 'round', radiusMm }, volumeM3: (Math.PI * radiusMm ** 2 * length) / 1e9 };
  }
  if (box === undefined) return undefined;
  const [x, y, z] = [0, 1, 2].map((i) => box.maxMm[i]! - box.minMm[i]!) as [number, number, number];
  // The longer side swings slowest and farthest.
  return { plan: { kind: 'box', alongMm: Math.max(x, y), acrossMm: Math.min(x, y) }, volumeM3: (x * y * z) / 1e9 };
}
