import { keepOff } from '#standards';
import type { Car, Duty, KeepOff, Part } from './schema/car.ts';

/** A least gap for each class [mm]. */
export type KeepOffs = Record<keyof KeepOff, number>;

/** Least gaps, surface to surface, that hold where the car gives none [mm]. */
export const keepOffDefaults = {
  hot: keepOff('hot').mm,
  hotShielded: keepOff('hot-shielded').mm,
  moving: keepOff('moving').mm,
  fixed: keepOff('fixed').mm,
  line: keepOff('line').mm,
} satisfies KeepOffs;

/** A bare turbine housing, where the part gives no keep-off of its own [mm]. */
export const BARE_TURBINE_MM = keepOff('turbine').mm;

/** The least that fuel and brake lines keep from anything hot, shielded or not [mm]. */
export const FUEL_BRAKE_FROM_HOT_MM = keepOff('fuel-brake-hot').mm;

const FUEL_OR_BRAKE: ReadonlySet<Duty> = new Set(['fuel', 'fuel-return', 'fuel-vent', 'brake', 'clutch']);

/** The car's keep-offs by class, the usual values where it gives none [mm]. */
export function keepOffs(car: Pick<Car, 'keepOffMm'>): KeepOffs {
  const own = car.keepOffMm ?? {};
  return {
    hot: own.hot ?? keepOffDefaults.hot,
    hotShielded: own.hotShielded ?? keepOffDefaults.hotShielded,
    moving: own.moving ?? keepOffDefaults.moving,
    fixed: own.fixed ?? keepOffDefaults.fixed,
    line: own.line ?? keepOffDefaults.line,
  };
}

/** The least gap from a line of this duty to a part, surface to surface [mm]. The part's own value comes before its class. */
export function partKeepOffMm(car: Pick<Car, 'keepOffMm'>, part: Part, duty: Duty): number {
  const usual = part.keepOffMm ?? classKeepOffMm(keepOffs(car), part);
  return part.class === 'hot' && FUEL_OR_BRAKE.has(duty) ? Math.max(usual, FUEL_BRAKE_FROM_HOT_MM) : usual;
}

function classKeepOffMm(table: KeepOffs, part: Part): number {
  if (part.class !== 'hot') return table[part.class];
  if (part.shielded === true) return table.hotShielded;
  return part.turbine === true ? Math.max(table.hot, BARE_TURBINE_MM) : table.hot;
}
