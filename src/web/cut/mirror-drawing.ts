import { type Drawing, flatBounds, frameAt, type Shape, type Spot } from '#book';
import { dot, type Point2 } from '#geometry';
import type { MirrorCorner, PanelLayout } from '#panels';
import { frameAtCorner } from './moved-on-flat.ts';
import { lengthWords } from './panel-numbers.ts';

const WIDTH = 150;
const HIGHEST = 110;
/** Round the panel, for what stands off it and the words there. */
const ROUND = 16;
const WORD = 4.2;
/** What is too small to be seen is drawn so many times as large, as large as there is room for. */
const TIMES = [100, 50, 20, 10, 5, 2, 1];

/** A corner of the panel, and its master's mirrored corner along the sheet from it [mm]. */
interface Pair {
  readonly id: string;
  readonly own: Point2;
  /** From the mirrored master's corner to the own one, along the sheet. */
  readonly off: Point2;
  readonly offMm: number;
  readonly isOver: boolean;
}

/** A panel with the mirror of its master under it, what parts them drawn larger than it is; undefined where it is not laid out. */
export function mirrorDrawing(
  layout: PanelLayout,
  isInch: boolean,
): { readonly drawing: Drawing; readonly times: number } | undefined {
  const [flat] = layout.flats;
  const pairs = pairsOf(layout);
  if (flat === undefined || pairs.length < 3) return undefined;
  const bounds = flatBounds(flat);
  const [wide, high] = [bounds.maxX - bounds.minX, bounds.maxY - bounds.minY];
  const scale = Math.min((WIDTH - 2 * ROUND) / wide, (HIGHEST - 2 * ROUND) / high);
  const frame = frameAt(bounds, [(WIDTH - wide * scale) / 2, ROUND], scale);
  const furthest = Math.max(...pairs.map(({ off }) => Math.hypot(...off))) * scale;
  const times = TIMES.find((n) => n * furthest <= ROUND - 2 * WORD) ?? 1;
  const own = pairs.map((pair) => frame.spot(pair.own));
  const mirrored = pairs.map(({ own: [x, y], off }) => frame.spot([x - times * off[0], y - times * off[1]]));
  return {
    times,
    drawing: {
      title: `${layout.panel.id} and the mirror of ${layout.mirror!.master}`,
      description: pairs.map(({ id, offMm }) => `${id} ${lengthWords(offMm, isInch)}`).join(', '),
      unit: 'mm',
      width: WIDTH,
      height: high * scale + 2 * ROUND,
      shapes: [
        ring(mirrored, { role: 'blue', width: 0.5, dash: [2, 1.4] }),
        ring(own, { role: 'ink', width: 0.7 }),
        ...pairs.flatMap((pair, i) => partedWords(pair, own[i]!, mirrored[i]!, isInch)),
      ],
    },
  };
}

const ring = (points: readonly Spot[], pen: Extract<Shape, { kind: 'polyline' }>['pen']): Shape => ({
  kind: 'polyline',
  points,
  isClosed: true,
  ...(pen === undefined ? {} : { pen }),
});

function pairsOf(layout: PanelLayout): readonly Pair[] {
  return (layout.mirror?.corners ?? []).flatMap((corner: MirrorCorner): Pair[] => {
    const laid = layout.corners.find(({ id }) => id === corner.id);
    if (laid === undefined) return [];
    const { x, y } = frameAtCorner(layout, laid);
    return [
      {
        id: corner.id,
        own: laid.flat,
        off: [dot(corner.off, x), dot(corner.off, y)],
        offMm: corner.offMm,
        isOver: corner.offMm > corner.toleranceMm,
      },
    ];
  });
}

function partedWords({ id, offMm, isOver }: Pair, own: Spot, mirrored: Spot, isInch: boolean): readonly Shape[] {
  const role = isOver ? 'stop' : 'soft';
  return [
    { kind: 'line', from: mirrored, to: own, pen: { role, width: isOver ? 1 : 0.5 } },
    { kind: 'circle', centre: own, radius: 1, fill: role },
    {
      kind: 'text',
      at: [Math.min(WIDTH - ROUND, Math.max(ROUND, own[0])), own[1] - WORD * 0.6],
      text: `${isOver ? '▲ ' : ''}${id} ${lengthWords(offMm, isInch)}`,
      size: WORD,
      weight: isOver ? 'bold' : 'regular',
      role: isOver ? 'stop' : 'ink',
      anchor: 'middle',
      halo: 'card',
    },
  ];
}
