import type { ReactNode } from 'react';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { rememberUnit, tapeUnit } from '../tape/tape-unit.ts';

/** Metric, or as the builder who works in inches has it. */
export function UnitChoice(): ReactNode {
  const isInch = useSignal(tapeUnit) === 'in';
  return (
    <div className="keys no-print" role="group" aria-label="Units">
      <Key aria-pressed={!isInch} onClick={() => rememberUnit('mm')}>
        L/min, bar, °C
      </Key>
      <Key aria-pressed={isInch} onClick={() => rememberUnit('in')}>
        US gal/min, psi, °F
      </Key>
    </div>
  );
}
