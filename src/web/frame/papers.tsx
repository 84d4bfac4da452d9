import { type FunctionComponent, lazy, type ReactNode } from 'react';
import type { NamedPaper, Paper, PlainPaper } from '../bench/place.ts';
import { BuyPaper } from '../buy/buy-paper.tsx';
import { PartPaper } from '../car/part-paper.tsx';
import { PartsPaper } from '../car/parts-paper.tsx';
import { LinePaper } from '../fit/line-paper.tsx';
import { LinesPaper } from '../fit/lines-paper.tsx';
import { HistoryPaper } from '../history/history-paper.tsx';
import { SnagPaper } from '../snags/snag-paper.tsx';
import { SnagsPaper } from '../snags/snags-paper.tsx';

// What is asked for now and then is fetched when it is: measuring in alone is a good part of all the code.
const TapePaper = lazy(() => import('../tape/tape-paper.tsx').then((file) => ({ default: file.TapePaper })));
const ComparePaper = lazy(() => import('../buy/compare-paper.tsx').then((file) => ({ default: file.ComparePaper })));
const FlowPaper = lazy(() => import('../flow/flow-paper.tsx').then((file) => ({ default: file.FlowPaper })));
const CookPaper = lazy(() => import('../cook/cook-paper.tsx').then((file) => ({ default: file.CookPaper })));
const CutPaper = lazy(() => import('../cut/cut-paper.tsx').then((file) => ({ default: file.CutPaper })));
const BookPaper = lazy(() => import('../book/book-paper.tsx').then((file) => ({ default: file.BookPaper })));
const OffPaper = lazy(() => import('../off/off-paper.tsx').then((file) => ({ default: file.OffPaper })));
const ShopPaper = lazy(() => import('../buy/shop-paper.tsx').then((file) => ({ default: file.ShopPaper })));

/** Every paper, by the word that stands for it in the address. */
const plain: Readonly<Record<PlainPaper, FunctionComponent>> = {
  lines: LinesPaper,
  parts: PartsPaper,
  snags: SnagsPaper,
  history: HistoryPaper,
  buy: BuyPaper,
  shop: ShopPaper,
  book: BookPaper,
};
const named: Readonly<Record<NamedPaper, FunctionComponent<{ readonly id: string }>>> = {
  line: LinePaper,
  part: PartPaper,
  snag: SnagPaper,
  tape: TapePaper,
  compare: ComparePaper,
  flow: FlowPaper,
  cut: CutPaper,
  cook: CookPaper,
  off: OffPaper,
};

/** A paper as it is shown. */
export function shown(paper: Paper): ReactNode {
  if ('id' in paper) {
    const About = named[paper.kind];
    return <About id={paper.id} />;
  }
  const One = plain[paper.kind];
  return <One />;
}
