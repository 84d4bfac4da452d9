import type { ReactNode } from 'react';
import type { PanelLayout } from '#panels';
import { lengthsIn } from '#units';
import { Key } from '../frame/key.tsx';
import { LONG_STEP_MM } from './flat-hands.tsx';
import { FoundInFlat } from './found-in-flat.tsx';
import { cornerMoved, type Held, placeMoved } from './moved-on-flat.ts';
import { lengthWords } from './panel-numbers.ts';

interface Wish {
  readonly layout: PanelLayout;
  /** Laid out with it moved; absent until that is done. */
  readonly moved: PanelLayout | undefined;
  readonly held: Held | null;
  readonly isInch: boolean;
  readonly onKeep: () => void;
  readonly onLeave: () => void;
}

/** Where what is held would be, and what that would break. */
export function WhereHeld({ layout, moved, held, isInch, onKeep, onLeave }: Wish): ReactNode {
  if (held === null)
    return (
      <p className="small soft no-print cut-hint">
        {`Move a corner, window or hole with the pointer, or with the keyboard: Tab, arrow keys (with Shift ${lengthsIn(isInch).fine(LONG_STEP_MM)}), Enter keeps it. A corner moves along its sheet.`}
      </p>
    );
  const before = new Set(layout.findings.map(({ text }) => text));
  const fresh = (moved?.findings ?? []).filter(({ text, level }) => level !== 'note' && !before.has(text));
  return (
    <div className="cut-where no-print" role="status">
      <p>
        <strong>{held.what.id}</strong>
        {` ${whereWords(layout, held, isInch)}`}
      </p>
      <FoundInFlat findings={fresh} about={held.what.id} />
      <div className="keys">
        <Key weight="do" onClick={onKeep}>
          Keep it there
        </Key>
        <Key onClick={onLeave}>Leave it</Key>
      </div>
    </div>
  );
}

function whereWords(layout: PanelLayout, { what, by }: Held, isInch: boolean): string {
  const words = (mm: number): string => lengthWords(mm, isInch).replace('-', '−');
  if (what.kind === 'corner') {
    const [x, y, z] = cornerMoved(layout, what.id, by);
    return `rearward ${words(x)}, right ${words(y)}, up ${words(z)}`;
  }
  const [along, across] = placeMoved(layout, what, by);
  return `along ${words(along)}, in ${words(across)}`;
}
