import { type ReactNode, useEffect, useState } from 'react';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { holeWords, type Snapped, snapped } from './hole-words.ts';
import { type Pointed, pointing } from './pointing.ts';
import { useLengths } from '../tape/lengths.ts';

interface Wish {
  readonly words: string;
  readonly onPoint: (at: Snapped, pointed: Pointed) => void;
}

/** Waits for a click on a surface; it goes to the axis of a round hole near by, or to the surface itself. */
export function PointAt({ words, onPoint }: Wish): ReactNode {
  const waits = useSignal(pointing);
  const [mine, setMine] = useState<((at: Pointed) => void) | null>(null);
  const [last, setLast] = useState<{ readonly pointed: Pointed; readonly at: Snapped } | null>(null);
  const isWaiting = waits !== null && waits === mine;
  useEffect(
    () => () => {
      if (mine !== null && pointing.get() === mine) pointing.set(null);
    },
    [mine],
  );
  const lengths = useLengths();
  const take = (pointed: Pointed, toHole: boolean): void => {
    const at = snapped(pointed, toHole);
    setLast({ pointed, at });
    onPoint(at, pointed);
  };
  const wait = (): void => {
    const told = (pointed: Pointed): void => {
      pointing.set(null);
      take(pointed, true);
    };
    setMine(() => told);
    pointing.set(told);
  };
  return (
    <div className="point-at">
      <div className="keys">
        <Key aria-pressed={isWaiting} onClick={() => (isWaiting ? pointing.set(null) : wait())}>
          {isWaiting ? 'Now click on it on the car' : words}
        </Key>
        {last === null || last.at.hole === null || isWaiting ? null : (
          <Key onClick={() => take(last.pointed, false)}>Take the surface itself</Key>
        )}
      </div>
      {last === null || isWaiting ? null : (
        <p className="small soft" role="status">{`Taken: ${holeWords(last.at, lengths)}`}</p>
      )}
    </div>
  );
}
