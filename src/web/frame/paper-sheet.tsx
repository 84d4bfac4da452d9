import { lazy, type ReactNode, Suspense, useEffect, useRef } from 'react';
import { kept } from '../bench/bench.ts';
import { type Paper, place } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { BuyPaper } from '../buy/buy-paper.tsx';
import { PartPaper } from '../car/part-paper.tsx';
import { PartsPaper } from '../car/parts-paper.tsx';
import { LinePaper } from '../fit/line-paper.tsx';
import { LinesPaper } from '../fit/lines-paper.tsx';
import { HistoryPaper } from '../history/history-paper.tsx';
import { BrokenPart } from './broken-part.tsx';
import { SnagPaper } from '../snags/snag-paper.tsx';
import { SnagsPaper } from '../snags/snags-paper.tsx';

// Measuring in is a good part of all the code, and asked for now and then.
const TapePaper = lazy(() => import('../tape/tape-paper.tsx').then((file) => ({ default: file.TapePaper })));

/** The paper beside the car. A new one is read from its top, also by whoever hears it read out. */
export function PaperSheet(): ReactNode {
  const { paper } = useSignal(place);
  const open = useSignal(kept);
  const side = useRef<HTMLElement>(null);
  const name = 'id' in paper ? `${paper.kind} ${paper.id}` : paper.kind;
  const isFirst = useRef(true);
  useEffect(() => {
    side.current?.scrollTo({ top: 0 });
    if (!isFirst.current) side.current?.querySelector<HTMLElement>('.paper-head')?.focus({ preventScroll: true });
    isFirst.current = false;
  }, [name]);
  return (
    <main className="paper-side" ref={side} tabIndex={-1}>
      {open === null ? (
        <p className="soft">Fetching the car</p>
      ) : (
        <BrokenPart what="this paper" key={name}>
          <Open paper={paper} />
        </BrokenPart>
      )}
    </main>
  );
}

function Open({ paper }: { readonly paper: Paper }): ReactNode {
  if (paper.kind === 'line') return <LinePaper id={paper.id} />;
  if (paper.kind === 'part') return <PartPaper id={paper.id} />;
  if (paper.kind === 'snag') return <SnagPaper id={paper.id} />;
  if (paper.kind === 'snags') return <SnagsPaper />;
  if (paper.kind === 'parts') return <PartsPaper />;
  if (paper.kind === 'history') return <HistoryPaper />;
  if (paper.kind === 'buy') return <BuyPaper />;
  if (paper.kind === 'tape')
    return (
      <Suspense fallback={<p className="soft">Getting the tape</p>}>
        <TapePaper what={paper.id} />
      </Suspense>
    );
  return <LinesPaper />;
}
