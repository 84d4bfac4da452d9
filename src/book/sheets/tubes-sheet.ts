import type { Vec } from '#geometry';
import type { WayPiece } from '#lines';
import { formatInches, formatNumber, lengthsIn } from '#units';
import { allowanceWords } from '../strip-wish.ts';
import type { Shape, Spot } from '../drawing.ts';
import { spreadOut } from '../spread-out.ts';
import { row } from '../text-block.ts';
import { textWidth } from '../text-width.ts';
import { bendBlock } from './bend-block.ts';
import { type Block, counted, headingBlocks, textBlocks, together } from './block.ts';
import type { BookInput } from './book-input.ts';
import type { BookSheet } from './book-sheet.ts';
import { filledPages } from './filled-pages.ts';
import type { SheetFrame } from './sheet-frame.ts';

/** Every hard tube: marked out straight, how it is turned before each bend, the bend table, its shape from the left and from above. */
export function tubesSheet({ car, lines }: BookInput, frame: SheetFrame): BookSheet[] {
  const found = lines.flatMap(({ line, way, isTaken }) => {
    if (way === null || !isTaken) return [];
    const paths = way.bodies.filter((body) => body.part === 'tube').map((body) => body.pathMm);
    return way.pieces
      .filter((piece) => piece.tube !== undefined)
      .map((piece, i) => ({ line, piece, path: paths[i] ?? [], material: materialOf(line, i), way }));
  });
  if (found.length === 0) return [];
  const blocks = found.flatMap(({ line, piece, path, material, way }) => {
    const { odMm, wallMm, bendRadiusMm } = piece.tube!;
    const which = way.pieces.length > 1 ? `, piece ${way.pieces.indexOf(piece) + 1}` : '';
    const what = `${odMm} × ${wallMm} mm${material === undefined ? '' : ` ${material}`}, bent on ${formatNumber(bendRadiusMm)} mm`;
    return [
      ...headingBlocks(
        `${line.id}${which} · ${lengthsIn(frame.inches).soldAs(what)}`,
        frame.inner,
        frame.size,
        frame.size * 2.4,
      ),
      together([
        ...textBlocks(cutWords(piece, frame.inches), frame.inner, { size: frame.size }),
        markedOut(piece, frame),
        ...dials(piece, frame),
        { ...bendBlock(piece, frame, 'soft'), space: frame.size * 0.6 },
        shapeViews(path, odMm, frame),
      ]),
    ];
  });
  const about = ['marks from the A end to where each bend begins; turns clockwise looking from A along the tube'];
  return [
    {
      code: 'tubes',
      title: 'Tubes to bend',
      group: 'cut',
      pages: filledPages(frame, { code: 'tubes', title: 'Tubes to bend', about, car: car.name ?? 'Car' }, blocks),
      lines: [...new Set(found.map(({ line }) => line.id))],
      rows: [
        ['line', 'bend', 'markMm', 'turnDeg', 'bendDeg', 'setDeg', 'radiusMm'],
        ...found.flatMap(({ line, piece }) =>
          (piece.bends ?? []).map((bend, i) => [
            line.id,
            String(i + 1),
            formatNumber(bend.markMm, 1),
            i === 0 ? '' : formatNumber(bend.turnDeg, 1),
            formatNumber(bend.bendDeg, 1),
            formatNumber(bend.setDeg, 1),
            formatNumber(bend.radiusMm, 1),
          ]),
        ),
      ],
    },
  ];
}

const materialOf = (
  line: { readonly pieces: readonly { readonly tube?: { readonly material?: string | undefined } | undefined }[] },
  i: number,
) => line.pieces.filter((piece) => piece.tube !== undefined)[i]?.tube?.material;

function cutWords(piece: WayPiece, inches: boolean): string {
  const bends = (piece.bends ?? []).length;
  return `Cut ${lengthsIn(inches).one(piece.cutLengthMm)}, ${allowanceWords(piece.allowanceMm, inches)}; ${counted(bends, 'bend')}.${bends === 0 ? '' : ' Try the first bend on an offcut.'}`;
}

/** The tube straight, with a mark where each bend begins. */
function markedOut(piece: WayPiece, frame: SheetFrame): Block {
  const { inner, small, inches } = frame;
  const bends = piece.bends ?? [];
  const scale = (inner - small * 2) / Math.max(1, piece.cutLengthMm);
  const y = small * 2.6;
  const half = small * 0.55;
  const labels = bends.map((bend, i) => {
    const text = `${i + 1}: ${inches ? formatInches(bend.markMm, 32) : formatNumber(bend.markMm)}`;
    return { text, at: small + bend.markMm * scale, width: textWidth(text, small, 'bold') + small * 0.6 };
  });
  const places = spreadOut(labels, 0, inner, 0);
  return {
    shapes: [
      {
        kind: 'rect',
        at: [small, y - half],
        width: piece.cutLengthMm * scale,
        height: 2 * half,
        pen: { role: 'ink', width: 0.35 },
        fill: 'card',
      },
      row([0, y + small * 0.33], 'A', { size: small, weight: 'bold' }),
      row([inner, y + small * 0.33], 'B', { size: small, weight: 'bold', anchor: 'end' }),
      ...labels.flatMap(({ text, at }, i): Shape[] => [
        { kind: 'line', from: [at, y - half * 2], to: [at, y + half], pen: { role: 'blue', width: 0.4 } },
        { kind: 'line', from: [at, y - half * 2], to: [places[i]!, small * 1.15], pen: { role: 'soft', width: 0.18 } },
        row([places[i]!, small * 0.9], text, { size: small, weight: 'bold', anchor: 'middle' }),
      ]),
    ],
    height: y + half + small * 0.3,
    space: small * 0.6,
  };
}

