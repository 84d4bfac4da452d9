import { useElementSize } from '@mantine/hooks';
import { type KeyboardEvent, type PointerEvent, type ReactNode, useRef, useState } from 'react';
import type { Point2 } from '#geometry';
import type { TemplateShape } from '#panels';
import { type Box, type Ground, ringsDrawn } from './ground.ts';
import { allCorners, type CornerAt, cornerName, cornerOf, isSameCorner } from './outline-corners.ts';

interface Wish {
  readonly ground: Ground;
  readonly box: Box;
  readonly label: string;
  readonly shape: TemplateShape | null;
  readonly chosen: CornerAt | null;
  readonly onChoose: (at: CornerAt) => void;
  readonly onMove: (at: CornerAt, mm: Point2) => void;
  /** A corner was let go, or moved by a key. */
  readonly onSettled?: () => void;
  /** Drawn dashed: the reference as it was found. */
  readonly reference?: readonly Point2[];
  /** Pointed at already, by number. */
  readonly picks?: readonly Point2[];
  /** Set while a place is being pointed at. */
  readonly onPoint?: ((place: Point2) => void) | undefined;
}

/** Half a finger, and what is seen of a corner [px of the screen]. */
const FINGER_PX = 22;
const DOT_PX = 6;

/** An outline over its picture; corners can be drawn along with the pointer or by arrow keys. */
export function OutlineView(wish: Wish): ReactNode {
  const { ground, box, label, shape, reference = [], picks = [], onPoint } = wish;
  const { ref, width } = useElementSize();
  const [x, y, wide, high] = box;
  const perPx = wide / (width || 1);
  const share = (part: number, whole: number): string => `${(100 * part) / whole}%`;
  return (
    <div className="template-view" ref={ref} style={{ aspectRatio: `${wide} / ${high}` }}>
      {ground.photo === undefined ? null : (
        <img
          src={ground.photo}
          alt=""
          draggable={false}
          style={{
            width: share(ground.size[0], wide),
            height: share(ground.size[1], high),
            left: share(-x, wide),
            top: share(-y, high),
          }}
        />
      )}
      <svg
        viewBox={box.join(' ')}
        role="group"
        aria-label={label}
        className={onPoint === undefined ? '' : 'template-pointing'}
        onClick={(event) => onPoint?.(placeOf(event.currentTarget, event, box))}
      >
        <polygon className="template-reference" points={reference.map((at) => at.join(',')).join(' ')} />
        {shape === null
          ? null
          : ringsDrawn(shape, ground).flatMap((points, i) => [
              <polygon key={`under ${i}`} className="template-under" points={points} />,
              <polygon key={`line ${i}`} className="template-line" points={points} />,
            ])}
        {picks.map(([px, py], i) => (
          // A pick is what its number says.
          // eslint-disable-next-line react/no-array-index-key
          <g key={i} className="template-pick">
            <circle cx={px} cy={py} r={DOT_PX * perPx} />
            <text x={px + 2 * DOT_PX * perPx} y={py} fontSize={18 * perPx}>
              {i + 1}
            </text>
          </g>
        ))}
        {shape === null || onPoint !== undefined
          ? null
          : allCorners(shape).map((at) => (
              <Handle key={cornerName(at)} {...wish} at={at} perPx={perPx} shape={shape} />
            ))}
      </svg>
    </div>
  );
}

/** Where on the picture a pointer is. */
function placeOf(
  svg: SVGSVGElement,
  { clientX, clientY }: { readonly clientX: number; readonly clientY: number },
  [x, y, wide, high]: Box,
): Point2 {
  const seen = svg.getBoundingClientRect();
  return [x + ((clientX - seen.left) / seen.width) * wide, y + ((clientY - seen.top) / seen.height) * high];
}

/** A corner goes by so much at a key [mm], with Shift by more. */
const STEP_MM = 0.5;
const LONG_STEP_MM = 5;
const ways: Readonly<Record<string, Point2>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
/** A pointer that moved less was choosing [px]. */
const LEAST_DRAG_PX = 3;

/** The way on the card that an arrow key points on the picture, so many millimetres long. */
function stepped(ground: Ground, from: Point2, [dx, dy]: Point2, mm: number): Point2 {
  const [px, py] = ground.seen(from);
  const [x, y] = ground.mmAt([px + dx, py + dy]);
  const long = Math.hypot(x - from[0], y - from[1]);
  return [from[0] + ((x - from[0]) * mm) / long, from[1] + ((y - from[1]) * mm) / long];
}

interface HandleWish extends Wish {
  readonly at: CornerAt;
  readonly perPx: number;
  readonly shape: TemplateShape;
}

function Handle({ at, perPx, shape, ground, box, chosen, onChoose, onMove, onSettled }: HandleWish): ReactNode {
  const start = useRef<{ readonly pointer: Point2; readonly corner: Point2 } | null>(null);
  const [isDragged, setDragged] = useState(false);
  const here = cornerOf(shape, at)!.at;
  const [px, py] = ground.seen(here);
  const isChosen = isSameCorner(at, chosen);
  const onKey = (event: KeyboardEvent): void => {
    if (event.key === 'Enter' || event.key === ' ') onChoose(at);
    const way = ways[event.key];
    if (way === undefined) return;
    event.preventDefault();
    onMove(at, stepped(ground, here, way, event.shiftKey ? LONG_STEP_MM : STEP_MM));
    onSettled?.();
  };
  const drawn = (event: PointerEvent<SVGCircleElement>): void => {
    if (start.current === null) return;
    const now = placeOf(event.currentTarget.ownerSVGElement!, event, box);
    const { pointer, corner } = start.current;
    const by: Point2 = [now[0] - pointer[0], now[1] - pointer[1]];
    if (!isDragged && Math.hypot(...by) < LEAST_DRAG_PX * perPx) return;
    setDragged(true);
    onMove(at, ground.mmAt([corner[0] + by[0], corner[1] + by[1]]));
  };
  const letGo = (): void => {
    start.current = null;
    if (isDragged) onSettled?.();
    setDragged(false);
  };
  return (
    <g className={isChosen ? 'template-corner template-chosen' : 'template-corner'}>
      <circle className="template-dot" cx={px} cy={py} r={DOT_PX * perPx} />
      <circle
        className="template-hand"
        cx={px}
        cy={py}
        r={FINGER_PX * perPx}
        tabIndex={0}
        role="button"
        aria-pressed={isChosen}
        aria-label={`Corner ${cornerName(at)}`}
        onKeyDown={onKey}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          start.current = { pointer: placeOf(event.currentTarget.ownerSVGElement!, event, box), corner: [px, py] };
          onChoose(at);
        }}
        onPointerMove={drawn}
        onPointerUp={letGo}
        onPointerCancel={letGo}
      />
    </g>
  );
}
