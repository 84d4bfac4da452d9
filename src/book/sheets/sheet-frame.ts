import { PAGE_MARGIN_MM, PAPER_MM, type PagePaper } from '../paper-sizes.ts';

/** At the side where the sheets are punched for a binder [mm] (common practice, no source). */
const BINDING_MM = 18;

/** The paper of a sheet, upright, what of it is written on, and the sizes of its words [mm]. */
export interface SheetFrame {
  readonly paper: PagePaper;
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly top: number;
  /** Width of what is written on. */
  readonly inner: number;
  /** Usual words. */
  readonly size: number;
  /** The smallest words. */
  readonly small: number;
  /** Handed to pictures, whose own smallest words are 0.8 of it. */
  readonly picture: number;
  readonly inches: boolean;
}

/** No word is below 9 points, which is 3.18 mm. */
const SIZES = {
  A4: { size: 3.5, small: 3.2, picture: 4 },
  A3: { size: 4.4, small: 3.7, picture: 4.9 },
  Letter: { size: 3.5, small: 3.2, picture: 4 },
} as const satisfies Record<PagePaper, Pick<SheetFrame, 'size' | 'small' | 'picture'>>;

export function sheetFrame(paper: PagePaper, inches = false): SheetFrame {
  const [width, height] = PAPER_MM[paper];
  return {
    paper,
    width,
    height,
    left: BINDING_MM,
    top: PAGE_MARGIN_MM,
    inner: width - BINDING_MM - PAGE_MARGIN_MM,
    ...SIZES[paper],
    inches,
  };
}
