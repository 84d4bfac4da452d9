import type { ReactNode } from 'react';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { rememberUnit, tapeUnit } from '../tape/tape-unit.ts';

const FLOW = ['L/min, bar, °C', 'US gal/min, psi, °F'] as const;

interface Wish {
  /** What the two are called; absent: as flow has them. */
  readonly words?: readonly [metric: string, inch: string];
}

/** Metric, or as the builder who works in inches has it. */
export function UnitChoice({ words: [metric, inch] = FLOW }: Wish): ReactNode {
  const isInch = useSignal(tapeUnit) === 'in';
  return (
    <div className="keys no-print" role="group" aria-label="Units">
      <Key aria-pressed={!isInch} onClick={() => rememberUnit('mm')}>
        {metric}
      </Key>
      <Key aria-pressed={isInch} onClick={() => rememberUnit('in')}>
        {inch}
      </Key>
    </div>
  );
}
