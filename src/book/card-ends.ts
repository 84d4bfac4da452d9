import { type Car, findPort, type Line } from '#car';
import { unit } from '#geometry';
import { clockFrame, type Way, type WayEnd } from '#lines';
import { formatInches, formatNumber } from '#units';
import { clockFace } from './clock-face.ts';
import type { Shape, Spot } from './drawing.ts';
import { Stack } from './stack.ts';

/** "Oil tank, out": a port by its part's name. */
export function portName(car: Car, ref: string): string {
  const found = findPort(car, ref);
  if (found === undefined) return ref;
  return `${found.part.name ?? found.part.id}, ${found.port.name ?? found.port.id}`;
}

interface Named {
  readonly end: WayEnd;
  readonly name: string;
}

/** The ends that have a face: both ports, and bent ends at the joints inside the line. */
function facedEnds(way: Way, nameOf: (which: 'A' | 'B', port: string) => string): Named[] {
  const [from, to] = way.ends;
  const inside = way.joints.flatMap((end, i): Named[] => {
    if (end.clockDeg === null) return [];
    const isSecond = way.joints[i - 1]?.port === end.port;
    const isPair = isSecond || way.joints[i + 1]?.port === end.port;
    const side = isPair ? (isSecond ? ', B side' : ', A side') : '';
    return [{ end, name: `${end.port}${side}` }];
  });
  return [{ end: from, name: nameOf('A', from.port) }, ...inside, { end: to, name: nameOf('B', to.port) }];
}

/** A face with its words, or the words beside them, wants this much [em]. */
const LEAST_CELL = 16;
const LEAST_SHORT_CELL = 13;
/** Between two of them [em]. */
const GAP = 1.4;
const SMALL_GAP = 0.7;

/** Clock faces in a row, and beside them how the ends stand to each other, clamps, and what else the line is held to. */
export function cardEnds(car: Car, line: Line, way: Way, width: number, size: number, inches: boolean): Stack {
  const ends = facedEnds(way, (which, port) => `${which}, at ${portName(car, port)}`);
  const gap = size * GAP;
  const { perRow, cell } = cellsIn(ends.length + 1, width, size);
  const all = [...endFaces(car, ends, cell, size), hungWords(line, way, cell, size, inches)];
  const stack = new Stack(width);
  for (let i = 0; i < all.length; i += perRow) {
    if (i > 0) stack.space(size * 0.8);
    stack.beside(all.slice(i, i + perRow), gap);
  }
  return stack;
}

/** The clock faces and how the ends of a hose stand to each other, in as many rows as they need; ports by their ids, below a head that names them. */
export function faceRows(car: Car, way: Way, width: number, size: number): Stack[] {
  const ends = facedEnds(way, (which, port) => `${which} · ${port}`);
  const turned = turnedPieces(way);
  const { perRow, cell } = cellsIn(ends.length + turned.length, width, size, LEAST_SHORT_CELL, SMALL_GAP);
  const faces = [
    ...endFaces(car, ends, cell, size, SMALL_DIAL),
    ...turned.map((piece) => endToEndBeside(way, piece, cell, size)),
  ];
  return Array.from({ length: Math.ceil(faces.length / perRow) }, (_, i) =>
    new Stack(width).beside(faces.slice(i * perRow, (i + 1) * perRow), size * SMALL_GAP),
  );
}

function cellsIn(
  count: number,
  width: number,
  size: number,
  least = LEAST_CELL,
  apart = GAP,
): { readonly perRow: number; readonly cell: number } {
  const gap = size * apart;
  const most = Math.max(1, Math.floor((width + gap) / (size * least + gap)));
  const perRow = Math.ceil(count / Math.ceil(count / most));
  return { perRow, cell: (width - gap * (perRow - 1)) / perRow };
}

/** Across a dial [em]. */
const DIAL = 6;
const SMALL_DIAL = 4;

function endFaces(car: Car, ends: readonly Named[], cell: number, size: number, dial = DIAL): Stack[] {
  return ends.map(({ end, name }) => {
    const port = findPort(car, end.port)?.port;
    const face = clockFace(end, {
      width: cell,
      size,
      unit: 'mm',
      name,
      dial: size * dial,
      ...(port === undefined ? {} : { portTwelve: clockFrame(unit(port.faces)).from }),
    });
    return new Stack(cell).drawing(face);
  });
}

const MOST_CLAMPS = 8;

interface Turned {
  readonly deg: number;
  /** Number of the piece, from 0. */
  readonly piece: number;
}

/** The hoses with two bent ends. */
const turnedPieces = (way: Way): Turned[] =>
  way.pieces.flatMap(({ endToEndDeg }, piece) => (endToEndDeg === null ? [] : [{ deg: endToEndDeg, piece }]));

