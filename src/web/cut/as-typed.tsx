import { type ReactNode, useDeferredValue, useMemo } from 'react';
import type { Car, Panel } from '#car';
import type { PanelLayout } from '#panels';
import { useSignal } from '../bench/signal.ts';
import { tapeUnit } from '../tape/tape-unit.ts';
import { FlatPicture } from './flat-picture.tsx';
import { FoundInFlat } from './found-in-flat.tsx';
import { useInHand } from './in-hand.ts';
import { laidAsTyped } from './panel-draft.ts';
import { panelNumbers, sizeWords } from './panel-numbers.ts';

interface Wish {
  readonly car: Car;
  /** Null as long as it cannot be read. */
  readonly panel: Panel | null;
  /** One piece of it that the form is about: what is found there stands first. */
  readonly about?: string;
  /** What comes of that piece, in a line. */
  readonly told?: (pieces: readonly PanelLayout[]) => string;
}

const NOTHING: readonly [] = [];

/** What comes of a panel as it is typed: its flat here, folded up on the car, and what is wrong with it. */
export function AsTyped({ car, panel, about, told }: Wish): ReactNode {
  const isInch = useSignal(tapeUnit) === 'in';
  // Typing goes before drawing.
  const key = useDeferredValue(panel === null ? '' : JSON.stringify(panel));
  const pieces = useMemo(() => (key === '' ? NOTHING : laidAsTyped(car, JSON.parse(key) as Panel)), [car, key]);
  useInHand(panel?.id ?? '', pieces.length === 0 ? null : pieces);
  const { sizeMm } = panelNumbers(pieces);
  return (
    <section className="tape-section" aria-label="The flat as typed">
      <h2>{sizeMm === null ? 'The flat is drawn when its corners stand' : `Flat: ${sizeWords(sizeMm, isInch)}`}</h2>
      {told === undefined || pieces.length === 0 ? null : <p role="status">{told(pieces)}</p>}
      {pieces.map((layout) => (
        <FlatPicture key={layout.piece?.number ?? 0} layout={layout} isInch={isInch} />
      ))}
      <FoundInFlat findings={pieces.flatMap(({ findings }) => findings)} about={about} />
    </section>
  );
}
