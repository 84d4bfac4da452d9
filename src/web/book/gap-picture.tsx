import { type ReactNode, useMemo } from 'react';
import { gapRuler, lengthGauge } from '#book';
import { useLengths } from '../tape/lengths.ts';
import type { TightGap } from '../fit/tightest.ts';
import { Picture } from './picture.tsx';

interface Wish {
  readonly gap: TightGap;
  readonly width?: number;
}

/** How close, as a ruler. */
export function GapPicture({ gap, width = 210 }: Wish): ReactNode {
  const isInch = useLengths().unit === 'in';
  const drawing = useMemo(
    () => gapRuler(lengthGauge(gap, `gap to ${gap.part}`, isInch), { width, size: 13.5, unit: 'px' }),
    [gap, width, isInch],
  );
  return <Picture drawing={drawing} />;
}
