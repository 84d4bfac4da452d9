import type { ReactNode } from 'react';
import type { PanelLayout } from '#panels';
import { Picture } from '../book/picture.tsx';
import { flatDrawing } from './flat-drawing.ts';
import { FlatHands } from './flat-hands.tsx';

interface Wish {
  readonly layout: PanelLayout;
  readonly isInch: boolean;
  /** Windows and holes can be taken in the hand. */
  readonly canMove?: boolean;
}

/** The flat of a panel, as wide as the paper. */
export function FlatPicture({ layout, isInch, canMove = false }: Wish): ReactNode {
  const made = flatDrawing(layout, isInch);
  if (made === undefined) return null;
  const { drawing, frame } = made;
  return (
    <div className="cut-flat">
      <Picture drawing={drawing} />
      {canMove ? (
        <FlatHands layout={layout} frame={frame} width={drawing.width} height={drawing.height} isInch={isInch} />
      ) : null}
    </div>
  );
}
