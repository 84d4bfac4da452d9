/** Whether one comes out before the other; never true both ways. */
export type IsBefore<T> = (a: T, b: T) => boolean;

/** Puts one into a binary heap. */
export function putIn<T>(heap: T[], row: T, isBefore: IsBefore<T>): void {
  let i = heap.push(row) - 1;
  while (i > 0) {
    const up = (i - 1) >> 1;
    if (!isBefore(row, heap[up]!)) break;
    heap[i] = heap[up]!;
    i = up;
  }
  heap[i] = row;
}

/** Takes the first out of it; undefined where there is none. */
export function takeFirst<T>(heap: T[], isBefore: IsBefore<T>): T | undefined {
  const first = heap[0];
  const last = heap.pop();
  if (first === undefined || last === undefined || heap.length === 0) return first;
  let i = 0;
  for (;;) {
    let down = 2 * i + 1;
    if (down >= heap.length) break;
    if (down + 1 < heap.length && isBefore(heap[down + 1]!, heap[down]!)) down++;
    if (!isBefore(heap[down]!, last)) break;
    heap[i] = heap[down]!;
    i = down;
  }
  heap[i] = last;
  return first;
}
