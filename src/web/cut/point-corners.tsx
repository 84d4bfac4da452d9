import { type ReactNode, useEffect, useRef, useState } from 'react';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { pointing } from '../scan/pointing.ts';
import type { CornerDraft } from './panel-draft.ts';
import { keptText } from '../tape/kept-text.ts';

interface Wish {
  readonly corners: readonly CornerDraft[];
  readonly onCorners: (corners: readonly CornerDraft[]) => void;
}

const tenth = (mm: number): string => keptText(mm, 0.1);

/** The corners pointed at on the car or a scan, one after the other, each where the surface is clicked on. */
export function PointCorners({ corners, onCorners }: Wish): ReactNode {
  const [next, setNext] = useState<number | null>(null);
  const waits = useSignal(pointing);
  // Whoever clicks finds the corners as they stand then.
  const now = useRef({ corners, onCorners });
  now.current = { corners, onCorners };
  useEffect(() => {
    if (next === null) return;
    const told: NonNullable<typeof waits> = ({ atMm: [x, y, z] }) => {
      const { corners: all, onCorners: tell } = now.current;
      tell(all.map((corner, i) => (i === next ? { ...corner, at: [tenth(x), tenth(y), tenth(z)] } : corner)));
      setNext(next + 1 < all.length ? next + 1 : null);
    };
    pointing.set(told);
    return () => {
      if (pointing.get() === told) pointing.set(null);
    };
  }, [next]);
  return (
    <div className="keys">
      <Key aria-pressed={next !== null} onClick={() => setNext(next === null ? 0 : null)}>
        {next === null ? 'Point at the corners on the car' : 'Stop pointing'}
      </Key>
      <p className="small soft cut-pointing" role="status">
        {next === null ? '' : `Now click on corner ${corners[next]?.id ?? ''} on the car`}
      </p>
    </div>
  );
}
