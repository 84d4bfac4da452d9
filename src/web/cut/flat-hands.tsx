import {
  type KeyboardEvent,
  type PointerEvent,
  type ReactNode,
  useDeferredValue,
  useMemo,
  useRef,
  useState,
} from 'react';
import type { FlatFrame } from '#book';
import type { Point2 } from '#geometry';
import type { PanelLayout } from '#panels';
import { keep, useCar } from '../bench/bench.ts';
import { Key } from '../frame/key.tsx';
import { LevelMark } from '../snags/level-mark.tsx';
import { type Movable, movables, panelMoved, placeMoved } from './moved-on-flat.ts';
import { laidAsTyped } from './panel-draft.ts';
import { lengthWords } from './panel-numbers.ts';

interface Wish {
  readonly layout: PanelLayout;
  readonly frame: FlatFrame;
  readonly width: number;
  readonly height: number;
  readonly isInch: boolean;
}

interface Held {
  readonly what: Movable;
  readonly by: Point2;
}

const STEP_MM = 1;
const LONG_STEP_MM = 5;
/** Room round a small hole for a finger, in units of the picture. */
const FINGER = 5;
const steps: Readonly<Record<string, Point2>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Windows and holes in the hand: drawn along with the pointer or by arrow keys; where they would be stands below, and letting go keeps it as one edit. */
export function FlatHands({ layout, frame, width, height, isInch }: Wish): ReactNode {
  const [held, setHeld] = useState<Held | null>(null);
  const car = useCar()!;
  const all = movables(layout);
  const panel = car.panels?.find(({ id }) => id === layout.panel.id);
  if (all.length === 0 || panel === undefined) return null;
  const keepIt = async ({ what, by }: Held): Promise<void> => {
    if (Math.hypot(...by) > 0) {
      const { edit } = panelMoved(layout, panel, what, by);
      await keep([edit], `${layout.panel.id}: ${what.id} moved`);
    }
    setHeld(null);
  };
  const step = (what: Movable, event: KeyboardEvent): void => {
    const way = steps[event.key];
    if (event.key === 'Escape') setHeld(null);
    if (event.key === 'Enter' && held !== null) void keepIt(held);
    if (way === undefined) return;
    event.preventDefault();
    const mm = event.shiftKey ? LONG_STEP_MM : STEP_MM;
    const [x, y] = held?.what.id === what.id ? held.by : [0, 0];
    setHeld({ what, by: [x + way[0] * mm, y + way[1] * mm] });
  };
  return (
    <>
      <svg className="cut-hands no-print" viewBox={`0 0 ${width} ${height}`}>
        {all.map((what) => (
          <Hand
            key={`${what.kind} ${what.id}`}
            what={what}
            frame={frame}
            by={held?.what.id === what.id ? held.by : null}
            onMove={(by) => setHeld({ what, by })}
            onDone={(by) => void keepIt({ what, by })}
            onKey={(event) => step(what, event)}
          />
        ))}
      </svg>
      {held === null ? (
        <p className="small soft no-print cut-hint">
          Move a window or a hole with the pointer, or with the keyboard: Tab, arrow keys (with Shift 5 mm), Enter keeps
          it.
        </p>
      ) : (
        <Where
          layout={layout}
          held={held}
          isInch={isInch}
          onKeep={() => void keepIt(held)}
          onLeave={() => setHeld(null)}
        />
      )}
    </>
  );
}

interface HandWish {
  readonly what: Movable;
  readonly frame: FlatFrame;
  readonly by: Point2 | null;
  readonly onMove: (by: Point2) => void;
  readonly onDone: (by: Point2) => void;
  readonly onKey: (event: KeyboardEvent) => void;
}

function Hand({ what, frame, by, onMove, onDone, onKey }: HandWish): ReactNode {
  const start = useRef<Point2 | null>(null);
  const [dx, dy] = by ?? [0, 0];
  const [x, y] = frame.spot([what.at[0] + dx, what.at[1] + dy]);
  const [w, h] = what.reachMm.map((mm) => Math.max(mm * frame.scale, FINGER)) as [number, number];
  /** Millimetres on the flat from where the pointer went down. */
  const drawn = (event: PointerEvent<SVGRectElement>): Point2 => {
    const svg = event.currentTarget.ownerSVGElement!;
    const perPx = svg.viewBox.baseVal.width / svg.getBoundingClientRect().width / frame.scale;
    const [fromX, fromY] = start.current!;
    return [Math.round((event.clientX - fromX) * perPx), Math.round((fromY - event.clientY) * perPx)];
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

interface WhereWish {
  readonly layout: PanelLayout;
  readonly held: Held;
  readonly isInch: boolean;
  readonly onKeep: () => void;
  readonly onLeave: () => void;
}

/** Where it would be, and what that would break. */
function Where({ layout, held, isInch, onKeep, onLeave }: WhereWish): ReactNode {
  const car = useCar()!;
  const { what, by } = held;
  const [along, across] = placeMoved(layout, what, by);
  const late = useDeferredValue(`${along} ${across}`);
  const panel = car.panels!.find(({ id }) => id === layout.panel.id)!;
  const told = useMemo(
    () =>
      laidAsTyped(car, panelMoved(layout, panel, what, by).panel)
        .flatMap(({ findings }) => findings)
        .filter(({ at, level }) => at === what.id && level !== 'note'),
    // Typing and drawing go before judging: anew only when the place has settled.
    [car, layout, panel, what.id, late],
  );
  return (
    <div className="cut-where no-print" role="status">
      <p>
        <strong>{what.id}</strong>
        {` along ${lengthWords(along, isInch)}, in ${lengthWords(across, isInch)}`}
      </p>
      {told.map(({ code, level, text }) => (
        <p className="small" key={code}>
          <LevelMark level={level} /> {text}
        </p>
      ))}
      <div className="keys">
        <Key weight="do" onClick={onKeep}>
          Keep it there
        </Key>
        <Key onClick={onLeave}>Leave it</Key>
      </div>
    </div>
  );
}
