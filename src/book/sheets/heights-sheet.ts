import { findPort } from '#car';
import type { HeightRung } from '#flow';
import { formatInches, formatMm, formatNumber } from '#units';
import { heightLadder } from '../height-ladder.ts';
import { type Block, drawingBlock, headingBlocks, textBlocks } from './block.ts';
import type { BookInput } from './book-input.ts';
import type { BookSheet } from './book-sheet.ts';
import { filledPages } from './filled-pages.ts';
import { type Cell, gridBlocks } from './grid.ts';
import type { SheetFrame } from './sheet-frame.ts';

/** Heights over the datum, low and high in order: of each circuit that flows, or of every port that a line joins. */
export function heightsSheet(input: BookInput, frame: SheetFrame): BookSheet {
  const { car, flow } = input;
  const circuits = car.circuits ?? [];
  const ladders = circuits
    .map((circuit) => {
      const worked = flow.circuits.find((one) => one.circuit === circuit.id)?.heights?.ladder;
      return {
        title: circuit.name ?? circuit.id,
        lines: circuit.lines,
        rungs: worked ?? portRungs(input, circuit.lines),
        kind: circuit.kind,
      };
    })
    .filter(({ kind, rungs }) => kind !== 'other' && rungs.length > 0);
  const all = { title: 'Ports', lines: car.lines.map(({ id }) => id), rungs: [] as readonly HeightRung[] };
  const shown = ladders.length > 0 ? ladders : [{ ...all, rungs: portRungs(input, all.lines) }];
  const blocks = shown.flatMap(({ title, rungs }): Block[] => [
    ...headingBlocks(title, frame.inner, frame.size),
    drawingBlock(
      heightLadder(rungs, frame.inches ? 'inch' : 'metric', { width: frame.inner, size: frame.size, unit: 'mm' }),
    ),
  ]);
  const standing = stoodBlocks(input, frame);
  return {
    code: 'heights',
    title: 'Heights',
    group: 'flow',
    pages: filledPages(
      frame,
      {
        code: 'heights',
        title: 'Heights',
        about: ['over the datum Z = 0, the car level; measure them again on the car before it is filled'],
        car: car.name ?? 'Car',
      },
      [...blocks, ...standing],
    ),
    lines: [...new Set(shown.flatMap(({ lines }) => lines))],
    rows: [
      ['circuit', 'what', 'kind', 'heightMm'],
      ...shown.flatMap(({ title, rungs }) =>
        rungs.map((rung) => [title, rung.words, rung.kind, formatNumber(rung.heightMm)]),
      ),
    ],
  };
}

/** Each port that the lines join, once. */
function portRungs({ car }: BookInput, lines: readonly string[]): HeightRung[] {
  const own = car.lines.filter((line) => lines.includes(line.id));
  const refs = [...new Set(own.flatMap((line) => [line.from, line.to]))];
  return refs.flatMap((ref): HeightRung[] => {
    const found = findPort(car, ref);
    if (found === undefined) return [];
    const ids = own.filter((line) => line.from === ref || line.to === ref).map((line) => line.id);
    const name = `${found.part.name ?? found.part.id}, ${found.port.name ?? found.port.id}`;
    return [{ words: `${name} (${ids.join(', ')})`, heightMm: found.port.atMm[2], kind: 'port' }];
  });
}

/** How the water stands with the car tilted: what is highest, and where air stays. */
function stoodBlocks({ flow }: BookInput, frame: SheetFrame): Block[] {
  const heights = flow.circuits.flatMap((circuit) => circuit.heights ?? []);
  const long = frame.inches ? formatInches : formatMm;
  return heights.flatMap((one): Block[] => [
    ...headingBlocks('Water with the car stood otherwise', frame.inner, frame.size),
    ...textBlocks('Heights here are up from the datum as the car stands then.', frame.inner, {
      size: frame.small,
      role: 'soft',
    }),
    ...gridBlocks(
      [
        { head: 'stood', share: 4 },
        { head: 'highest', em: 7, anchor: 'end' },
        { head: 'where', share: 6 },
        { head: 'air stays', share: 7 },
      ],
      one.attitudes.map((row): Cell[] => [
        row.words,
        row.highestMm === null ? '–' : long(row.highestMm),
        row.highestMm === null ? 'all of it is in the header and its lines' : row.highestWords,
        row.traps.length === 0
          ? 'nowhere'
          : row.traps
              .map(
                (trap) => `${trap.words}, ${trap.depthMm === null ? 'with no way out' : `${long(trap.depthMm)} deep`}`,
              )
              .join('; '),
      ]),
      frame.inner,
      frame.small,
      frame.size * 0.4,
    ),
  ]);
}
