import { type BookKnown, bookOf } from '#answers';
import { bookPages, bookSheets, type PagePaper, palettes } from '#book';
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

/** The papers of a car with the ways taken, as one PDF; what is known of it is not worked out again. */
export async function bookMade(
  world: LinesWorld,
  known: Pick<BookKnown, 'tried' | 'nuts' | 'flow' | 'offPlans'>,
  { paper, inches, only, day }: BookAsk,
  watch: (done: number, total: number) => boolean,
): Promise<BookMade> {
  watch(0, STEPS);
  const input = bookOf(world, { ...known, day });
  watch(1, STEPS);
  const all = bookSheets(input, { paper, inches });
  const sheets = only.length === 0 ? all : all.filter(({ code, group }) => only.includes(code) || only.includes(group));
  const pages = bookPages(sheets, { paper, inches, day, isPart: sheets.length < all.length });
  watch(2, STEPS);
  const bytes = await pdfBytes(pages, { title: `${world.car.name ?? 'Car'}: the book`, palette: palettes.paper });
  watch(STEPS, STEPS);
  return { bytes: new Uint8Array(bytes), sheets: sheets.length, pages: pages.length };
}
