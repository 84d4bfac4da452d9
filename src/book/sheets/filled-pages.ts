import type { Drawing, Shape } from '../drawing.ts';
import { conventionWords } from '../line-card.ts';
import { PAGE_MARGIN_MM } from '../paper-sizes.ts';
import { Stack } from '../stack.ts';
import { block, brokenText, fewRows, row } from '../text-block.ts';
import { CAPITAL, ROW, textWidth } from '../text-width.ts';
import type { Block } from './block.ts';
import { fittedBodies } from './fitted-bodies.ts';
import type { SheetFrame } from './sheet-frame.ts';

/** What stands at the head of each page of a sheet. */
export interface SheetHead {
  /** The short word that it is asked for and found by. */
  readonly code: string;
  readonly title: string;
  /** Rows below the title, on its first page. */
  readonly about?: readonly string[];
  readonly car: string;
  /** Its first page is filled before any other, however little is left for the last: a card. */
  readonly fillsFirst?: true;
}

/** Between the body and what stands below it [mm]. */
const FOOT_GAP_MM = 2.5;

/** A sheet as pages: head, body broken over as many as it needs, how to read it at the foot of each; `last` stands at the foot of the first. */
export function filledPages(frame: SheetFrame, head: SheetHead, blocks: readonly Block[], last?: Block): Drawing[] {
  const first = headStack(frame, head, true);
  const next = headStack(frame, head, false);
  const foot = footHeight(frame);
  const bottom = frame.height - PAGE_MARGIN_MM - foot - FOOT_GAP_MM;
  const lastHeight = last === undefined ? 0 : last.height + FOOT_GAP_MM;
  const roomOf = (page: number): number =>
    bottom - frame.top - (page === 0 ? first.height + lastHeight : next.height) - frame.size * 0.5;
  const bodies = fittedBodies(blocks, roomOf, head.fillsFirst === true);
  return bodies.map((body, i): Drawing => {
    const own = i === 0 ? first : next;
    const top = frame.top + own.height + frame.size * 0.5;
    const shapes: Shape[] = [
      { kind: 'group', offset: [frame.left, frame.top], shapes: own.shapes },
      { kind: 'group', offset: [frame.left, top], shapes: body },
      ...(i === 0 && last !== undefined
        ? [{ kind: 'group', offset: [frame.left, bottom - last.height], shapes: last.shapes } as const]
        : []),
      footShapes(frame, head.code, i + 1, bodies.length),
    ];
    return {
      title: `${head.code} ${head.title}`,
      description: `${head.title}, page ${i + 1} of ${bodies.length}`,
      unit: 'mm',
      width: frame.width,
      height: frame.height,
      shapes,
    };
  });
}

function headStack(frame: SheetFrame, head: SheetHead, isFirst: boolean): Stack {
  const { inner, size } = frame;
  const codeSize = size * (isFirst ? 3.4 : 2.2);
  const isShort = textWidth(head.code, codeSize, 'bold') < inner * 0.3;
  const own = isShort ? codeSize : size * 1.5;
  const left = isShort ? textWidth(head.code, own, 'bold') + size * 1.3 : 0;
  const rightWidth = inner * 0.26;
  const words = new Stack(inner - left - rightWidth - size);
  if (!isShort) words.text(head.code, { size: own, weight: 'bold' });
  words.text(isFirst ? head.title : `${head.title}, continued`, { size: size * 1.4, weight: 'bold' });
  if (isFirst) for (const about of head.about ?? []) words.text(about, { size });
  const right = new Stack(rightWidth);
  for (const text of fewRows(head.car, rightWidth, 3, frame.small))
    right.put(
      block([rightWidth, 0], [text], { size: frame.small, role: 'soft', anchor: 'end' }).shapes,
      frame.small * ROW,
    );
  const height = Math.max(isShort ? own * (CAPITAL + 0.24) : 0, words.height, right.height) + size * 0.4;
  const code: Shape[] = isShort ? [row([0, own * (CAPITAL + 0.06)], head.code, { size: own, weight: 'bold' })] : [];
  return new Stack(inner).put(
    [
      ...code,
      { kind: 'group', offset: [left, 0], shapes: words.shapes },
      { kind: 'group', offset: [inner - rightWidth, 0], shapes: right.shapes },
      { kind: 'line', from: [0, height], to: [inner, height], pen: { role: 'ink', width: size * 0.25 } },
    ],
    height + size * 0.2,
  );
}

const conventionRows = (frame: SheetFrame): string[] =>
  brokenText(conventionWords(frame.inches), frame.inner, frame.small);

const footHeight = (frame: SheetFrame): number =>
  (conventionRows(frame).length + 1) * frame.small * ROW + frame.small * 0.7;

/** How to read places and clocks, and which page of which sheet it is. */
function footShapes(frame: SheetFrame, code: string, number: number, of: number): Shape {
  const { small, inner } = frame;
  const rows = conventionRows(frame);
  const top = small * 0.5;
  const which = of === 1 ? code : `${code} · ${number} of ${of}`;
  return {
    kind: 'group',
    offset: [frame.left, frame.height - PAGE_MARGIN_MM - footHeight(frame)],
    shapes: [
      { kind: 'line', from: [0, 0], to: [inner, 0], pen: { role: 'rule', width: 0.25 } },
      ...block([0, top], rows, { size: small, role: 'soft' }).shapes,
      ...block([inner / 2, top + rows.length * small * ROW], fewRows(which, inner * 0.34, 1, small, 'bold'), {
        size: small,
        weight: 'bold',
        anchor: 'middle',
      }).shapes,
    ],
  };
}

/** The day of printing and the page of the whole book, in the row that a sheet's foot leaves for them. */
export function stampShapes(frame: SheetFrame, left: string, right: string): Shape {
  const { small, inner } = frame;
  const style = { size: small, role: 'soft' } as const;
  return {
    kind: 'group',
    offset: [frame.left, frame.height - PAGE_MARGIN_MM - small * (ROW + 0.2)],
    shapes: [
      ...block([0, 0], fewRows(left, inner * 0.32, 1, small), style).shapes,
      ...block([inner, 0], fewRows(right, inner * 0.32, 1, small), { ...style, anchor: 'end' }).shapes,
    ],
  };
}
