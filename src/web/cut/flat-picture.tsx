import { useElementSize } from '@mantine/hooks';
import { type ReactNode, useDeferredValue, useEffect, useMemo, useState } from 'react';
import type { Car, Panel } from '#car';
import type { PanelLayout } from '#panels';
import { useBegun } from '../bench/begun.ts';
import { Picture } from '../book/picture.tsx';
import { flatDrawing } from './flat-drawing.ts';
import { FlatHands } from './flat-hands.tsx';
import { useInHand } from './in-hand.ts';
import { type Held, panelMoved } from './moved-on-flat.ts';
import { laidAsTyped } from './panel-draft.ts';
import { WhereHeld } from './where-held.tsx';

interface Wish {
  readonly layout: PanelLayout;
  readonly isInch: boolean;
}

/** The flat of a panel, as wide as the paper. */
export function FlatPicture({ layout, isInch }: Wish): ReactNode {
  const { ref, width } = useElementSize();
  const made = flatDrawing(layout, isInch, width);
  return made === undefined ? null : (
    <div className="cut-flat" ref={ref}>
      <Picture drawing={made.drawing} />
    </div>
  );
}

interface MovableWish extends Wish {
  readonly car: Car;
  /** As the car has it: the layout may be of one piece of it. */
  readonly panel: Panel;
}

/** The flat with windows, holes and corners to be taken in the hand: drawn anew as they move, here and on the car; letting go keeps it as one edit. */
export function MovableFlat({ layout, isInch, car, panel }: MovableWish): ReactNode {
  const [held, setHeld] = useState<Held | null>(null);
  const { mark, keep } = useBegun();
  const isHeld = held !== null;
  useEffect(() => {
    if (isHeld) mark();
  }, [isHeld, mark]);
  const { ref, width } = useElementSize();
  const moved = useMovedLayouts(car, panel, layout, held);
  useInHand(panel.id, moved);
  const still = flatDrawing(layout, isInch, width);
  if (still === undefined) return null;
  // What is drawn along keeps the scale that it was taken in.
  const now = moved?.find(({ piece }) => piece?.number === layout.piece?.number);
  const { drawing } = (now === undefined ? undefined : flatDrawing(now, isInch, width, still.frame)) ?? still;
  const keepIt = async ({ what, by }: Held): Promise<void> => {
    const isMoved = Math.hypot(...by) > 0;
    const edit = panelMoved(layout, panel, what, by).edit;
    if (!isMoved || (await keep([edit], `${panel.id}: ${what.kind} ${what.id} moved`))) setHeld(null);
  };
  return (
    <div className="cut-flat">
      <div className="cut-movable" ref={ref}>
        <Picture drawing={{ ...drawing, width: still.drawing.width, height: still.drawing.height }} />
        <FlatHands
          layout={layout}
          picture={{ frame: still.frame, width: still.drawing.width, height: still.drawing.height, shownPx: width }}
          held={held}
          onHold={setHeld}
          onKeep={(what) => void keepIt(what)}
        />
      </div>
      <WhereHeld
        layout={layout}
        moved={now}
        held={held}
        isInch={isInch}
        onKeep={() => void (held !== null && keepIt(held))}
        onLeave={() => setHeld(null)}
      />
    </div>
  );
}

/** The panel laid out with what is held where it is held; null where nothing is. */
function useMovedLayouts(
  car: Car,
  panel: Panel,
  layout: PanelLayout,
  held: Held | null,
): readonly PanelLayout[] | null {
  // The hand goes before the drawing: laid out anew as fast as that goes.
  const late = useDeferredValue(held);
  return useMemo(
    () => (late === null ? null : laidAsTyped(car, panelMoved(layout, panel, late.what, late.by).panel)),
    [car, panel, layout, late],
  );
}
