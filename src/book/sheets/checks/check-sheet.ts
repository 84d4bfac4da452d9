import { framed } from '../../panel-head.ts';
import { type Block, headingBlocks, stackBlock, textBlocks } from '../block.ts';
import type { BookInput } from '../book-input.ts';
import type { BookSheet } from '../book-sheet.ts';
import { filledPages } from '../filled-pages.ts';
import { type Cell, gridBlocks } from '../grid.ts';
import { signBlock } from '../sign-block.ts';
import type { SheetFrame } from '../sheet-frame.ts';

/** One thing to do or look at. */
export interface CheckStep {
  readonly text: string;
  /** Of this car: what to look for, in figures. */
  readonly figure?: string;
  /** A rule to write on, with this behind it. */
  readonly fill?: string;
}

export interface CheckSection {
  readonly title: string;
  /** Where it comes from, or how to do it. */
  readonly about?: string;
  readonly steps: readonly CheckStep[];
}

export interface CheckList {
  readonly code: string;
  readonly title: string;
  readonly about: readonly string[];
  /** What can hurt someone here: stands before the first step. */
  readonly cautions: readonly string[];
  readonly sections: readonly CheckSection[];
  readonly lines: readonly string[];
}

/** Said once on each: who decides. */
export const WHO_DECIDES =
  "The event's rules, local codes and a qualified person come before this sheet. Steps are common practice, no source, unless one is named; figures are this car's.";

/** A list of steps with boxes to tick, figures and room to write, signed at its end. */
export function checkSheet({ car }: BookInput, list: CheckList, frame: SheetFrame): BookSheet {
  const { code, title, about, lines } = list;
  const head = { code, title, about, car: car.name ?? 'Car' };
  return {
    code,
    title,
    group: 'checks',
    pages: filledPages(frame, head, stepBlocks(list, frame)),
    lines,
    rows: [
      ['section', 'step', 'figure'],
      ...list.sections.flatMap((section) => section.steps.map((step) => [section.title, step.text, step.figure ?? ''])),
    ],
  };
}

function stepBlocks(list: CheckList, frame: SheetFrame): Block[] {
  let number = 0;
  const rowsOf = (section: CheckSection): Cell[][] =>
    section.steps.map((step): Cell[] => [
      { tick: true },
      String(++number),
      step.text,
      { text: step.figure ?? '', weight: 'bold' },
      step.fill === undefined ? '' : { fill: step.fill },
    ]);
  const blocks: Block[] = [
    stackBlock(framed([...list.cautions, WHO_DECIDES], frame.inner, frame.small)),
    ...list.sections
      .filter((section) => section.steps.length > 0)
      .flatMap((section): Block[] => [
        ...headingBlocks(section.title, frame.inner, frame.size),
        ...(section.about === undefined
          ? []
          : textBlocks(section.about, frame.inner, { size: frame.small, role: 'soft' }, { isHead: true })),
        ...gridBlocks(columnsOf(section), rowsOf(section), frame.inner, frame.size, frame.size * 0.3),
      ]),
  ];
  return signed(blocks, frame);
}

/** Steps that stand with the names on a last page, at least, where there are as many. */
const LAST_STEPS = 3;

/** The names stand below the last steps, which go overleaf with them rather than leave them all but alone there. */
function signed(blocks: readonly Block[], frame: SheetFrame): Block[] {
  const kept = blocks.map((one, i): Block => (i < blocks.length - LAST_STEPS ? one : { ...one, isHead: true }));
  return [...kept, signBlock(frame, ['done by', 'seen by'])];
}

function columnsOf({ steps }: CheckSection) {
  const hasFill = steps.some((step) => step.fill !== undefined);
  const hasFigure = steps.some((step) => step.figure !== undefined);
  return [
    { head: '', em: 2.1 },
    { head: '', em: 2.1, anchor: 'end' },
    { head: 'do', share: 10 },
    { head: hasFigure ? 'this car' : '', ...(hasFigure ? { share: 6 } : { em: 0 }) },
    { head: hasFill ? 'read' : '', ...(hasFill ? { em: 8 } : { em: 0 }) },
  ] as const;
}
