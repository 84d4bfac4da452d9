import { type ReactNode, useEffect, useRef, useState } from 'react';
import { NumberInput } from '@mantine/core';
import type { Dragged } from '#answers';
import { type Edit, type Part, splitPortRef } from '#car';
import type { Vec } from '#geometry';
import { formatNumber, mmPerInch } from '#units';
import { kept, sayFault, useCar } from '../bench/bench.ts';
import { useSignal } from '../bench/signal.ts';
import { GapPicture } from '../book/gap-picture.tsx';
import { type Asked, useWhatIf, WhatIf } from '../fit/what-if.tsx';
import { Key } from '../frame/key.tsx';
import { calls } from '../server/calls.ts';
import { following, held, isHolding } from './view.ts';
import { useLengths } from '../tape/lengths.ts';

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
  const own = useOwnLines(part.id);
  useLettingGo(asked, isMoved, () => asked.ask(edits, own));
  useAnewInPlace(asked);
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
      <MoveFields part={part.id} byMm={byMm} />
      <LiveGaps gaps={gaps} />
      {own.length === 0 || !isMoved ? null : (
        <p className="small soft">{`On its own ports, drawn as they would follow: ${own.join(', ')}. Let go of it on the car and they are worked out.`}</p>
      )}
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
        onKept={() => held.set(null)}
        keepAs={`${part.name ?? part.id} moved by ${byMm.map((mm) => formatNumber(mm)).join(', ')} mm`}
      />
    </section>
  );
}

/** What less and more of each axis is. */
const ways = [
  ['forward', 'rearward'],
  ['left', 'right'],
  ['down', 'up'],
] as const;
/** One press, in the unit of the field. */
const STEP = { mm: 5, in: 0.25 } as const;

function MoveFields({ part, byMm }: { readonly part: string; readonly byMm: Vec }): ReactNode {
  const { unit } = useLengths();
  const [perUnit, step] = [unit === 'in' ? mmPerInch : 1, STEP[unit]];
  const put = (axis: number, mm: number): void =>
    held.set({ part, byMm: byMm.map((own, i) => (i === axis ? mm : own)) as unknown as Vec });
  return (
    <div className="move-fields">
      {axes.map((label, axis) => (
        <div className="move-field" key={label}>
          <NumberInput
            label={label}
            suffix={` ${unit}`}
            hideControls
            step={step}
            decimalScale={unit === 'in' ? 3 : 1}
            value={Number((byMm[axis]! / perUnit).toFixed(unit === 'in' ? 3 : 1))}
            onChange={(value) => put(axis, (Number(value) || 0) * perUnit)}
          />
          {ways[axis]!.map((way, k) => (
            <Key
              key={way}
              aria-label={`${step} ${unit} ${way}`}
              onClick={() => put(axis, byMm[axis]! + (k === 0 ? -step : step) * perUnit)}
            >
              {k === 0 ? '−' : '+'}
            </Key>
          ))}
        </div>
      ))}
    </div>
  );
}

/** Lines on the part's own ports that have a way and may still change it. */
function useOwnLines(part: string): readonly string[] {
  const car = useCar();
  return (car?.lines ?? [])
    .filter(({ state, taken }) => state === 'planned' && taken !== undefined && taken !== null)
    .filter((line) => [line.from, line.to].some((ref) => splitPortRef(ref).part === part))
    .map(({ id }) => id);
}

/** Once the hand lets go of a part on the car, what that would change is asked; a hand that takes it up again wants no answer any more. */
function useLettingGo(asked: Asked, isMoved: boolean, ask: () => void): void {
  const isGripped = useSignal(isHolding);
  const was = useRef(false);
  useEffect(() => {
    if (was.current === isGripped) return;
    was.current = isGripped;
    if (isGripped) asked.work.clear();
    else if (isMoved) ask();
  }, [isGripped, isMoved, asked, ask]);
}

/** Lines that were worked out anew are drawn as they would go then, in place of how they were bent over. */
function useAnewInPlace({ work: { job }, lines }: Asked): void {
  const after = job?.answer?.after.lines;
  useEffect(() => {
    const ways = (after ?? []).flatMap((row) =>
      row.way !== null && lines.includes(row.line) ? [{ line: row.line, bodies: row.way.bodies }] : [],
    );
    if (ways.length === 0) return;
    following.set([...following.get().filter(({ line }) => ways.every((way) => way.line !== line)), ...ways]);
  }, [after, lines]);
}

/** As many as are read while the hand moves. */
const MOST = 5;

function LiveGaps({ gaps }: { readonly gaps: Dragged['gaps'] | null }): ReactNode {
  const { one } = useLengths();
  if (gaps === null) return <p className="small soft">The gaps to it are being measured.</p>;
  if (gaps.length === 0)
    return <p className="small soft">{`No line that stays where it is within ${one(150)} of it.`}</p>;
  return (
    <ul className="live-gaps" aria-live="off">
      {gaps.slice(0, MOST).map((gap) => (
        <li key={gap.line}>
          <span className="line-id">{gap.line}</span>
          <GapPicture gap={{ ...gap, part: gap.line, isNear: gap.near }} width={240} />
        </li>
      ))}
    </ul>
  );
}

/** The gaps while the part is in the hand: one question at a time, always the newest place. */
function useLiveGaps(part: string, byMm: Vec, isHeld: boolean): Dragged['gaps'] | null {
  const now = useSignal(kept);
  const [id, revision] = [now?.id, now?.revision];
  const [gaps, setGaps] = useState<Dragged['gaps'] | null>(null);
  const [x, y, z] = byMm;
  useEffect(() => {
    if (!isHeld || id === undefined || revision === undefined) {
      setGaps(null);
      following.set([]);
      return;
    }
    let isWanted = true;
    const wait = setTimeout(() => {
      calls.drag(id, { revision, part, byMm: [x, y, z] }).then(
        (answer) => {
          if (!isWanted) return;
          setGaps(answer.gaps);
          following.set(answer.ghosts);
        },
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
