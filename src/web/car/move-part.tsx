import { type ReactNode, useEffect, useState } from 'react';
import { NumberInput } from '@mantine/core';
import type { Edit, Part } from '#car';
import type { Vec } from '#geometry';
import { formatNumber } from '#units';
import { kept, sayFault } from '../bench/bench.ts';
import { useSignal } from '../bench/signal.ts';
import { useWhatIf, WhatIf } from '../fit/what-if.tsx';
import { Key } from '../frame/key.tsx';
import type { DragGap } from '../server/answers.ts';
import { calls } from '../server/calls.ts';
import { held } from './view.ts';

const axes = ['X, rearward', 'Y, right', 'Z, up'] as const;
const still: Vec = [0, 0, 0];

/** A part moved by numbers, by the arrow keys or by dragging it on the car; gaps are live, nothing is kept before the builder says so. */
export function MovePart({ part }: { readonly part: Part }): ReactNode {
  const hand = useSignal(held);
  const asked = useWhatIf();
  const isHeld = hand?.part === part.id;
  const byMm = isHeld ? hand.byMm : still;
  const isMoved = byMm.some((mm) => mm !== 0);
  const gaps = useLiveGaps(part.id, byMm, isHeld);
  const edits: readonly Edit[] = [{ do: 'move-part', part: part.id, byMm }];
  if (!isHeld)
    return (
      <div className="keys">
        <Key onClick={() => held.set({ part: part.id, byMm: still })}>Move it</Key>
      </div>
    );
  return (
    <section className="seen" aria-label={`Move ${part.name ?? part.id}`}>
      <h2>Move it</h2>
      <p className="small soft">
        By these numbers, or drag it on the car: level as you walk round, in the plane you see from Side or Top.
      </p>
      <div className="move-fields">
        {axes.map((label, axis) => (
          <NumberInput
            key={label}
            label={label}
            suffix=" mm"
            step={5}
            value={Math.round(byMm[axis]! * 10) / 10}
            onChange={(value) =>
              held.set({
                part: part.id,
                byMm: byMm.map((mm, i) => (i === axis ? Number(value) || 0 : mm)) as unknown as Vec,
              })
            }
          />
        ))}
      </div>
      <LiveGaps gaps={gaps} />
      <div className="keys">
        <Key weight="do" disabled={!isMoved} onClick={() => asked.ask(edits)}>
          What would it change?
        </Key>
        <Key
          onClick={() => {
            asked.work.clear();
            held.set(null);
          }}
        >
          Put it back
        </Key>
      </div>
      <WhatIf
        asked={asked}
        keepAs={`${part.name ?? part.id} moved by ${byMm.map((mm) => formatNumber(mm)).join(', ')} mm`}
      />
    </section>
  );
}

/** As many as are read while the hand moves. */
const MOST = 6;

function LiveGaps({ gaps }: { readonly gaps: readonly DragGap[] }): ReactNode {
  if (gaps.length === 0) return null;
  const tightest = [...gaps].sort((a, b) => a.gapMm - a.keepOffMm - (b.gapMm - b.keepOffMm)).slice(0, MOST);
  return (
    <table className="sheet" aria-live="off">
      <thead>
        <tr>
          <th scope="col">Line</th>
          <th scope="col">Passes</th>
          <th scope="col" className="num">
            Gap
          </th>
          <th scope="col" className="num">
            Wants
          </th>
        </tr>
      </thead>
      <tbody>
        {tightest.map((gap) => (
          <tr key={`${gap.line} ${gap.part}`} className={gap.gapMm < gap.keepOffMm ? 'warn' : ''}>
            <td>{gap.line}</td>
            <td>{gap.part}</td>
            <td className="num">{`${gap.gapMm < gap.keepOffMm ? '▲ ' : ''}${formatNumber(gap.gapMm)} mm`}</td>
            <td className="num">{formatNumber(gap.keepOffMm)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** The gaps while the part is in the hand: one question at a time, always the newest place. */
function useLiveGaps(part: string, byMm: Vec, isHeld: boolean): readonly DragGap[] {
  const now = useSignal(kept);
  const [id, revision] = [now?.id, now?.revision];
  const [gaps, setGaps] = useState<readonly DragGap[]>([]);
  const [x, y, z] = byMm;
  useEffect(() => {
    if (!isHeld || id === undefined || revision === undefined) {
      setGaps([]);
      return;
    }
    let isWanted = true;
    const wait = setTimeout(() => {
      calls.drag(id, { revision, part, byMm: [x, y, z] }).then(
        (answer) => isWanted && setGaps(answer.gaps),
        (fault: unknown) => isWanted && sayFault(fault),
      );
    }, 30);
    return () => {
      isWanted = false;
      clearTimeout(wait);
    };
  }, [id, revision, part, x, y, z, isHeld]);
  return gaps;
}
