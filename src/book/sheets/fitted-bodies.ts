import type { Shape } from '../drawing.ts';
import type { Block } from './block.ts';

/** Height of the body of a page [mm], by its number from 0. */
type RoomOf = (page: number) => number;

/** Shares of the rooms between blocks that are tried, the roomiest first; below 1 rows of tables stand closer too. */
const SPACE_SHARES = [1, 0.7, 0.45] as const;
/** A last page is filled to this share at least, where rows of the pages before it can go overleaf [share]. */
export const LEAST_LAST_FILL = 1 / 3;
/** Pages before the last are left emptier in steps of this [mm]. */
const STEP_MM = 3;
/** The most that is left empty at their feet for it [share of a page]. */
const MOST_LEFT = 0.5;

/**
 * Blocks set one below the other on as many pages as they need: moved together where that saves a page; else, unless the first page is to
 * be as full as it can be, with no last page that has only a few rows.
 */
export function fittedBodies(blocks: readonly Block[], roomOf: RoomOf, fillsFirst: boolean): Shape[][] {
  const tries = SPACE_SHARES.map((share) => setOut(blocks, roomOf, share));
  const least = Math.min(...tries.map(({ pages }) => pages.length));
  const found = tries.findIndex(({ pages }) => pages.length === least);
  const best = tries[found]!;
  if (least === 1 || fillsFirst) return best.pages;
  return levelled(blocks, roomOf, SPACE_SHARES[found]!, best).pages;
}

/** The same number of pages with more on the last, as little more as makes it no remnant; else with as much as it can have. */
function levelled(blocks: readonly Block[], roomOf: RoomOf, share: number, first: SetOut): SetOut {
  let best = first;
  for (let less = 0; less < roomOf(1) * MOST_LEFT && best.lastFill < LEAST_LAST_FILL; less += STEP_MM) {
    const own = setOut(blocks, (page) => roomOf(page) - less, share);
    if (own.pages.length > first.pages.length) break;
    const lastFill = own.lastHeight / roomOf(1);
    if (lastFill > best.lastFill) best = { ...own, lastFill };
  }
  return best;
}

interface SetOut {
  readonly pages: Shape[][];
  readonly lastHeight: number;
  /** Of the room of the last page. */
  readonly lastFill: number;
}

/** Blocks on pages in their order; one higher than a page stands by itself. */
function setOut(blocks: readonly Block[], roomOf: RoomOf, share: number): SetOut {
  const pages: Shape[][] = [[]];
  let height = 0;
  const own = share < 1 ? blocks.map((one) => ({ ...one, ...one.close })) : blocks;
  const spaceOf = (one: Block | undefined): number => (one?.space ?? 0) * share;
  const put = (one: Block, space: number): void => {
    pages.at(-1)!.push({ kind: 'group', offset: [0, height + space], shapes: one.shapes });
    height += space + one.height;
  };
  for (let i = 0; i < own.length; i++) {
    const one = own[i]!;
    const alone = (height === 0 ? 0 : spaceOf(one)) + one.height;
    let wanted = alone;
    // A heading wants room for what it heads, where a page has as much.
    for (let k = i; own[k]?.isHead === true && k + 1 < own.length; k++)
      wanted += spaceOf(own[k + 1]) + own[k + 1]!.height;
    if (wanted > roomOf(1)) wanted = alone;
    if (height > 0 && height + wanted > roomOf(pages.length - 1) + 1e-6) {
      pages.push([]);
      height = 0;
    }
    const isNew = height === 0 && pages.length > 1;
    if (isNew && one.again !== undefined) put(one.again, 0);
    put(one, height === 0 ? 0 : spaceOf(one));
  }
  return { pages, lastHeight: height, lastFill: height / roomOf(pages.length - 1) };
}
