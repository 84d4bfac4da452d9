import type { Car, Line, Part } from '#car';
import type { Bounds, TriangleMesh, Vec } from '#geometry';
import type { WayBody } from '#lines';
import type { Look, Pen, Role, Shape, Spot } from './drawing.ts';
import { type LabelBox, labelBox } from './label-boxes.ts';
import { type Led, onRow } from './leaders.ts';
import { partOutlines, type Seen } from './part-outlines.ts';
import { row } from './text-block.ts';
import { CAPITAL, textWidth } from './text-width.ts';

/** What a line is drawn by. */
export interface DrawnLine {
  readonly line: Line;
  readonly bodies: readonly Pick<WayBody, 'pathMm' | 'odMm'>[];
  /** Cut lengths from its first port, where they are known [mm]. */
  readonly cutsMm?: readonly number[];
}

export interface ViewWish {
  readonly car: Car;
  readonly lines: readonly DrawnLine[];
  readonly meshes: ReadonlyMap<string, TriangleMesh>;
  readonly panels: readonly { readonly corners: readonly Vec[] }[];
  /** What of the car is shown [mm]. */
  readonly bounds: Bounds;
  /** Drawing millimetres to the millimetre of the car. */
  readonly scale: number;
  readonly size: number;
}

/** From the car's left (front at the left), or from above (front at the left, the car's right below). */
export type From = 'left' | 'above';

export const viewSize = (from: From, { bounds, scale }: Pick<ViewWish, 'bounds' | 'scale'>) => {
  const up = from === 'left' ? 2 : 1;
  return {
    width: (bounds.max[0] - bounds.min[0]) * scale,
    height: (bounds.max[up] - bounds.min[up]) * scale,
  };
};

/** Room that a row of tags takes above and below a view [em]. */
export const TAG_ROW = 2.9;

/** The car in outline, hot parts hatched, moving ones dashed, with its lines; each line's id at a leader above or below. */
export function wallView(from: From, wish: ViewWish): Shape[] {
  const { bounds, scale, size } = wish;
  const { width, height } = viewSize(from, wish);
  const seen: Seen = ([x, y, z]: Vec): Spot => [
    (x - bounds.min[0]) * scale,
    from === 'left' ? (bounds.max[2] - z) * scale : (y - bounds.min[1]) * scale,
  ];
  const parts = [...wish.car.parts].sort((p, q) => depth(p, from) - depth(q, from) || (p.id < q.id ? -1 : 1));
  const lines = wish.lines.map((drawn) => ({
    drawn,
    paths: drawn.bodies.map((b) => ({ od: b.odMm, path: thinned(b.pathMm.map(seen)) })),
  }));
  const inside: Shape[] = [
    ...parts.flatMap((part) => partShapes(partOutlines(part, wish.meshes, seen), part, size, width * height)),
    ...lines.flatMap(({ drawn, paths }) =>
      paths.flatMap(({ od, path }) => lineShapes(path, od * scale, drawn.line, size)),
    ),
  ];
  const ghosts = wish.panels.map(
    ({ corners }): Shape => ({ kind: 'polyline', points: corners.map(seen), isClosed: true, pen: panelPen(size) }),
  );
  const top = TAG_ROW * size;
  const leds = lines.flatMap(({ drawn, paths }): Led[] => {
    const anchor = middleInside(
      paths.map((p) => p.path),
      width,
      height,
    );
    return anchor === null ? [] : [{ id: drawn.line.id, anchor: [anchor[0], anchor[1] + top] }];
  });
  const labels = partLabels(parts, wish, seen, width, height);
  return [
    {
      kind: 'group',
      offset: [0, top],
      shapes: [...inside, ...ghosts, ...labels],
      clip: { at: [0, 0], width, height },
    },
    { kind: 'rect', at: [0, top], width, height, pen: { role: 'ink', width: size * 0.1 } },
    ...tags(leds, width, top, height, size),
  ];
}

/** The edge of a panel: what lies behind it is seen through. */
export const panelPen = (size: number): Pen => ({ role: 'ink', width: size * 0.12, dash: [size * 0.8, size * 0.35] });

