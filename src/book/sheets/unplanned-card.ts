import { type Car, findPort, type Line } from '#car';
import { distance, unit } from '#geometry';
import { clockFrame, directionWords, clockFace as faceLines } from '#lines';
import { describeEnd, type End } from '#standards';
import { lengthsIn } from '#units';
import { portName } from '../card-ends.ts';
import type { Shape, Spot } from '../drawing.ts';
import { block, row } from '../text-block.ts';
import { ROW } from '../text-width.ts';
import { type Block, headingBlocks, textBlocks } from './block.ts';
import type { BookInput } from './book-input.ts';
import { type Cell, gridBlocks } from './grid.ts';
import type { SheetFrame } from './sheet-frame.ts';

/** A line without a way: what its two ports are and where, and room for what is measured on the car by hand. */
export function unplannedBlocks({ car }: BookInput, line: Line, frame: SheetFrame): Block[] {
  const { inner, size, small } = frame;
  const ends = [line.from, line.to].map((ref) => findPort(car, ref)?.port);
  const twelves = ends.map((port) => (port === undefined ? 'up' : clockFrame(unit(port.faces)).from));
  return [
    ...textBlocks('No way is taken yet: nothing to cut or to make.', inner, {
      size: size * 1.3,
      weight: 'bold',
      role: 'stop',
    }),
    ...textBlocks(
      'Take one of its ways and print this card again; or work it out on the car, and write it in here.',
      inner,
      { size },
      { space: size * 0.4 },
    ),
    ...headingBlocks('From port to port', inner, size),
    ...portBlocks(car, line, frame),
    ...heldTo(car, line, frame).flatMap((words, i) =>
      textBlocks(words, inner, { size }, { space: size * (i === 0 ? 0.8 : 0.2) }),
    ),
    ...headingBlocks('Worked out on the car', inner, size),
    ...textBlocks('Draw the hand where the tail of the end is to point, looking into the port.', inner, {
      size: small,
      role: 'soft',
    }),
    facesBlock(twelves, frame),
    ...blankBlocks(frame),
  ];
}

function portBlocks(car: Car, line: Line, { inner, size, inches }: SheetFrame): Block[] {
  const columns = [
    { head: '', em: 1.8, weight: 'bold' },
    { head: 'port', share: 6 },
    { head: 'what goes on it', share: 5 },
    { head: `X, Y, Z ${inches ? 'in' : 'mm'}`, share: 4 },
    { head: 'faces', share: 4 },
  ] as const;
  const rows = [line.from, line.to].map((ref, i): Cell[] => {
    const port = findPort(car, ref)?.port;
    const name = 'AB'[i]!;
    if (port === undefined) return [name, ref, 'not on the car', '', ''];
    const place = port.atMm.map((mm) => bare(mm, inches)).join(', ');
    return [name, portName(car, ref), describeEnd(port.end as End), place, directionWords(unit(port.faces))];
  });
  return gridBlocks(columns, rows, inner, size, size * 0.3);
}

/** How far it is, and what the line is held to on its way. */
function heldTo(car: Car, line: Line, { inches }: SheetFrame): string[] {
  const [from, to] = [findPort(car, line.from)?.port, findPort(car, line.to)?.port];
  const far = from === undefined || to === undefined ? undefined : distance(from.atMm, to.atMm);
  return [
    ...(far === undefined
      ? []
      : [`${lengthsIn(inches).one(far)} from port to port in a straight line: the line is longer`]),
    ...line.through.map((through) => `goes through ${through.part} (${through.kind.replace('-', ' ')})`),
    ...(line.sleeve === undefined ? [] : [`sleeve: ${line.sleeve}`]),
    ...(line.fall === undefined ? [] : ['must fall all the way']),
    ...(line.rises === true ? ['must rise all the way'] : []),
  ];
}

/** From one thing to be written in to the next, room for a hand [em]. */
const PITCH_EM = 2.4;

/** A rule for each thing to be written in, with its unit. */
function blankBlocks({ inner, size, inches }: SheetFrame): Block[] {
  const [left, right] = [inner * 0.36, inner - size * 2.6];
  return BLANKS.map(([what, unitOf], i): Block => {
    const base = size * PITCH_EM * 0.75;
    return {
      shapes: [
        row([0, base], what, { size }),
        {
          kind: 'line',
          from: [left, base + size * 0.2],
          to: [right, base + size * 0.2],
          pen: { role: 'soft', width: 0.2 },
        },
        row([right + size * 0.4, base], unitOf(inches), { size, role: 'soft' }),
      ],
      height: size * PITCH_EM,
      ...(i === 0 ? { space: size * 0.8 } : {}),
    };
  });
}

/** A length without its unit, which stands in the head of its column. */
const bare = (mm: number, inches: boolean): string =>
  lengthsIn(inches)
    .one(mm)
    .replace(/ (?:in|mm)$/u, '');

const length = (inches: boolean): string => (inches ? 'in' : 'mm');
const nothing = (): string => '';

/** What is written in by hand, and the unit that it is written in. */
const BLANKS: readonly (readonly [string, (inches: boolean) => string])[] = [
  ['hose or tube', nothing],
  ['cut length, tried in string or rod', length],
  ['tightest bend, from its middle', length],
  ['least gap, and to what', length],
  ['clamps, from A', length],
];

/** Across a dial to draw in [em]. */
const DIAL_EM = 9;

/** A dial without a hand for each end, with rules for its parts beside it. */
function facesBlock(twelves: readonly ('up' | 'forward')[], { inner, size, small }: SheetFrame): Block {
  const cell = inner / 2;
  const radius = (size * DIAL_EM) / 2;
  const top = small * ROW + size * 0.2;
  const shapes = twelves.flatMap((twelve, i): Shape[] => {
    const centre: Spot = [i * cell + radius, top + radius];
    const on = ([x, y]: readonly [number, number]): Spot => [centre[0] + x * radius, centre[1] - y * radius];
    const pen = { role: 'ink', width: size * 0.09 } as const;
    const left = i * cell + radius * 2 + size;
    const right = (i + 1) * cell - size * 1.5;
    const rows = [`end ${'AB'[i]}`, 'adapter', 'hose end', 'angle, clock'];
    const pitch = (radius * 2) / rows.length;
    return [
      ...block([centre[0], 0], [`12 = ${twelve}`], { size: small, role: 'soft', anchor: 'middle' }).shapes,
      { kind: 'circle', centre, radius, pen, fill: 'card' },
      ...faceLines(null, twelve).ticks.map(
        (tick): Shape => ({ kind: 'line', from: on(tick.from), to: on(tick.to), pen }),
      ),
      { kind: 'circle', centre, radius: radius * 0.06, pen, fill: 'ink' },
      ...rows.flatMap((words, k): Shape[] => {
        const y = top + pitch * k;
        const made = block([left, y], [words], { size, weight: k === 0 ? 'bold' : 'regular' }).shapes;
        const base = y + size * 1.15;
        return k === 0
          ? [...made]
          : [
              ...made,
              { kind: 'line', from: [left + size * 6.2, base], to: [right, base], pen: { role: 'soft', width: 0.2 } },
            ];
      }),
    ];
  });
  return { shapes, height: top + radius * 2 + size * 0.2, space: size * 0.6 };
}
