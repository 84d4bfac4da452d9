import { type ReactNode, useId } from 'react';
import { type Drawing, type Hatch, type Look, type Role, type Shape, type Spot, textWidth } from '#book';

/** A drawing of the book on the screen: the same picture as on paper, in the colours that the screen has just now. */
export function Picture({ drawing, className }: { readonly drawing: Drawing; readonly className?: string }): ReactNode {
  // The ids that React makes hold signs that a reference in SVG does not take.
  const own = useId().replaceAll(/[^\w-]/g, '');
  const { width, height, title, description } = drawing;
  return (
    <svg
      className={className === undefined ? 'picture' : `picture ${className}`}
      viewBox={`0 0 ${width} ${height}`}
      style={{ maxWidth: `${width}px` }}
      role="img"
      aria-label={`${title}. ${description}`}
    >
      <defs>
        {hatchesIn(drawing.shapes).map((hatch) => (
          <HatchDef key={hatchName(own, hatch)} own={own} hatch={hatch} />
        ))}
      </defs>
      <Shapes shapes={drawing.shapes} own={own} />
    </svg>
  );
}

const colour = (role: Role | undefined): string => (role === undefined ? 'none' : `var(--draw-${role})`);

const hatchName = (own: string, { role, pitch }: Hatch): string =>
  `${own}-${role}-${pitch.toFixed(3).replace('.', '-')}`;

function hatchesIn(shapes: readonly Shape[]): readonly Hatch[] {
  const found = new Map<string, Hatch>();
  const look = (all: readonly Shape[]): void => {
    for (const shape of all) {
      if (shape.kind === 'group') look(shape.shapes);
      else if ('hatch' in shape && shape.hatch !== undefined) found.set(hatchName('', shape.hatch), shape.hatch);
    }
  };
  look(shapes);
  return [...found.values()];
}

function HatchDef({ own, hatch }: { readonly own: string; readonly hatch: Hatch }): ReactNode {
  const { pitch, role } = hatch;
  return (
    <pattern
      id={hatchName(own, hatch)}
      width={pitch}
      height={pitch}
      patternUnits="userSpaceOnUse"
      patternTransform="rotate(45)"
    >
      <line x1={0} y1={0} x2={0} y2={pitch} stroke={colour(role)} strokeWidth={pitch * 0.36} />
    </pattern>
  );
}

function Shapes({ shapes, own }: { readonly shapes: readonly Shape[]; readonly own: string }): ReactNode {
  // A drawing is a value: its shapes have no names, and a new drawing is a new list.
  return shapes.map((shape, i) => <OneShape key={`${i} ${shape.kind}`} shape={shape} own={own} />);
}

function OneShape({ shape, own }: { readonly shape: Shape; readonly own: string }): ReactNode {
  const clip = useId().replaceAll(/[^\w-]/g, '');
  switch (shape.kind) {
    case 'line': {
      const { from, to, pen } = shape;
      return <line x1={from[0]} y1={from[1]} x2={to[0]} y2={to[1]} {...strokeOf({ pen })} />;
    }
    case 'text':
      return <Words shape={shape} />;
    case 'group': {
      const box = shape.clip;
      return (
        <g
          transform={`translate(${shape.offset[0]} ${shape.offset[1]})`}
          {...(box === undefined ? {} : { clipPath: `url(#${clip})` })}
        >
          {box === undefined ? null : (
            <clipPath id={clip}>
              <rect x={box.at[0]} y={box.at[1]} width={box.width} height={box.height} />
            </clipPath>
          )}
          <Shapes shapes={shape.shapes} own={own} />
        </g>
      );
    }
    default:
      return <Filled shape={shape} own={own} />;
  }
}

type FilledShape = Exclude<Shape, { kind: 'line' | 'text' | 'group' }>;

/** Drawn once with its fill, and once more with its hatch over it. */
function Filled({ shape, own }: { readonly shape: FilledShape; readonly own: string }): ReactNode {
  if (shape.hatch === undefined)
    return <Outline shape={shape} look={{ fill: colour(shape.fill), ...strokeOf(shape) }} />;
  return (
    <>
      <Outline shape={shape} look={{ fill: colour(shape.fill) }} />
      <Outline shape={shape} look={{ fill: `url(#${hatchName(own, shape.hatch)})`, ...strokeOf(shape) }} />
    </>
  );
}

interface Strokes {
  readonly fill?: string;
  readonly stroke?: string;
  readonly strokeWidth?: number;
  readonly strokeDasharray?: string;
}

function strokeOf({ pen }: Pick<Look, 'pen'>): Strokes {
  if (pen === undefined) return {};
  const dash = pen.dash === undefined ? {} : { strokeDasharray: pen.dash.join(' ') };
  return { stroke: colour(pen.role), strokeWidth: pen.width, ...dash };
}

function Outline({ shape, look }: { readonly shape: FilledShape; readonly look: Strokes }): ReactNode {
  switch (shape.kind) {
    case 'polyline': {
      const points = shape.points.map((spot) => spot.join(',')).join(' ');
      return shape.isClosed === true ? <polygon points={points} {...look} /> : <polyline points={points} {...look} />;
    }
    case 'rect':
      return <rect x={shape.at[0]} y={shape.at[1]} width={shape.width} height={shape.height} {...look} />;
    case 'circle':
      return <circle cx={shape.centre[0]} cy={shape.centre[1]} r={shape.radius} {...look} />;
    case 'path':
      return <path d={pathData(shape)} {...look} />;
  }
}

const written = (spot: Spot): string => `${spot[0]} ${spot[1]}`;

function pathData({ start, steps, isClosed }: Extract<Shape, { kind: 'path' }>): string {
  const along = steps.map(({ to, radius, isLarge, isClockwise }) =>
    radius === undefined
      ? `L${written(to)}`
      : `A${radius} ${radius} 0 ${isLarge === true ? 1 : 0} ${isClockwise === true ? 1 : 0} ${written(to)}`,
  );
  return `M${written(start)}${along.join('')}${isClosed === true ? 'Z' : ''}`;
}

const weights = { regular: 400, bold: 700 } as const;

/** Text keeps the width it was laid out with, whatever font is there. */
function Words({ shape }: { readonly shape: Extract<Shape, { kind: 'text' }> }): ReactNode {
  if (shape.text === '') return null;
  const halo =
    shape.halo === undefined
      ? {}
      : {
          paintOrder: 'stroke',
          stroke: colour(shape.halo),
          strokeWidth: shape.size * 0.3,
          strokeLinejoin: 'round' as const,
        };
  const turn =
    shape.turnDeg === undefined || shape.turnDeg === 0
      ? {}
      : { transform: `rotate(${-shape.turnDeg} ${shape.at[0]} ${shape.at[1]})` };
  return (
    <text
      {...turn}
      x={shape.at[0]}
      y={shape.at[1]}
      fontSize={shape.size}
      fontWeight={weights[shape.weight]}
      fill={colour(shape.role)}
      textAnchor={shape.anchor}
      textLength={textWidth(shape.text, shape.size, shape.weight)}
      lengthAdjust="spacingAndGlyphs"
      xmlSpace="preserve"
      {...halo}
    >
      {shape.text}
    </text>
  );
}
