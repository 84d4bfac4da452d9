import { type ReactNode, type RefObject, Suspense, useEffect, useRef } from 'react';
import { kept } from '../bench/bench.ts';
import { type Paper, place } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { BrokenPart } from './broken-part.tsx';
import { shown } from './papers.tsx';

/** The paper beside the car. A new one is read from its top, also by whoever hears it read out. */
export function PaperSheet(): ReactNode {
  const { paper } = useSignal(place);
  const open = useSignal(kept);
  const side = useRef<HTMLElement>(null);
  const isFirst = useRef(true);
  const name = 'id' in paper ? `${paper.kind} ${paper.id}` : paper.kind;
  return (
    <main className="paper-side" ref={side} tabIndex={-1}>
      {open === null ? (
        <p className="soft">Fetching the car</p>
      ) : (
        <BrokenPart what="this paper" key={name}>
          <Suspense fallback={<p className="soft">Getting the paper</p>}>
            <Open paper={paper} side={side} isFirst={isFirst} />
          </Suspense>
        </BrokenPart>
      )}
    </main>
  );
}

interface Wish {
  readonly paper: Paper;
  readonly side: RefObject<HTMLElement | null>;
  readonly isFirst: RefObject<boolean>;
}

/** Focus comes to the head of a paper once it is there: some are fetched when they are asked for. */
function Open({ paper, side, isFirst }: Wish): ReactNode {
  useEffect(() => {
    side.current?.scrollTo({ top: 0 });
    if (!isFirst.current) side.current?.querySelector<HTMLElement>('.paper-head')?.focus({ preventScroll: true });
    isFirst.current = false;
  }, [side, isFirst]);
  return shown(paper);
}
