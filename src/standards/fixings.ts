import type { SourceId } from '#sources';
import type { Fixing } from './rows.ts';

/** What it takes to put a hose end on, and what can be done with it afterwards. */
export interface FixingRow {
  readonly fixing: Fixing;
  readonly needs: string;
  /** The metal parts can be used again. */
  readonly reusable: boolean;
  /** The end can be turned on the hose after it is made, so two elbows can still be lined up. */
  readonly turnsOnHose: boolean;
  readonly again: string;
  readonly source: SourceId;
}

export const fixings = [
  {
    fixing: 'crimped',
    needs: 'crimping press with the die for socket and hose',
    reusable: false,
    turnsOnHose: false,
    again: 'no: cut off and thrown away; the angle between two elbows is set before the second is crimped',
    source: 'common-practice',
  },
  {
    fixing: 'crushed-collar',
    needs: 'a new collar for each making, a vice with soft jaws, two wrenches',
    reusable: true,
    turnsOnHose: false,
    again: 'socket and nipple yes, collar never; the angle between two elbows is set before the last turns',
    source: 'common-practice',
  },
  {
    fixing: 'reusable',
    needs: 'a vice with soft jaws, oil, two wrenches',
    reusable: true,
    turnsOnHose: false,
    again: 'yes, on a fresh cut of hose; the angle between two elbows is set before the last gap is closed',
    source: 'army-tm-1-1500',
  },
  {
    fixing: 'push-on',
    needs: 'oil and a firm push; a clamp where the hose asks for one',
    reusable: true,
    turnsOnHose: true,
    again: 'yes, on a fresh cut of hose',
    source: 'common-practice',
  },
] as const satisfies readonly FixingRow[];

/** What this fixing needs and allows. */
export function fixingRow(fixing: Fixing): FixingRow {
  const row = fixings.find((r) => r.fixing === fixing);
  if (row === undefined)
    throw new RangeError(
      `standards: no fixing "${String(fixing)}"; there are ${fixings.map((r) => r.fixing).join(', ')}`,
    );
  return row;
}