const endToEndWords = (way: Way, { deg, piece }: Turned): string =>
  `${way.pieces.length > 1 ? `hose ${piece + 1}, end to end` : 'end to end'} ${formatNumber(deg)}° ±3`;

const HOW_TURNED = 'second bend clockwise from the first, seen from A along the hose laid straight';

/** How the ends of a hose stand to each other, its words beside the dial as those of an end. */
function endToEndBeside(way: Way, turned: Turned, cell: number, size: number): Stack {
  const beside = new Stack(cell - size * (SMALL_DIAL + 1));
  beside.text(endToEndWords(way, turned), { size, weight: 'bold' });
  beside.text(HOW_TURNED, { size: size * 0.85, role: 'soft' });
  const dial = new Stack(size * SMALL_DIAL).put(endToEnd(turned.deg, size * (SMALL_DIAL / 3.5)), size * SMALL_DIAL);
  return new Stack(cell).beside([dial, beside], size);
}

/** How the ends stand to each other, where it is clamped, how it hangs, what it passes. */
function hungWords(line: Line, way: Way, width: number, size: number, inches: boolean): Stack {
  const stack = new Stack(width);
  const turned = turnedPieces(way);
  for (const one of turned) {
    const at: Spot = [size * 3.9, size * 1.9];
    const words = { kind: 'text', at, text: endToEndWords(way, one), size: size * 1.1, weight: 'bold' } as const;
    stack.put([...endToEnd(one.deg, size), { ...words, anchor: 'start', role: 'ink' }], size * 3.3);
  }
  if (turned.length > 0) stack.text(HOW_TURNED, { size: size * 0.85, role: 'soft' });
  return heldWords(stack, line, way, size, inches);
}

/** Where it is clamped, how it hangs, what it passes: below what stands in the stack. */
export function heldWords(stack: Stack, line: Line, way: Way, size: number, inches = false): Stack {
  for (const text of heldPhrases(line, way, inches, MOST_CLAMPS)) stack.text(text, { size });
  return stack.text(`tag both ends: ${line.id}`, { size, weight: 'bold' });
}

/** Where it is clamped, how it hangs, what it passes, a phrase each; clamps beyond `most` are counted. */
export function heldPhrases(line: Line, way: Way, inches: boolean, most = Number.POSITIVE_INFINITY): string[] {
  const clamps = way.clamps.map(
    (clamp) =>
      `${inches ? formatInches(clamp.alongMm) : formatNumber(clamp.alongMm)} on ${clamp.on}${clamp.bracket ? ' (bracket)' : ''}`,
  );
  const more = clamps.length > most ? `; ${clamps.length - most} more` : '';
  const hung = way.pieces.flatMap((piece) =>
    piece.slackPercent === undefined
      ? []
      : [
          `${piece.hang === 'clamped' ? 'held by its clamps' : 'hangs free'}, ${formatNumber(piece.slackPercent, 1)} % spare`,
        ],
  );
  return [
    `${inches ? 'clamps, from A' : 'clamps, mm from A'}: ${clamps.length === 0 ? 'none' : `${clamps.slice(0, most).join('; ')}${more}`}`,
    ...(hung.length === 0 ? [] : [`hose: ${[...new Set(hung)].join('; ')}`]),
    ...line.through.map((through) => `goes through: ${through.part} (${through.kind.replace('-', ' ')})`),
    ...(line.sleeve === undefined ? [] : [`sleeve: ${line.sleeve}`]),
    ...(line.fall === undefined ? [] : ['must fall all the way']),
    ...(line.rises === true ? ['must rise all the way'] : []),
  ];
}

/** Both bends seen along the hose: the first up, the second where it stands to it. */
function endToEnd(deg: number, size: number): Shape[] {
  const radius = size * 1.45;
  const centre: Spot = [radius + size * 0.3, size * 1.6];
  const at = (angleDeg: number, share: number): Spot => {
    const rad = (angleDeg * Math.PI) / 180;
    return [centre[0] + radius * share * Math.sin(rad), centre[1] - radius * share * Math.cos(rad)];
  };
  const pen = { role: 'ink', width: size * 0.1 } as const;
  return [
    { kind: 'circle', centre, radius, pen: { role: 'rule', width: size * 0.08 } },
    { kind: 'line', from: centre, to: at(0, 0.95), pen: { ...pen, dash: [size * 0.35, size * 0.2] } },
    { kind: 'line', from: centre, to: at(deg, 0.95), pen: { role: 'ink', width: size * 0.3 } },
    { kind: 'circle', centre, radius: size * 0.36, fill: 'card', pen },
  ];
}
