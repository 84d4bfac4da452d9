import type { HoseEndAngleDeg } from '#standards';

/** One more joint: a part to buy, to tighten and to leak; worth about this much hose [mm]. */
export const adapterCostMm = 40;

/**
 * What a bent hose end costs more than a straight one [mm]: price, weight and loss grow with the angle, and beyond 90 degrees
 * such ends are rare and long.
 */
export const hoseEndCostMm: Readonly<Record<HoseEndAngleDeg, number>> = {
  0: 0,
  30: 15,
  45: 15,
  60: 15,
  90: 20,
  120: 45,
  150: 45,
  180: 70,
};

/** An elbow or banjo: a sharp turn that costs pressure, and one more thing to clock; more than any bent hose end [mm]. */
export const elbowAdapterCostMm = 80;

/** A part that already lies on the shelf saves buying one [mm]. */
export const fromBoxMm = 25;

/** Ends of equal cost: what can be made again at the bench first, then what needs the fewest special tools. */
export const fixingOrder = ['reusable', 'push-on', 'crushed-collar', 'crimped'] as const;
