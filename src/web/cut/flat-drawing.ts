import {
  cornerShapes,
  type Drawing,
  flatBounds,
  type FlatFrame,
  flatShapes,
  frameAt,
  type Shape,
  textWidth,
} from '#book';
import type { Point2 } from '#geometry';
import type { PanelLayout } from '#panels';
import { formatNumber } from '#units';
import { lengthWords } from './panel-numbers.ts';

/** Width of the picture in units of the drawing, in which its words are some 4 high: where it is shown narrower it has fewer, so that they stay as large. */
const WIDTH = 150;
const LEAST_WIDTH = 95;
/** Pixels to a unit [px]. */
const UNIT_PX = 3;
const HIGHEST = 130;
/** Round the flat, for the letters at its corners and the lengths along its edges. */
const ROUND = 13;
const WORD = 4.2;

/** A flat on the screen, and where a point of it lies on the picture. */
export interface FlatDrawing {
  readonly drawing: Drawing;
  readonly frame: FlatFrame;
}

/**
 * The flat of a panel as it is cut, seen on its outside face: what is cut and folded, letters, lengths of its edges.
 *
 * @param shownPx - how wide it is shown; 0 where that is not known yet
 * @param at - the scale and place of another flat, that this one is drawn over
 */
export function flatDrawing(
  layout: PanelLayout,
  isInch: boolean,
  shownPx: number,
  at?: FlatFrame,
): FlatDrawing | undefined {
  const width = shownPx === 0 ? WIDTH : Math.min(WIDTH, Math.max(LEAST_WIDTH, shownPx / UNIT_PX));
  const [flat] = layout.flats;
  if (flat === undefined) return undefined;
  const bounds = flatBounds(flat);
  const [wide, high] = [bounds.maxX - bounds.minX, bounds.maxY - bounds.minY];
  const scale = Math.min((width - 2 * ROUND) / wide, (HIGHEST - 2 * ROUND) / high);
  const frame = at ?? frameAt(bounds, [(width - wide * scale) / 2, ROUND], scale);
  const { panel } = layout;
  return {
    frame,
    drawing: {
      title: `${panel.id} laid flat`,
      description: `Seen on the outside face: ${flat.cutOuts.length} openings, ${flat.holes.length + flat.slots.length} holes, ${flat.folds.length} folds`,
      unit: 'mm',
      width,
      height: high * scale + 2 * ROUND,
      shapes: [
        ...flatShapes(flat, frame, { hasWords: false }),
        ...edgeWords(layout, frame, isInch),
        ...foldWords(layout, frame),
        ...cornerShapes(flat, frame),
      ],
    },
  };
}

const uprightDeg = (deg: number): number => (deg > 90 + 1e-9 ? deg - 180 : deg <= -90 + 1e-9 ? deg + 180 : deg);

const text = (
  at: readonly [number, number],
  words: string,
  turnDeg: number,
  role: 'soft' | 'blue' | 'stop',
): Shape => ({
  kind: 'text',
  at: [at[0], at[1]],
  text: words,
  size: WORD,
  weight: 'regular',
  role,
  anchor: 'middle',
  halo: 'card',
  turnDeg,
});

/** What two corners' names take of an edge between them. */
const NAMES = 16;

/** How long each edge is as measured, outside it; inside where the names of its corners leave no room, and straight across where it bows. */
function edgeWords({ edges }: PanelLayout, frame: FlatFrame, isInch: boolean): readonly Shape[] {
  return edges.map(({ line: [a, b], lengthMm, strip, reachMm, curve }) => {
    const words = `${lengthWords(lengthMm, isInch)}${curve === undefined ? '' : ' across'}`;
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const long = Math.hypot(dx, dy) || 1;
    // The ring runs counter-clockwise: outside is to the right of the way it runs, beyond what lies over the edge.
    const isInside = strip !== undefined || long * frame.scale < textWidth(words, WORD, 'regular') + NAMES;
    const off = isInside ? -3.4 / frame.scale : 3.4 / frame.scale + Math.max(0, reachMm);
    const out: Point2 = [(dy / long) * off, (-dx / long) * off];
    const middle = frame.spot([(a[0] + b[0]) / 2 + out[0], (a[1] + b[1]) / 2 + out[1]]);
    const turn = uprightDeg((Math.atan2(dy, dx) * 180) / Math.PI);
    return text(lowered(middle, turn), words, turn, 'soft');
  });
}

/** Words stand on their foot: half their height down puts their middle at the place. */
const lowered = ([x, y]: readonly [number, number], turnDeg: number): readonly [number, number] => {
  const rad = (turnDeg * Math.PI) / 180;
  return [x + Math.sin(rad) * WORD * 0.33, y + Math.cos(rad) * WORD * 0.33];
};

function foldWords({ flats: [flat] }: PanelLayout, frame: FlatFrame): readonly Shape[] {
  return (flat?.folds ?? []).map(({ from, to, way, turnDeg }) => {
    const turn = uprightDeg((Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI);
    // The two folds of a joggle lie side by side: their words do not.
    const share = way === 'up' ? 0.25 : 0.75;
    const middle = frame.spot([from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share]);
    return text(
      lowered(middle, turn),
      `fold ${way} ${formatNumber(turnDeg, Number.isInteger(turnDeg) ? 0 : 1)}°`,
      turn,
      way === 'up' ? 'blue' : 'stop',
    );
  });
}