/** What is nearer to the eye is drawn later. */
function depth(part: Part, from: From): number {
  const points = part.shapes.flatMap((shape): Vec[] => {
    const at: Vec = shape.atMm ?? [0, 0, 0];
    const own: readonly Vec[] =
      shape.box !== undefined
        ? [shape.box.minMm, shape.box.maxMm]
        : shape.cylinder !== undefined
          ? [shape.cylinder.fromMm, shape.cylinder.toMm]
          : (shape.tube?.pointsMm ?? [[0, 0, 0]]);
    return own.map((p): Vec => [p[0] + at[0], p[1] + at[1], p[2] + at[2]]);
  });
  if (points.length === 0) return 0;
  const axis = from === 'left' ? 1 : 2;
  const mean = points.reduce((sum, p) => sum + p[axis], 0) / points.length;
  return from === 'left' ? -mean : mean;
}

/** All outlines of a part as one: edges first, then what fills them, so that no edge shows inside. */
function partShapes(outlines: readonly Spot[][], part: Part, size: number, viewArea: number): Shape[] {
  const isHot = part.class === 'hot';
  const pen = { role: isHot ? ('hot' as const) : ('soft' as const), width: size * 0.18 };
  // What fills the view (a floor) is an outline only: what stands on it is to be seen.
  const isGround = outlines.some((points) => areaOf(points) > viewArea * GROUND_SHARE);
  const fill = isGround || isHot ? 'card' : 'tape';
  const polygon = (points: readonly Spot[], look: Look): Shape => ({
    kind: 'polyline',
    points,
    isClosed: true,
    ...look,
  });
  if (part.class === 'moving')
    return outlines.map((points) =>
      polygon(points, { pen: { ...pen, width: size * 0.08, dash: [size * 0.5, size * 0.3] } }),
    );
  return [
    ...outlines.map((points) => polygon(points, { pen })),
    ...outlines.map((points) =>
      polygon(points, { fill, ...(isHot ? { hatch: { role: 'hot', pitch: size * 0.55 } as const } : {}) }),
    ),
  ];
}

const GROUND_SHARE = 0.2;

const areaOf = (points: readonly Spot[]): number =>
  Math.abs(points.reduce((sum, p, i) => sum + p[0] * points.at(i - 1)![1] - p[1] * points.at(i - 1)![0], 0)) / 2;

const dutyRoles: readonly (readonly [RegExp, Role])[] = [
  [/^oil/u, 'oil'],
  [/^water/u, 'water'],
  [/^fuel/u, 'fuel'],
  [/^(brake|clutch)/u, 'brake'],
  [/./u, 'air'],
];
/** The colour of a line by what it carries. */
export const dutyRole = (duty: string): Role => dutyRoles.find(([pattern]) => pattern.test(duty))![1];

function lineShapes(points: readonly Spot[], od: number, line: Line, size: number): Shape[] {
  const edge = size * 0.07;
  const width = Math.max(od, size * 0.2);
  return [
    { kind: 'polyline', points, pen: { role: 'ink', width: width + 2 * edge } },
    { kind: 'polyline', points, pen: { role: dutyRole(line.duty), width } },
  ];
}

/** A spot is left out where it lies this near to the line between its neighbours kept [mm on the sheet]. */
const THIN_MM = 0.06;

function thinned(path: readonly Spot[]): Spot[] {
  const kept: Spot[] = path.slice(0, 1);
  let from = 0;
  for (let i = 2; i < path.length; i++) {
    const [a, b] = [path[from]!, path[i]!];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    const isBent = path
      .slice(from + 1, i)
      .some((p) => Math.abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / length > THIN_MM);
    if (isBent) kept.push(path[(from = i - 1)]!);
  }
  return path.length > 1 ? [...kept, path.at(-1)!] : kept;
}

