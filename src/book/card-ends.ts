import { type Car, findPort, type Line } from '#car';
import { unit } from '#geometry';
import { clockFrame, type Way, type WayEnd } from '#lines';
import { formatNumber } from '#units';
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
function facedEnds(car: Car, way: Way): Named[] {
  const [from, to] = way.ends;
  const inside = way.joints.flatMap((end, i): Named[] => {
    if (end.clockDeg === null) return [];
    const isSecond = way.joints[i - 1]?.port === end.port;
    const isPair = isSecond || way.joints[i + 1]?.port === end.port;
    const side = isPair ? (isSecond ? ', B side' : ', A side') : '';
    return [{ end, name: `${end.port}${side}` }];
  });
  return [
    { end: from, name: `A, at ${portName(car, from.port)}` },
    ...inside,
    { end: to, name: `B, at ${portName(car, to.port)}` },
  ];
}

/** A face with its words, or the words beside them, wants this much [em]. */
const LEAST_CELL = 16;

/** Clock faces in a row, and beside them how the ends stand to each other, clamps, and what else the line is held to. */
export function cardEnds(car: Car, line: Line, way: Way, width: number, size: number): Stack {
  const count = facedEnds(car, way).length + 1;
  const gap = size * 1.4;
  const { perRow, cell } = cellsIn(count, width, size);
  const all = [...endFaces(car, way, cell, size), hungWords(line, way, cell, size)];
  const stack = new Stack(width);
  for (let i = 0; i < all.length; i += perRow) {
    if (i > 0) stack.space(size * 0.8);
    stack.beside(all.slice(i, i + perRow), gap);
  }
  return stack;
}

/** The clock faces by themselves, in as many rows as they need. */
export function faceRows(car: Car, way: Way, width: number, size: number): Stack[] {
  const { perRow, cell } = cellsIn(facedEnds(car, way).length, width, size);
  const faces = endFaces(car, way, cell, size, SMALL_DIAL);
  return Array.from({ length: Math.ceil(faces.length / perRow) }, (_, i) =>
    new Stack(width).beside(faces.slice(i * perRow, (i + 1) * perRow), size * 1.4),
  );
}

function cellsIn(count: number, width: number, size: number): { readonly perRow: number; readonly cell: number } {
  const gap = size * 1.4;
  const most = Math.max(1, Math.floor((width + gap) / (size * LEAST_CELL + gap)));
  const perRow = Math.ceil(count / Math.ceil(count / most));
  return { perRow, cell: (width - gap * (perRow - 1)) / perRow };
}

/** Across a dial [em]. */
const DIAL = 6;
const SMALL_DIAL = 4.6;

function endFaces(car: Car, way: Way, cell: number, size: number, dial = DIAL): Stack[] {
  return facedEnds(car, way).map(({ end, name }) => {
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

/** How the ends stand to each other, where it is clamped, how it hangs, what it passes. */
export function hungWords(line: Line, way: Way, width: number, size: number): Stack {
  const stack = new Stack(width);
  const say = (label: string, text: string) => stack.text(`${label}: ${text}`, { size });
  const turned = way.pieces.flatMap((piece, i) => (piece.endToEndDeg === null ? [] : [{ deg: piece.endToEndDeg, i }]));
  for (const { deg, i } of turned) {
    const which = way.pieces.length > 1 ? `hose ${i + 1}, end to end` : 'end to end';
    stack.put(endToEnd(`${which} ${formatNumber(deg)}° ±3`, deg, size), size * 3.3);
  }
  if (turned.length > 0)
    stack.text('second bend clockwise from the first, looking from A along the hose laid straight', {
      size: size * 0.85,
      role: 'soft',
    });
  const clamps = way.clamps.map(
    (clamp) => `${formatNumber(clamp.alongMm)} on ${clamp.on}${clamp.bracket ? ' (bracket)' : ''}`,
  );
  const more = clamps.length > MOST_CLAMPS ? `; ${clamps.length - MOST_CLAMPS} more` : '';
  say('clamps, mm from A', clamps.length === 0 ? 'none' : `${clamps.slice(0, MOST_CLAMPS).join('; ')}${more}`);
  const hung = way.pieces.flatMap((piece) =>
    piece.slackPercent === undefined
      ? []
      : [
          `${piece.hang === 'clamped' ? 'held by its clamps' : 'hangs free'}, ${formatNumber(piece.slackPercent, 1)} % spare`,
        ],
  );
  if (hung.length > 0) say('hose', [...new Set(hung)].join('; '));
  for (const through of line.through) say('goes through', `${through.part} (${through.kind.replace('-', ' ')})`);
  if (line.sleeve !== undefined) say('sleeve', line.sleeve);
  if (line.fall !== undefined) stack.text('must fall all the way', { size });
  if (line.rises === true) stack.text('must rise all the way', { size });
  return stack.text(`tag both ends: ${line.id}`, { size, weight: 'bold' });
}

/** Both bends seen along the hose: the first up, the second where it stands to it. */
function endToEnd(words: string, deg: number, size: number): Shape[] {
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
    {
      kind: 'text',
      at: [centre[0] + radius + size * 0.7, centre[1] + size * 0.3],
      text: words,
      size: size * 1.1,
      weight: 'bold',
      anchor: 'start',
      role: 'ink',
    },
  ];
}
