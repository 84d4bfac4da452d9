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

/** What stands beyond a panel's edge on its flat: a flange or a joggle, from its first tangent line outwards. */
export interface Strip {
  readonly kind: 'flange' | 'joggle' | 'tab';
  readonly steps: readonly StripStep[];
  /** Flat width over all [mm]. */
  readonly reachMm: number;
}
