import type { ReactNode } from 'react';
import type { PanelLayout } from '#panels';
import { Picture } from '../book/picture.tsx';
import { flatDrawing } from './flat-drawing.ts';

/** The flat of a panel, as wide as the paper. */
export function FlatPicture({ layout, isInch }: { readonly layout: PanelLayout; readonly isInch: boolean }): ReactNode {
  const made = flatDrawing(layout, isInch);
  if (made === undefined) return null;
  return (
    <div className="cut-flat">
      <Picture drawing={made.drawing} />
    </div>
  );
}
