import { questions, type Snag } from '#snags';
import { levelWord } from '../level-mark.ts';
import { type Block, counted, headingBlocks, textBlocks } from './block.ts';
import type { BookInput } from './book-input.ts';
import type { BookSheet } from './book-sheet.ts';
import { filledPages } from './filled-pages.ts';
import { levelBlocks } from './level-blocks.ts';
import type { SheetFrame } from './sheet-frame.ts';

/** Every open point that stops or wants a fix, by question, worst first; notes are counted. */
export function openSheet({ car, snags }: BookInput, frame: SheetFrame): BookSheet {
  const open = snags.filter((snag) => snag.level !== 'note' && snag.accepted?.isWorse !== false);
  const accepted = snags.filter((snag) => snag.accepted?.isWorse === false).length;
  const notes = snags.filter((snag) => snag.level === 'note' && snag.accepted?.isWorse !== false).length;
  const blocks = Object.entries(questions).flatMap(([question, words]): Block[] => {
    const own = open.filter((snag) => snag.question === question);
    if (own.length === 0) return [];
    return [...headingBlocks(words, frame.inner, frame.size), ...own.flatMap((snag) => snagBlocks(snag, frame))];
  });
  const stops = open.filter((snag) => snag.level === 'stop').length;
  const counts = [
    `${counted(stops, 'stop')}, ${counted(open.length - stops, 'fix', 'fixes')}`,
    `${counted(notes, 'note is', 'notes are')} not printed here${accepted === 0 ? '' : `; ${accepted} accepted`}`,
  ];
  const nothing = textBlocks('Nothing stops and nothing wants a fix.', frame.inner, { size: frame.size });
  return {
    code: 'open',
    title: 'Open points',
    group: 'front',
    pages: filledPages(
      frame,
      { code: 'open', title: 'Open points', about: counts, car: car.name ?? 'Car' },
      blocks.length === 0 ? nothing : blocks,
    ),
    lines: [...new Set(open.flatMap((snag) => snag.line ?? []))],
    rows: [
      ['level', 'question', 'about', 'text', 'source', 'cure'],
      ...open.map((snag) => [snag.level, snag.question, aboutOf(snag), snag.text, snag.source, snag.cures[0] ?? '']),
    ],
  };
}

const aboutOf = (snag: Snag): string => snag.line ?? snag.panel ?? snag.lever ?? snag.part ?? snag.circuit ?? '';

function snagBlocks(snag: Snag, frame: SheetFrame): Block[] {
  const [cure] = snag.cures;
  const indent = frame.small * 1.2;
  const blocks = [
    ...levelBlocks(snag.level, `${levelWord[snag.level]}: ${snag.text} (${snag.source})`, frame, frame.size * 0.55),
    ...(cure === undefined ? [] : textBlocks(cure, frame.inner, { size: frame.small, role: 'blue' }, { indent })),
  ];
  // What would cure it stands on the same page.
  return blocks.map((one, i): Block => (i < blocks.length - 1 ? { ...one, isHead: true } : one));
}
