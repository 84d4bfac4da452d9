/** Sheets of paper that a page printer takes, upright [mm]. */
export const PAPER_MM = { A4: [210, 297], A3: [297, 420], Letter: [215.9, 279.4] } as const satisfies Record<
  string,
  readonly [number, number]
>;
export type PagePaper = keyof typeof PAPER_MM;
/** The names of the papers, in the order in which they are listed. */
export const PAGE_PAPERS = ['A4', 'A3', 'Letter'] as const satisfies readonly PagePaper[];

/** No printer of the usual kinds prints nearer to the edge than this needs [mm] (common practice, no source). */
export const PAGE_MARGIN_MM = 10;
