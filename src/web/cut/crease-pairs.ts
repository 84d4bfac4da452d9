import type { Panel } from '#car';

/** Corners that no edge joins, by pairs: a crease runs from one to the other. */
export const acrossOf = ({ corners = [] }: Panel): readonly (readonly [string, string])[] =>
  corners.flatMap(({ id }, i) =>
    corners.slice(i + 2).flatMap((other, k) => {
      const isEdge = i === 0 && i + 2 + k === corners.length - 1;
      return isEdge ? [] : [[id, other.id] as const];
    }),
  );
