import { type KeyboardEvent, type PointerEvent, type ReactNode, useRef } from 'react';
import type { FlatFrame } from '#book';
import type { Point2 } from '#geometry';
import type { PanelLayout } from '#panels';
import { type Held, type Movable, movables } from './moved-on-flat.ts';

/** A flat as it is shown: its scale, its size in units of the drawing, and how wide that is on the screen [px]. */
export interface ShownFlat {
  readonly frame: FlatFrame;
  readonly width: number;
  readonly height: number;
  readonly shownPx: number;
}

interface Wish {
  readonly layout: PanelLayout;
  readonly picture: ShownFlat;
  readonly held: Held | null;
  readonly onHold: (held: Held | null) => void;
  readonly onKeep: (held: Held) => void;
}

const STEP_MM = 1;
export const LONG_STEP_MM = 5;
/** Half a finger [px]. */
const FINGER_PX = 22;
const steps: Readonly<Record<string, Point2>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

const isHeld = (held: Held | null, { kind, id }: Movable): held is Held =>
  held?.what.id === id && held.what.kind === kind;

/** Windows, holes and corners over the flat, drawn along with the pointer or by arrow keys; Enter or letting go keeps, Escape leaves. */
export function FlatHands({ layout, picture, held, onHold, onKeep }: Wish): ReactNode {
  const step = (what: Movable, event: KeyboardEvent): void => {
    const way = steps[event.key];
    if (event.key === 'Escape') onHold(null);
    if (event.key === 'Enter' && held !== null) onKeep(held);
    if (way === undefined) return;
    event.preventDefault();
    const mm = event.shiftKey ? LONG_STEP_MM : STEP_MM;
    const [x, y] = isHeld(held, what) ? held.by : [0, 0];
    onHold({ what, by: [x + way[0] * mm, y + way[1] * mm] });
  };
  return (
    <svg className="cut-hands no-print" viewBox={`0 0 ${picture.width} ${picture.height}`}>
      {movables(layout).map((what) => (
        <Hand
          key={`${what.kind} ${what.id}`}
          what={what}
          picture={picture}
          by={isHeld(held, what) ? held.by : null}
          onMove={(by) => onHold({ what, by })}
          onDone={(by) => onKeep({ what, by })}
          onKey={(event) => step(what, event)}
        />
      ))}
    </svg>
  );
}

interface HandWish {
  readonly what: Movable;
  readonly picture: ShownFlat;
  readonly by: Point2 | null;
  readonly onMove: (by: Point2) => void;
  readonly onDone: (by: Point2) => void;
  readonly onKey: (event: KeyboardEvent) => void;
}

function Hand({ what, picture: { frame, width, shownPx }, by, onMove, onDone, onKey }: HandWish): ReactNode {
  const start = useRef<Point2 | null>(null);
  const [dx, dy] = by ?? [0, 0];
  const [x, y] = frame.spot([what.at[0] + dx, what.at[1] + dy]);
  const perPx = width / (shownPx || width);
  const [w, h] = what.reachMm.map((mm) => Math.max(mm * frame.scale, FINGER_PX * perPx)) as [number, number];
  /** Millimetres on the flat from where the pointer went down. */
  const drawn = (event: PointerEvent<SVGRectElement>): Point2 => {
    const [fromX, fromY] = start.current!;
    const mmPerPx = perPx / frame.scale;
    return [Math.round((event.clientX - fromX) * mmPerPx), Math.round((fromY - event.clientY) * mmPerPx)];
  };
  return (
    <rect
      className={by === null ? 'cut-hand' : 'cut-hand cut-hand-held'}
      x={x - w}
      y={y - h}
      width={2 * w}
      height={2 * h}
      tabIndex={0}
      role="button"
      aria-label={`Move ${what.kind} ${what.id}`}
      onKeyDown={onKey}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        start.current = [event.clientX, event.clientY];
      }}
      onPointerMove={(event) => {
        if (start.current !== null) onMove(drawn(event));
      }}
      onPointerUp={(event) => {
        if (start.current === null) return;
        const done = drawn(event);
        start.current = null;
        onDone(done);
      }}
      onPointerCancel={() => {
        start.current = null;
        onMove([0, 0]);
      }}
    />
  );
}
