import { ControlledSteps, type StepCount } from './controlled-step.kernel.ts';
import { shareCovered } from './cover-table.ts';
import type { DriveLog } from './drive-log.ts';
import type { LapFills, LapModel } from './lap-model.ts';

/** The states at every sample of the log: tank, vessels, air in the feed; and the pressures there. */
export interface LapRun {
  /** `width` numbers a sample: oil in the tank, in each vessel [m3], air in the feed [-]. */
  readonly states: Float64Array;
  readonly width: number;
  readonly galleryPa: Float64Array;
  readonly airlessPa: Float64Array;
  readonly drawnAir: Float64Array;
  readonly count: StepCount;
  readonly volumeOff: number;
}

/** A stage without a mouth of its own empties its vessel to this [m3]. */
const EMPTY_M3 = 5e-5;
/** Errors are held against a litre and against the whole of a share of air. */
const SCALE_M3 = 1e-3;

/**
 * Runs a log through the model. The tank loses what is drawn where the outlet is covered, pans and pots gain what the pump
 * delivers, stages give it back as far as their pick-ups are covered; air drawn fills the feed line by and by.
 */
export function lapRun(model: LapModel, fills: LapFills, log: DriveLog, tolerance: number, extraM3 = 0): LapRun {
  const { vessels, pressure, feedM3 } = model;
  const count = log.timeS.length;
  const width = vessels.length + 2;
  const air = width - 1;
  const out = new Float64Array(2 + vessels.length + 1);
  let s = 0;
  const along = (values: Float64Array, f: number): number => values[s]! + (values[s + 1]! - values[s]!) * f;
  const covered = (rows: Float64Array, f: number, oilM3: number): number => {
    const i = 3 * s;
    const first = rows[i]! + (rows[i + 3]! - rows[i]!) * f;
    const half = rows[i + 1]! + (rows[i + 4]! - rows[i + 1]!) * f;
    const whole = rows[i + 2]! + (rows[i + 5]! - rows[i + 2]!) * f;
    return shareCovered(oilM3, first, half, whole);
  };
  const rates = (timeS: number, y: Float64Array, dy: Float64Array): void => {
    const f = Math.min(1, Math.max(0, (timeS - log.timeS[s]!) / (log.timeS[s + 1]! - log.timeS[s]!)));
    const rpm = along(log.rpm, f);
    pressure.at(rpm, along(log.oilC, f), y[air]!, out);
    const drawn = out[1]!;
    const share = covered(fills.tank, f, y[0]!);
    const delivered = drawn * (1 - y[air]!);
    dy[0] = out[2]! * delivered - drawn * share;
    for (let v = 0; v < vessels.length; v++) {
      const comes = out[3 + v]! * delivered;
      let goes = 0;
      const { stages } = vessels[v]!;
      for (let k = 0; k < stages.length; k++) {
        const rows = fills.stages[v]![k]!;
        const oil = y[1 + v]!;
        const wet = rows === null ? Math.min(1, Math.max(0, oil / EMPTY_M3)) : covered(rows, f, oil);
        goes += (stages[k]!.sweptM3PerTurn * rpm * wet) / 60;
      }
      dy[1 + v] = comes - goes;
      dy[0] += goes;
    }
    dy[air] = ((1 - share - y[air]!) * drawn) / feedM3;
  };
  const scale = Array.from({ length: width }, (_, i) => (i === air ? 1 : SCALE_M3));
  const steps = new ControlledSteps(rates, scale, tolerance, 1e-3);
  const y = new Float64Array(width);
  y[0] = model.tankStartM3 + extraM3;
  vessels.forEach(({ startM3 }, v) => (y[1 + v] = startM3));
  const run = {
    states: new Float64Array(width * count),
    width,
    galleryPa: new Float64Array(count),
    airlessPa: new Float64Array(count),
    drawnAir: new Float64Array(count),
  };
  const total = (): number => y.subarray(0, air).reduce((a, b) => a + b, feedM3 * (1 - y[air]!));
  const first = total();
  let volumeOff = 0;
  for (let i = 0; i < count; i++) {
    if (i > 0) {
      s = i - 1;
      steps.advance(log.timeS[s]!, log.timeS[i]!, y);
    }
    run.states.set(y, i * width);
    volumeOff = Math.max(volumeOff, Math.abs(total() / first - 1));
    pressure.at(log.rpm[i]!, log.oilC[i]!, y[air]!, out);
    run.galleryPa[i] = out[0]!;
    pressure.at(log.rpm[i]!, log.oilC[i]!, 0, out);
    run.airlessPa[i] = out[0]!;
    run.drawnAir[i] = 1 - shareCovered(y[0]!, fills.tank[3 * i]!, fills.tank[3 * i + 1]!, fills.tank[3 * i + 2]!);
  }
  return { ...run, count: steps.count, volumeOff };
}
