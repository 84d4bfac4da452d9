import { type ReactNode, useState } from 'react';
import type { Point2 } from '#geometry';
import { Key } from '../frame/key.tsx';
import { type Ground, wholeOf } from './ground.ts';
import { OutlineView } from './outline-view.tsx';
import { type PhotoDraft, references } from './photo-draft.ts';
import type { ChosenPhoto } from './card.ts';

interface Wish {
  readonly photo: ChosenPhoto;
  readonly draft: PhotoDraft;
  readonly onDraft: (draft: PhotoDraft) => void;
}

const CORNERS = 4;
const still = (): void => undefined;
const itself = (place: Point2): Point2 => place;

/** The photo as it is; where the card or the reference is not found by itself, it is pointed at. */
export function Pointing({ photo, draft, onDraft }: Wish): ReactNode {
  const [at, setAt] = useState<'corners' | 'on' | null>(null);
  const ground: Ground = { size: photo.sizePx, photo: photo.url, seen: itself, mmAt: itself };
  const point = (place: Point2): void => {
    if (at === 'on') {
      setAt(null);
      return onDraft({ ...draft, on: place });
    }
    const corners = [...draft.corners, place].slice(0, CORNERS);
    if (corners.length === CORNERS) setAt(null);
    onDraft({ ...draft, corners });
  };
  const next = references[draft.kind].corners[draft.corners.length];
  return (
    <>
      <OutlineView
        ground={ground}
        box={wholeOf(ground)}
        label="The photo"
        shape={null}
        chosen={null}
        onChoose={still}
        onMove={still}
        picks={[...draft.corners, ...(draft.on === null ? [] : [draft.on])]}
        onPoint={at === null ? undefined : point}
      />
      <div className="keys">
        <Key
          aria-pressed={at === 'corners'}
          onClick={() => {
            setAt(at === 'corners' ? null : 'corners');
            if (at !== 'corners' && draft.corners.length > 0) onDraft({ ...draft, corners: [] });
          }}
        >
          {draft.corners.length === CORNERS ? 'Point at the reference again' : 'Point at the reference'}
        </Key>
        <Key aria-pressed={at === 'on'} onClick={() => setAt(at === 'on' ? null : 'on')}>
          Point at the card
        </Key>
        {draft.corners.length === 0 && draft.on === null ? null : (
          <Key onClick={() => onDraft({ ...draft, corners: [], on: null })}>Nothing pointed at</Key>
        )}
      </div>
      <p className="small soft" role="status">
        {at === 'corners' && next !== undefined
          ? `Click on ${next} in the photo`
          : at === 'on'
            ? 'Click on the card in the photo'
            : 'Both are looked for by themselves; point at them only where that fails.'}
      </p>
    </>
  );
}