/** For each bend a face, seen from A along the tube: where the last bend pointed, where the next one goes. */
function dials(piece: WayPiece, frame: SheetFrame): Block[] {
  const bends = piece.bends ?? [];
  if (bends.length < 2) return [];
  const { size, small, inner } = frame;
  const radius = size * 1.8;
  const cell = Math.min(inner / bends.length, radius * 2 + textWidth('turn 360°', small) + size * 2);
  if (cell < textWidth('turn 360°', small) + size) return [];
  const isStacked = cell < radius * 2 + textWidth('turn 360°', small) + size * 1.5;
  let at = 0;
  const shapes = bends.flatMap((bend, i): Shape[] => {
    const before = at;
    if (i > 0) at += bend.turnDeg;
    const centre: Spot = [i * cell + radius + size * 0.2, radius + size * 0.2];
    const tip = (deg: number, share: number): Spot => {
      const rad = (deg * Math.PI) / 180;
      return [centre[0] + Math.sin(rad) * radius * share, centre[1] - Math.cos(rad) * radius * share];
    };
    const words = i === 0 ? 'start' : `turn ${formatNumber(bend.turnDeg)}°`;
    const place: Spot = isStacked
      ? [i * cell + size * 0.2, radius * 2 + size * 1.3]
      : [centre[0] + radius + size * 0.5, centre[1] + size * 0.3];
    return [
      { kind: 'circle', centre, radius, pen: { role: 'rule', width: 0.3 } },
      ...(i === 0
        ? []
        : [
            {
              kind: 'line',
              from: centre,
              to: tip(before, 0.9),
              pen: { role: 'soft', width: 0.3, dash: [1.2, 0.8] },
            } as const,
          ]),
      { kind: 'line', from: centre, to: tip(at, 0.95), pen: { role: 'blue', width: 0.8 } },
      { kind: 'circle', centre, radius: size * 0.3, fill: 'card', pen: { role: 'ink', width: 0.3 } },
      row(place, words, { size: small }),
      row([centre[0] - radius * 0.9, centre[1] - radius * 0.62], String(i + 1), {
        size: small,
        weight: 'bold',
        anchor: 'end',
      }),
    ];
  });
  return [
    {
      shapes: [{ kind: 'group', offset: [size, 0], shapes }],
      height: radius * 2 + size * (isStacked ? 1.8 : 0.5),
      space: size * 0.5,
    },
  ];
}

/** The bent tube from the left and from above, at one scale. */
function shapeViews(path: readonly Vec[], odMm: number, frame: SheetFrame): Block {
  const { inner, size, small } = frame;
  if (path.length < 2) return { shapes: [], height: 0 };
  const gap = size * 2;
  const half = (inner - gap) / 2;
  // Round the tube, for its thickness and the letters at its ends.
  const round = size * 1.8;
  const span = (axis: 0 | 1 | 2): readonly [number, number] => [
    Math.min(...path.map((p) => p[axis])),
    Math.max(...path.map((p) => p[axis])),
  ];
  const [x, y, z] = [span(0), span(1), span(2)];
  const deep = Math.max(y[1] - y[0], z[1] - z[0]);
  const scale = Math.min(
    (half - 2 * round) / Math.max(1, x[1] - x[0]),
    (size * 7) / Math.max(1, deep),
    (size * 1.8) / odMm,
  );
  const place = (at: number, from: number): number => round + (at - from) * scale;
  const view = (words: string, spotOf: (p: Vec) => Spot): Shape[] => {
    const points = path.map(spotOf);
    const width = Math.max(odMm * scale, size * 0.25);
    return [
      row([0, small * 0.85], words, { size: small, role: 'soft' }),
      { kind: 'polyline', points, pen: { role: 'ink', width: width + 0.4 } },
      { kind: 'polyline', points, pen: { role: 'steel', width } },
      // Seen end on it is a ring.
      ...(apartOf(points) < width
        ? [
            {
              kind: 'circle',
              centre: points[0]!,
              radius: width / 2,
              fill: 'steel',
              pen: { role: 'ink', width: 0.3 },
            } as const,
          ]
        : []),
      ...endWords(points, small),
    ];
  };
  const below = small * 1.2;
  const left = view('from the left', (p) => [place(p[0], x[0]), below + place(z[1] - p[2], 0)]);
  const above = view('from above', (p) => [place(p[0], x[0]), below + place(p[1], y[0])]);
  return {
    shapes: [
      { kind: 'group', offset: [0, 0], shapes: left },
      { kind: 'group', offset: [half + gap, 0], shapes: above },
    ],
    height: below + deep * scale + 2 * round,
    space: size * 0.8,
  };
}

const apartOf = (points: readonly Spot[]): number =>
  Math.hypot(points.at(-1)![0] - points[0]![0], points.at(-1)![1] - points[0]![1]);

/** A and B beyond the ends; side by side where the tube is seen end on. */
function endWords(points: readonly Spot[], size: number): Shape[] {
  const [a, b] = [points[0]!, points.at(-1)!];
  const style = { size, weight: 'bold', anchor: 'middle' } as const;
  const off = size * 1.15;
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const apart = apartOf(points);
  const beside = apart < size * 2 ? ([-off * 1.3, 0] as const) : ([(-dx / apart) * off, (-dy / apart) * off] as const);
  return [
    row([a[0] + beside[0], a[1] + beside[1] + size * 0.33], 'A', style),
    row([b[0] - beside[0], b[1] - beside[1] + size * 0.33], 'B', style),
  ];
}
