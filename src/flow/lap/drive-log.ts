/** A drive as it was logged, a value of each at every time; what runs between two times runs straight. */
export interface DriveLog {
  /** Rising [s]. */
  readonly timeS: Float64Array;
  readonly rpm: Float64Array;
  /** Above 0 speeding up, turning right; upright 1 on the level [g]. */
  readonly longitudinalG: Float64Array;
  readonly lateralG: Float64Array;
  readonly verticalG: Float64Array;
  readonly oilC: Float64Array;
  /** What was taken for granted in reading it, a line each. */
  readonly notes: readonly string[];
}
