import { type Outline, type OutlineCorner, outlineArea } from './outline.ts';
import { outlineSides, sideCrossings } from './side.ts';

/** Park and Miller's least standard generator: the same outlines for a seed on every machine. */
export function seeded(seed: number): () => number {
  let state = (seed * 2654435761) % 2147483647 || 1;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

/** A counter-clockwise outline round the origin, of lines and arcs, that does not cross itself. */
export function seededOutline(seed: number, size = 300): Outline {
  const next = seeded(seed);
  for (;;) {
    const n = 3 + Math.floor(next() * 8);
    const outline = Array.from({ length: n }, (_, i): OutlineCorner => {
      const angle = ((i + 0.15 + 0.7 * next()) / n) * 2 * Math.PI;
      const r = size * (0.4 + 0.6 * next());
      const at = [r * Math.cos(angle), r * Math.sin(angle)] as const;
      return next() < 0.5 ? { at } : { at, bulge: 0.8 * (next() - 0.5) };
    });
    const sides = outlineSides(outline);
    const isSimple = sides.every((side, i) =>
      sides.every((other, j) => {
        if (j <= i) return true;
        const isNext = j === i + 1 || (i === 0 && j === n - 1);
        return sideCrossings(side, other).length <= (isNext ? (n === 2 ? 2 : 1) : 0);
      }),
    );
    if (isSimple && outlineArea(outline) > 0) return outline;
  }
}
