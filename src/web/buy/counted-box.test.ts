import { describe, expect, it } from 'vitest';
import { countedRows, type Counting, overtaken, withCount, withList } from './counted-box.ts';

const none: Counting = new Map();
const box = [
  { id: 'hose-8', qty: 4, note: 'top shelf' },
  { id: 'clamp-19', qty: 10 },
];

/** Common practice, no source: two at one shelf count different bins, and neither count undoes the other. */
describe('a box counted by two', () => {
  const mine = withCount(box, none, 'hose-8', 3);

  it('has both counts where they counted different parts', () => {
    const theirs = [box[0]!, { id: 'clamp-19', qty: 6 }, { id: 'olive-10', qty: 2 }];
    expect(overtaken(theirs, mine)).toEqual([]);
    expect(countedRows(theirs, mine)).toEqual([
      { id: 'hose-8', qty: 3, note: 'top shelf' },
      { id: 'clamp-19', qty: 6 },
      { id: 'olive-10', qty: 2 },
    ]);
  });

  it('tells of the row that both counted otherwise, and keeps mine to be kept', () => {
    const theirs = [{ ...box[0]!, qty: 5 }, box[1]!];
    expect(overtaken(theirs, mine)).toEqual([{ id: 'hose-8', mine: 3, theirs: 5 }]);
    expect(countedRows(theirs, mine)[0]).toMatchObject({ id: 'hose-8', qty: 3 });
    // Counted on from there: still theirs that it goes over.
    expect(overtaken(theirs, withCount(theirs, mine, 'hose-8', 2))).toEqual([{ id: 'hose-8', mine: 2, theirs: 5 }]);
  });

  it('has nothing to tell where both counted the same, or one took the row away', () => {
    expect(overtaken([{ ...box[0]!, qty: 3 }], mine)).toEqual([]);
    expect(overtaken([box[1]!], mine)).toEqual([{ id: 'hose-8', mine: 3, theirs: 0 }]);
  });
});

describe('a list read in place of a count', () => {
  const listed = withList(box, none, [{ id: 'clamp-19', qty: 7, note: 'left drawer' }]);

  it('sets its rows with their remarks; what is not on it is gone', () => {
    expect(countedRows(box, listed)).toEqual([{ id: 'clamp-19', qty: 7, note: 'left drawer' }]);
  });

  it('goes over what was counted before it, and leaves a row at none out', () => {
    const before = withCount(box, none, 'bolt-m6', 12);
    expect(countedRows(box, withList(box, before, []))).toEqual([]);
  });
});
