import { type BookKnown, bookOf } from '#answers';
import { bookPages, type BookSheet, bookSheets, changedSheets, type PagePaper, palettes } from '#book';
import type { LinesWorld } from '#lines';
import { pdfBytes } from '#paper';

export interface BookAsk {
  readonly paper: PagePaper;
  readonly inches: boolean;
  /** Sheets by their codes or groups; empty: the whole book. */
  readonly only: readonly string[];
  readonly day: string;
}

/** A book as a file, with what is in it. */
export interface BookMade {
  readonly bytes: Uint8Array;
  readonly sheets: number;
  readonly pages: number;
}

const STEPS = 3;

/** Sheets about the book itself and about what changed: by themselves they say that nothing did. */
const ABOUT_IT: ReadonlySet<string> = new Set(['book', 'change']);

const withContent = (sheets: readonly BookSheet[]): readonly BookSheet[] =>
  sheets.every(({ code }) => ABOUT_IT.has(code)) ? [] : sheets;

/** The papers of a car with the ways taken, as one PDF; what is known of it is not worked out again. Held against an earlier car, only what is otherwise. */
export async function bookMade(
  world: LinesWorld,
  known: Pick<BookKnown, 'tried' | 'nuts' | 'flow' | 'offPlans'>,
  { paper, inches, only, day }: BookAsk,
  watch: (done: number, total: number) => boolean,
  before?: NonNullable<BookKnown['before']>,
): Promise<BookMade> {
  watch(0, STEPS);
  const input = bookOf(world, { ...known, day, ...(before === undefined ? {} : { before }) });
  watch(1, STEPS);
  const had = before === undefined ? [] : bookSheets(bookOf(before.world, { day }), { paper, inches });
  const all = bookSheets(input, { paper, inches }, had);
  const otherwise = before === undefined ? all : withContent(changedSheets(all, had));
  const sheets =
    only.length === 0 ? otherwise : otherwise.filter(({ code, group }) => only.includes(code) || only.includes(group));
  const pages = bookPages(sheets, { paper, inches, day, isPart: sheets.length < all.length });
  watch(2, STEPS);
  const bytes = await pdfBytes(pages, { title: `${world.car.name ?? 'Car'}: the book`, palette: palettes.paper });
  watch(STEPS, STEPS);
  return { bytes: new Uint8Array(bytes), sheets: sheets.length, pages: pages.length };
}
