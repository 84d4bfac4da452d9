/** A rectangle of fields of a square grid: columns from `left` to before `right`, rows from `bottom` to before `top`. */
export interface FieldRectangle {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

/**
 * The smallest rectangles of free fields that hold given shares of the most that any rectangle of free fields holds, each once.
 *
 * @param free - row by row
 * @param held - what each field holds
 * @param side - fields a side
 */
export function smallestFields(
  free: readonly boolean[],
  held: ArrayLike<number>,
  side: number,
  shares: readonly number[],
): readonly FieldRectangle[] {
  const found: { readonly rectangle: FieldRectangle; readonly area: number; readonly sum: number }[] = [];
  for (let bottom = 0; bottom < side; bottom++) {
    // Columns of all rows from `bottom` on, a row more each time.
    const columns = new Float64Array(side);
    const open = new Uint8Array(side).fill(1);
    for (let top = bottom + 1; top <= side; top++) {
      for (let k = 0; k < side; k++) {
        const field = (top - 1) * side + k;
        columns[k]! += held[field]!;
        if (free[field] !== true) open[k] = 0;
      }
      for (let left = 0; left < side; left++) {
        let sum = 0;
        for (let right = left + 1; right <= side && open[right - 1] === 1; right++) {
          sum += columns[right - 1]!;
          if (sum > 0)
            found.push({ rectangle: { left, right, bottom, top }, area: (right - left) * (top - bottom), sum });
        }
      }
    }
  }
  const most = Math.max(0, ...found.map(({ sum }) => sum));
  const smallest = shares.flatMap((share) => {
    const enough = found.filter(({ sum }) => sum >= share * most);
    return enough.length === 0
      ? []
      : [enough.reduce((a, b) => (b.area < a.area || (b.area === a.area && b.sum > a.sum) ? b : a))];
  });
  return [...new Set(smallest)].map(({ rectangle }) => rectangle);
}
