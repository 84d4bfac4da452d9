import type { Car, Lever } from '#car';
import { formatNumber } from '#units';
import { chainsOf } from './chain.ts';
import { leverCrank } from './crank.ts';
import type { LeverFinding } from './lever-finding.ts';
import { type LeverOutput, leverOutput } from './lever-output.ts';
import { reach } from './reach.ts';
import type { Say } from './say.ts';
import { driveMm, swing } from './travel.ts';

/** One output before and after. */
export interface MovedOutput {
  readonly output: string;
  readonly wasRatio: number | null;
  readonly isRatio: number | null;
  readonly wasOutputMm: readonly [number, number];
  readonly isOutputMm: readonly [number, number];
  readonly wasDirection: LeverOutput['direction'];
  readonly isDirection: LeverOutput['direction'];
  /** Force at the handle now over before, for the same at the output; null where one stands on a dead centre. */
  readonly forceTimes: number | null;
}

/** A lever against how it was before it was moved, shortened or turned round. */
export interface Moved {
  readonly wasHandleMm: readonly [number, number] | null;
  readonly isHandleMm: readonly [number, number] | null;
  readonly wasRadiusMm: number | null;
  readonly isRadiusMm: number | null;
  readonly handleShiftMm: number | null;
  readonly wasReachMm: readonly [number, number, number] | null;
  readonly isReachMm: readonly [number, number, number] | null;
  readonly outputs: readonly MovedOutput[];
}

/** The lever as it was: what is not said of it was as it is now. */
export function leverAsItWas(lever: Lever): Lever {
  const { note: _, ...was } = lever.was ?? {};
  return { ...lever, ...was } as Lever;
}

export function moved(car: Pick<Car, 'levers' | 'movers' | 'parts'>, lever: Lever, now: readonly LeverOutput[]): Moved {
  const old = leverAsItWas(lever);
  const before = chainsOf(car, old).flatMap((chain) => leverOutput(car, chain) ?? []);
  const at = (one: Lever) => {
    const drive = driveMm(one);
    return drive === undefined ? undefined : { drive, ...swing(leverCrank(one), drive) };
  };
  const [was, is] = [at(old), at(lever)];
  return {
    wasHandleMm: was?.travelMm ?? null,
    isHandleMm: is?.travelMm ?? null,
    wasRadiusMm: was?.radiusMm ?? null,
    isRadiusMm: is?.radiusMm ?? null,
    handleShiftMm:
      was === undefined || is === undefined ? null : Math.hypot(...is.drive.map((x, i) => x - was.drive[i]!)),
    wasReachMm: reach(old),
    isReachMm: reach(lever),
    outputs: now.flatMap((output) => {
      // A cable may have been changed for a rod: the first thing that moved the same end counts.
      const old = before.find((row) => row.id === output.id) ?? before.find((row) => row.to === output.to);
      return old === undefined ? [] : [movedOutput(old, output)];
    }),
  };
}

function movedOutput(was: LeverOutput, is: LeverOutput): MovedOutput {
  const gain = ({ restRatio, passesShare }: LeverOutput): number | null =>
    restRatio === null || passesShare === null ? null : restRatio * passesShare;
  const [before, after] = [gain(was), gain(is)];
  return {
    output: is.id,
    wasRatio: was.restRatio,
    isRatio: is.restRatio,
    wasOutputMm: was.outputMm,
    isOutputMm: is.outputMm,
    wasDirection: was.direction,
    isDirection: is.direction,
    forceTimes: before === null || after === null || after === 0 ? null : before / after,
  };
}

/** So much more force than before is felt. Common practice, no source. */
const FELT_TIMES = 1.25;

/** What the change did that a driver notices. */
export function movedFindings(change: Moved, say: Say): LeverFinding[] {
  return change.outputs.flatMap((row): LeverFinding[] => {
    const out: LeverFinding[] = [];
    if (row.wasDirection !== row.isDirection)
      out.push(
        say(
          'fix',
          'lever-turned-round',
          `${row.output} now moves the other way: the output was ${row.wasDirection}, it is ${row.isDirection}`,
          'geometry',
          {
            link: row.output.split(' > ')[0]!,
            cures: [
              'the arm on the other side of its pivot at one end',
              'or mark the knob anew: the driver finds every gear on the other side',
            ],
          },
        ),
      );
    if (row.forceTimes !== null && row.forceTimes > FELT_TIMES)
      out.push(
        say(
          'note',
          'lever-heavier',
          `${row.output} takes ${formatNumber(row.forceTimes, 2)} times the force that it did`,
          'common-practice',
          {
            link: row.output.split(' > ')[0]!,
            value: row.forceTimes,
            limit: FELT_TIMES,
            unit: 'times',
            cures: [
              `the handle ${formatNumber(row.forceTimes, 2)} times as far from its pivot, or the arm so much shorter`,
            ],
          },
        ),
      );
    return out;
  });
}
