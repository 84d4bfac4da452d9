import { invalidate as redraw, useFrame } from '@react-three/fiber';
import { type ReactNode, type RefObject, useEffect } from 'react';
import { Vector3 } from 'three';
import { open } from '../bench/place.ts';
import type { Tag } from './tag-list.ts';

interface Wish {
  readonly tags: readonly Tag[];
  readonly layer: RefObject<HTMLDivElement | null>;
}

/** Tags are words, so they lie over the picture as words; where, the picture says. */
export function Tags({ tags, layer }: Wish): ReactNode {
  // The picture draws only when asked; it is asked once the words are there to be hung.
  useEffect(() => redraw(), [tags]);
  return (
    <div className="tags" ref={layer}>
      {tags.map((tag) => (
        <div key={tag.snag} className="tag-hang" data-tag={tag.snag}>
          <span className="tag-wire" />
          <button
            type="button"
            className={`tag tag-${tag.level}`}
            aria-label={`${tag.words}: ${tag.about}`}
            aria-current={tag.isOpen ? 'true' : undefined}
            onClick={() => open({ kind: 'snag', id: tag.snag })}
          >
            {tag.words}
          </button>
        </div>
      ))}
    </div>
  );
}

/** Room a tag takes [px]. */
const WIDE_PX = 70;
const LETTER_PX = 8.5;
const HIGH_PX = 34;
const WIRE_PX = 34;

/** Hangs each tag above its place, moved up where another hangs already. */
export function TagPlaces({ tags, layer }: Wish): null {
  useFrame(({ camera, size }) => {
    if (layer.current === null) return;
    // Drawing on demand means one frame: where the camera has just gone must hold in this one.
    camera.updateMatrixWorld();
    const taken: (readonly [x: number, y: number, wide: number])[] = [];
    for (const tag of tags) {
      const element = layer.current.querySelector<HTMLElement>(`[data-tag="${CSS.escape(tag.snag)}"]`);
      if (element === null) continue;
      const at = new Vector3(...tag.atMm).project(camera);
      const isSeen = at.z < 1 && Math.abs(at.x) < 1.02 && Math.abs(at.y) < 1.02;
      element.style.visibility = isSeen ? 'visible' : 'hidden';
      if (!isSeen) continue;
      const x = ((at.x + 1) / 2) * size.width;
      const y = ((1 - at.y) / 2) * size.height;
      const wide = Math.max(WIDE_PX, tag.words.length * LETTER_PX + 24);
      let wire = WIRE_PX;
      const isTaken = (): boolean =>
        taken.some(([a, b, other]) => Math.abs(a - x) < (wide + other) / 2 && Math.abs(b - (y - wire)) < HIGH_PX);
      while (isTaken() && wire < 8 * HIGH_PX) wire += HIGH_PX / 2;
      wire = Math.max(0, Math.min(wire, y - HIGH_PX / 2));
      taken.push([x, y - wire, wide]);
      element.style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px)`;
      element.style.setProperty('--wire', `${wire}px`);
    }
  });
  return null;
}
