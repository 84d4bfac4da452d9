import { type ReactNode, useMemo } from 'react';
import { gapRuler } from '#book';
import type { TightGap } from '../fit/tightest.ts';
import { Picture } from './picture.tsx';

interface Wish {
  readonly gap: TightGap;
  readonly width?: number;
}

/** How close, as a ruler. */
export function GapPicture({ gap, width = 210 }: Wish): ReactNode {
  const drawing = useMemo(
    () =>
      gapRuler(
        {
          nominal: gap.gapMm,
          worst: gap.worstMm,
          best: gap.bestMm,
          limit: gap.keepOffMm,
          unit: 'mm',
          what: `gap to ${gap.part}`,
        },
        { width, size: 13.5, unit: 'px' },
      ),
    [gap, width],
  );
  return <Picture drawing={drawing} />;
}
