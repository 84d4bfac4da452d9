import { invalidate as redraw, useFrame } from '@react-three/fiber';
import { type ReactNode, type RefObject, useEffect } from 'react';
import { Vector3 } from 'three';
import { open } from '../bench/place.ts';
import { hungTags } from './hung-tags.ts';
import type { Tag } from './tag.ts';

interface Wish {
  readonly tags: readonly Tag[];
  readonly layer: RefObject<HTMLDivElement | null>;
}

/** Tags are words, so they lie over the picture as words; where, the picture says. */
export function Tags({ tags, layer }: Wish): ReactNode {
  // The picture draws only when asked; it is asked once the words are there to be hung.
  useEffect(() => redraw(), [tags]);
  // Wires come first, so that none is drawn across another tag's words.
  return (
    <div className="tags" ref={layer}>
      {tags.map((tag) => (
        <span key={tag.snag} className="tag-hang" data-tag={tag.snag}>
          <span className="tag-wire" />
        </span>
      ))}
      {tags.map((tag) => (
        <div key={tag.snag} className="tag-hang" data-tag={tag.snag}>
          <button
            type="button"
            className={`tag tag-${tag.level}`}
            aria-label={`${tag.words}: ${tag.about}`}
            aria-current={tag.isOpen ? 'true' : undefined}
            onClick={() => open(tag.opens ?? { kind: 'snag', id: tag.snag })}
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

/** Hangs each tag above its place on the car; what is behind the camera or finds no room is not shown. */
export function TagPlaces({ tags, layer }: Wish): null {
  useFrame(({ camera, size }) => {
    const { current } = layer;
    if (current === null) return;
    // Drawing on demand means one frame: where the camera has just gone must hold in this one.
    camera.updateMatrixWorld();
    const seen = tags.flatMap((tag) => {
      const at = new Vector3(...tag.atMm).project(camera);
      if (at.z >= 1 || Math.abs(at.x) >= 1.02 || Math.abs(at.y) >= 1.02) return [];
      const wide = Math.max(WIDE_PX, tag.words.length * LETTER_PX + 24);
      return [{ id: tag.snag, x: ((at.x + 1) / 2) * size.width, y: ((1 - at.y) / 2) * size.height, wide }];
    });
    const hung = new Map(hungTags(seen, size).map((place, i) => [seen[i]!.id, place]));
    for (const element of current.querySelectorAll<HTMLElement>('[data-tag]')) {
      const place = hung.get(element.dataset['tag'] ?? '') ?? null;
      element.style.visibility = place === null ? 'hidden' : 'visible';
      if (place === null) continue;
      element.style.transform = `translate(${place.x.toFixed(1)}px, ${place.y.toFixed(1)}px)`;
      element.style.setProperty('--wire', `${place.wire}px`);
      element.style.setProperty('--aside', `${place.aside}px`);
    }
  });
  return null;
}
