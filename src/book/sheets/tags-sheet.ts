import { findPort } from '#car';
import type { Shape, Spot } from '../drawing.ts';
import { fewRows, row, shrunkSize } from '../text-block.ts';
import { ROW, textWidth } from '../text-width.ts';
import { dutyRole } from '../wall-view.ts';
import { type Block, textBlocks } from './block.ts';
import type { BookInput, BookLine } from './book-input.ts';
import type { BookSheet } from './book-sheet.ts';
import { filledPages } from './filled-pages.ts';
import type { SheetFrame } from './sheet-frame.ts';

interface Tag {
  readonly line: string;
  readonly end: 'A' | 'B';
  readonly name: string;
  readonly here: Port;
  readonly there: Port;
  readonly duty: string;
}

/** A port by the names of part and port, and by its id: what is too long for a tag goes by the id, which no row cuts short. */
interface Port {
  readonly name: string;
  readonly ref: string;
}

/** A label for either end of each line, to be cut out and wrapped round it. */
export function tagsSheet({ car, lines }: BookInput, frame: SheetFrame): BookSheet[] {
  if (lines.length === 0) return [];
  const tags = lines.flatMap((own) => tagsOf({ car, own }));
  const perRow = 2;
  const width = frame.inner / perRow;
  const blocks: Block[] = [
    ...textBlocks(
      'Cut along the broken lines, print side out, under clear heat-shrink or tape: one at each end of its line.',
      frame.inner,
      {
        size: frame.size,
      },
    ),
  ];
  for (let i = 0; i < tags.length; i += perRow)
    blocks.push(tagRow(tags.slice(i, i + perRow), width, frame, i === 0 ? frame.size : 0));
  return [
    {
      code: 'tags',
      title: 'Tags for both ends of each line',
      group: 'tags',
      pages: filledPages(
        frame,
        { code: 'tags', title: 'Tags for both ends of each line', car: car.name ?? 'Car' },
        blocks,
      ),
      lines: lines.map(({ line }) => line.id),
      rows: [
        ['line', 'end', 'name', 'port', 'otherEnd', 'carries'],
        ...tags.map((tag) => [tag.line, tag.end, tag.name, tag.here.name, tag.there.name, tag.duty]),
      ],
    },
  ];
}

function tagsOf({ car, own: { line } }: { readonly car: BookInput['car']; readonly own: BookLine }): Tag[] {
  const named = (ref: string): Port => {
    const found = findPort(car, ref);
    const name = found === undefined ? ref : `${found.part.name ?? found.part.id}, ${found.port.name ?? found.port.id}`;
    return { name, ref };
  };
  const both = { line: line.id, name: line.name ?? line.duty.replace('-', ' '), duty: line.duty };
  return [
    { ...both, end: 'A', here: named(line.from), there: named(line.to) },
    { ...both, end: 'B', here: named(line.to), there: named(line.from) },
  ];
}

function tagRow(tags: readonly Tag[], width: number, frame: SheetFrame, space: number): Block {
  const height = frame.size * 6.4;
  const shapes = tags.map(
    (tag, i): Shape => ({
      kind: 'group',
      offset: [i * width, 0],
      shapes: tagShapes(tag, width, height, frame),
    }),
  );
  return { shapes, height, space };
}

function tagShapes(tag: Tag, width: number, height: number, frame: SheetFrame): Shape[] {
  const { size, small } = frame;
  const pen = { role: 'soft', width: 0.2, dash: [2, 1.2] } as const;
  const pad = size * 0.8;
  const band = size * 0.9;
  const idWidth = width * 0.26;
  const idSize = shrunkSize(tag.line, idWidth, size * 3.4, small, 'bold');
  const left = band + pad * 2 + idWidth;
  const room = width - left - pad;
  const ids = fewRows(tag.line, idWidth, 3, idSize, 'bold');
  const told = (before: string, { name, ref }: Port): string =>
    textWidth(`${before} ${name}`, small) <= room ? `${before} ${name}` : `${before} ${ref}`;
  const rows = [
    { text: tag.name, weight: 'bold' as const },
    { text: told(`${tag.end}:`, tag.here), weight: 'regular' as const },
    { text: told('to', tag.there), weight: 'regular' as const },
  ];
  const at = (i: number): Spot => [left, pad + small * (1 + i * (ROW + 0.15))];
  return [
    { kind: 'rect', at: [0, 0], width, height, pen },
    { kind: 'rect', at: [0, 0], width: band, height, fill: dutyRole(tag.duty) },
    ...ids.map((text, i) =>
      row([band + pad, height / 2 + idSize * 0.3 - (ids.length - 1) * idSize * ROW * 0.5 + i * idSize * ROW], text, {
        size: idSize,
        weight: 'bold',
      }),
    ),
    ...rows.map(({ text, weight }, i) =>
      row(at(i), fewRows(text, room, 1, small, weight)[0] ?? '', { size: small, weight }),
    ),
    row(at(3), tag.duty.replace('-', ' '), { size: small, role: 'soft' }),
  ];
}