/** The middle of the longest stretch of a line that is within the view. */
function middleInside(paths: readonly (readonly Spot[])[], width: number, height: number): Spot | null {
  let best: { spot: Spot; length: number } | null = null;
  for (const path of paths)
    for (let i = 1; i < path.length; i++) {
      const [a, b] = [path[i - 1]!, path[i]!];
      const spot: Spot = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
      const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
      const isInside = spot[0] >= 0 && spot[0] <= width && spot[1] >= 0 && spot[1] <= height;
      if (isInside && length > (best?.length ?? -1)) best = { spot, length };
    }
  return best?.spot ?? null;
}

/** Half of the tags above, half below, by where their lines are. */
function tags(leds: readonly Led[], width: number, top: number, height: number, size: number): Shape[] {
  const cell = Math.max(0, ...leds.map((led) => textWidth(led.id, size, 'bold'))) + size * 0.9;
  const byHeight = [...leds].sort((a, b) => a.anchor[1] - b.anchor[1] || (a.id < b.id ? -1 : 1));
  const most = Math.max(1, Math.floor(width / cell));
  const above = byHeight.slice(0, Math.min(most, Math.ceil(leds.length / 2)));
  const below = byHeight.slice(above.length);
  const rows = [
    { leds: above, y: size * 0.9 },
    { leds: below, y: top + height + TAG_ROW * size - size * 0.9 },
  ];
  const placed = rows.flatMap(({ leds: some, y }) => onRow(some, y, 0, width, cell));
  const pen = { role: 'ink', width: size * 0.06 } as const;
  return [
    ...placed.map(
      ({ anchor, tag }): Shape => ({
        kind: 'line',
        from: [tag[0], tag[1] < top ? tag[1] + size * 0.75 : tag[1] - size * 0.75],
        to: anchor,
        pen,
      }),
    ),
    ...placed.map(({ anchor }): Shape => ({ kind: 'circle', centre: anchor, radius: size * 0.2, fill: 'card', pen })),
    ...placed.flatMap(({ id, tag }): Shape[] => [
      {
        kind: 'rect',
        at: [tag[0] - cell / 2 + size * 0.12, tag[1] - size * 0.75],
        width: cell - size * 0.24,
        height: size * 1.5,
        fill: 'card',
        pen,
      },
      row([tag[0], tag[1] + (size * CAPITAL) / 2], id, { size, weight: 'bold', anchor: 'middle' }),
    ]),
  ];
}

/** Names on the parts, the largest first, where they have room and lie on no other name. */
function partLabels(parts: readonly Part[], wish: ViewWish, seen: Seen, width: number, height: number): Shape[] {
  const size = wish.size * 0.72;
  const taken: LabelBox[] = [];
  const found = parts
    .map((part) => ({ part, spots: partOutlines(part, wish.meshes, seen).flat() }))
    .filter(({ spots }) => spots.length > 0)
    .map(({ part, spots }) => {
      const xs = spots.map((s) => s[0]);
      const ys = spots.map((s) => s[1]);
      const box = [
        Math.max(0, Math.min(...xs)),
        Math.min(width, Math.max(...xs)),
        Math.max(0, Math.min(...ys)),
        Math.min(height, Math.max(...ys)),
      ] as const;
      return { part, box, area: (box[1] - box[0]) * (box[3] - box[2]) };
    })
    .filter(({ box }) => box[1] > box[0] && box[3] > box[2])
    .sort((p, q) => q.area - p.area || (p.part.id < q.part.id ? -1 : 1));
  return found.flatMap(({ part, box }): Shape[] => {
    const [left, right, top, bottom] = box;
    const label = row([(left + right) / 2, (top + bottom) / 2 + size * 0.3], part.id, {
      size,
      role: part.class === 'hot' ? 'hot' : 'ink',
      anchor: 'middle',
      halo: 'card',
    });
    const own = labelBox(label);
    const isIn = own.left >= left && own.right <= right && own.top >= 0 && own.bottom <= height;
    const isFree = taken.every(
      (other) =>
        own.right <= other.left || other.right <= own.left || own.bottom <= other.top || other.bottom <= own.top,
    );
    if (!isIn || !isFree) return [];
    taken.push(own);
    return [label];
  });
}
