/** The rate of each state at a time, into `rate`. */
export type Rates = (timeS: number, state: Float64Array, rate: Float64Array) => void;

/** How an integration went. */
export interface StepCount {
  taken: number;
  refused: number;
}

/** Below this a step is taken whatever its error: a jump is then as sharp as it can be told [s]. */
const LEAST_STEP_S = 1e-7;

/**
 * Bogacki and Shampine's pair of order 3 with 2 embedded: the error of a step is what the two differ by, held below `tolerance`
 * times the scale of each state. Sums of states that the rates keep are kept to rounding.
 */
export class ControlledSteps {
  readonly count: StepCount = { taken: 0, refused: 0 };
  private stepS: number;
  private readonly k: readonly Float64Array[];
  private readonly mid: Float64Array;
  private readonly next: Float64Array;
  private hasFirst = false;
  private readonly rates: Rates;
  private readonly scale: readonly number[];
  private readonly tolerance: number;

  constructor(rates: Rates, scale: readonly number[], tolerance: number, firstStepS: number) {
    this.rates = rates;
    this.scale = scale;
    this.tolerance = tolerance;
    this.stepS = firstStepS;
    const n = scale.length;
    this.k = [new Float64Array(n), new Float64Array(n), new Float64Array(n), new Float64Array(n)];
    this.mid = new Float64Array(n);
    this.next = new Float64Array(n);
  }

  /** From one time to another, the state changed in place, going on from where it was. Rates may bend at either end, not between, nor jump. */
  advance(fromS: number, toS: number, state: Float64Array): void {
    let t = fromS;
    while (t < toS) {
      const left = toS - t;
      const isLast = this.stepS >= left * (1 - 1e-12);
      const h = isLast ? left : this.stepS;
      const error = this.attempt(t, h, state);
      const isGood = error <= 1 || h <= LEAST_STEP_S;
      const grow = error === 0 ? 5 : Math.min(5, Math.max(0.2, 0.9 * error ** (-1 / 3)));
      // A step cut short by the end of its span says nothing against a longer one.
      this.stepS = isGood && isLast ? Math.max(this.stepS, h * grow) : Math.max(LEAST_STEP_S, h * grow);
      if (!isGood) {
        this.count.refused++;
        continue;
      }
      this.count.taken++;
      state.set(this.next);
      this.k[0]!.set(this.k[3]!);
      t = isLast ? toS : t + h;
    }
  }

  private attempt(t: number, h: number, y: Float64Array): number {
    const [k1, k2, k3, k4] = this.k as [Float64Array, Float64Array, Float64Array, Float64Array];
    const { mid, next, scale } = this;
    if (!this.hasFirst) this.rates(t, y, k1);
    this.hasFirst = true;
    for (let i = 0; i < y.length; i++) mid[i] = y[i]! + (h / 2) * k1[i]!;
    this.rates(t + h / 2, mid, k2);
    for (let i = 0; i < y.length; i++) mid[i] = y[i]! + 0.75 * h * k2[i]!;
    this.rates(t + 0.75 * h, mid, k3);
    for (let i = 0; i < y.length; i++) next[i] = y[i]! + (h / 9) * (2 * k1[i]! + 3 * k2[i]! + 4 * k3[i]!);
    this.rates(t + h, next, k4);
    let most = 0;
    for (let i = 0; i < y.length; i++) {
      const off = h * ((-5 / 72) * k1[i]! + k2[i]! / 12 + k3[i]! / 9 - k4[i]! / 8);
      most = Math.max(most, Math.abs(off) / (this.tolerance * scale[i]!));
    }
    return most;
  }
}
