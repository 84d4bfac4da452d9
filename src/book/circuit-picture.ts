import type { Car, Circuit } from '#car';
import type { CircuitState, LineFlow } from '#flow';
import type { Drawing, Role, Shape } from './drawing.ts';
import { type FlowUnits, flowUnit, flowWords, flowNumber, pressureNumber, pressureUnit } from './flow-words.ts';
import type { Sheet } from './gap-ruler.ts';
import { brokenText, cutText, row } from './text-block.ts';
import { ABOVE, BELOW, ROW, textWidth } from './text-width.ts';

/** What is drawn of a circuit: its lines in one case, the one that is looked at, the parts that a finding is about. */
export interface CircuitWish {
  readonly car: Car;
  readonly circuit: Circuit;
  readonly state: CircuitState;
  readonly chosen?: string | undefined;
  /** Lines with an open point, by how grave it is. */
  readonly marked?: ReadonlyMap<string, 'stop' | 'fix'>;
}

interface Run {
  /** Id of the line, or what the way through the parts is called. */
  readonly line: string;
  readonly isInside?: boolean;
  readonly from: string;
  readonly to: string;
  readonly flow: Pick<LineFlow, 'flowM3S' | 'fromPa' | 'toPa' | 'carries'> | undefined;
}

/**
 * The plan of a circuit: each part a box with a post below it, in the order in which the fluid comes to them; each line an arrow from
 * post to post, in the same order, with its flow and its pressures at the left. What carries oil and air is dashed, gas is dotted.
 */
export function circuitPicture(wish: CircuitWish, units: FlowUnits, sheet: Sheet): Drawing {
  const { size, width } = sheet;
  const small = size * 0.85;
  const runs = runsInOrder(wish);
  const parts = [...new Set(runs.flatMap(({ from, to }) => [from, to]))];
  const ids =
    Math.max(...runs.filter(({ isInside }) => isInside !== true).map(({ line }) => textWidth(line, size, 'bold'))) +
    size * 0.8;
  const isNarrow = width < size * 34;
  const flowWide = Math.max(...runs.map(({ flow }) => textWidth(flowText(flow, units), size))) + size * 0.8;
  const gutter = isNarrow ? Math.max(ids + flowWide, 0) : ids + flowWide + textWidth('−0.00 → −0.00', size) + size;
  const step = (width - gutter) / Math.max(1, parts.length);
  const x = (part: string): number => gutter + (parts.indexOf(part) + 0.5) * step;
  const heads = headsOf(wish.car, parts, x, width, gutter, small);
  const top = size * (ROW + 0.4) + heads.height + size;
  const rowHigh = size * (isNarrow ? 2.6 : 1.7);
  const bottom = top + runs.length * rowHigh;
  const shapes: Shape[] = [
    row(
      [0, size * ABOVE],
      isNarrow
        ? `${flowUnit(units)}, ${pressureUnit(units)}`
        : `${flowUnit(units)}, and ${pressureUnit(units)} from end to end`,
      { size: small, role: 'soft' },
    ),
    ...parts.map(
      (part): Shape => ({
        kind: 'line',
        from: [x(part), top - size],
        to: [x(part), bottom],
        pen: { role: 'rule', width: size * 0.12 },
      }),
    ),
    { kind: 'group', offset: [0, size * (ROW + 0.4)], shapes: heads.shapes },
  ];
  runs.forEach((run, i) =>
    shapes.push(
      ...runShapes(wish, run, [x(run.from), x(run.to)], top + i * rowHigh, {
        size,
        ids,
        flowWide,
        isNarrow,
        units,
        width,
        rowHigh,
      }),
    ),
  );
  return {
    title: wish.circuit.name ?? wish.circuit.id,
    description: runs.map((run) => runWords(wish.car, run, units)).join('; '),
    unit: sheet.unit,
    width,
    height: bottom + size * BELOW,
    shapes,
  };
}

const runWords = (car: Car, { line, from, to, flow }: Run, units: FlowUnits): string =>
  `${line} from ${nameOf(car, from)} to ${nameOf(car, to)}: ${flow === undefined ? 'not worked out' : flowWords(Math.abs(flow.flowM3S), units)}`;

/** What stands before the first comma of its name. */
const nameOf = (car: Car, part: string): string =>
  (car.parts.find(({ id }) => id === part)?.name ?? part).split(',')[0] ?? part;
const partOf = (spot: string): string => spot.split('.')[0] ?? spot;
const flowText = (flow: Run['flow'], units: FlowUnits): string =>
  flow === undefined ? '–' : flowNumber(Math.abs(flow.flowM3S), units);

/** Lines in the order in which the fluid comes through them, from where the circuit's first line begins; gas and drains last. */
function runsInOrder({ car, circuit, state }: CircuitWish): Run[] {
  const all = circuit.lines.flatMap((id): Run[] => {
    const line = car.lines.find((one) => one.id === id);
    const flow = state.lines.find((one) => one.line === id);
    if (line === undefined) return [];
    const [from, to] = [partOf(line.from), partOf(line.to)];
    return [(flow?.flowM3S ?? 0) < 0 ? { line: id, from: to, to: from, flow } : { line: id, from, to, flow }];
  });
  all.push(...insideRuns(circuit, state));
  const through = (circuit.passages ?? [])
    .filter(({ open }) => open === true)
    .flatMap((row) => [[partOf(row.from), partOf(row.to)] as const, [partOf(row.to), partOf(row.from)] as const])
    .filter(([a, b]) => a !== b);
  const order: Run[] = [];
  const isWet = ({ flow }: Run): boolean => flow?.carries === 'liquid' || flow?.carries === 'oil and air';
  const follow = (part: string): void => {
    const next = all
      .filter((run) => run.from === part && isWet(run) && !order.includes(run))
      .toSorted((a, b) => wetness(b) - wetness(a) || Math.abs(b.flow?.flowM3S ?? 0) - Math.abs(a.flow?.flowM3S ?? 0));
    for (const run of next) {
      if (order.includes(run)) continue;
      order.push(run);
      follow(run.to);
      for (const [a, b] of through) if (a === run.to) follow(b);
    }
  };
  if (all[0] !== undefined) follow(all[0].from);
  return [...order, ...all.filter((run) => !order.includes(run))];
}

/** Liquid is followed before what carries air too. */
const wetness = ({ flow }: Run): number => (flow?.carries === 'liquid' ? 1 : 0);

/** Pumps and ways through the engine that lead from one part to another. */
function insideRuns(circuit: Circuit, state: CircuitState): Run[] {
  return [
    ...(circuit.pumps ?? []).map((pump) => ({ row: pump, found: state.pumps })),
    ...(circuit.passages ?? []).map((passage) => ({ row: passage, found: state.passages })),
  ].flatMap(({ row: { id, name, from, to }, found }): Run[] => {
    const words = name ?? id ?? `${from} to ${to}`;
    const flow = found.find((one) => one.id === id || one.id === words);
    if (flow === undefined || partOf(from) === partOf(to)) return [];
    const about = { line: words, isInside: true, flow: { ...flow, carries: 'liquid' as const } };
    return [
      flow.flowM3S < 0
        ? { ...about, from: partOf(to), to: partOf(from) }
        : { ...about, from: partOf(from), to: partOf(to) },
    ];
  });
}

interface Heads {
  readonly shapes: Shape[];
  readonly height: number;
}

/** Boxes with the names of the parts, on as many floors as keep them off each other; a post runs down from each. */
function headsOf(
  car: Car,
  parts: readonly string[],
  x: (part: string) => number,
  width: number,
  gutter: number,
  size: number,
): Heads {
  const wide = Math.min(size * 7.5, Math.max(size * 4.5, ((width - gutter) / parts.length) * 1.9));
  const boxes = parts.map((part) => {
    const rows = brokenText(nameOf(car, part), wide - size * 0.6, size).slice(0, 3);
    const own = Math.max(...rows.map((text) => textWidth(text, size))) + size * 0.8;
    const left = Math.min(width - own - 0.5, Math.max(gutter - size * 2, x(part) - own / 2));
    return { part, rows, own, left, floor: 0 };
  });
  const ends: number[] = [];
  for (const box of boxes) {
    let floor = 0;
    while ((ends[floor] ?? Number.NEGATIVE_INFINITY) > box.left - size * 0.4) floor++;
    ends[floor] = box.left + box.own;
    box.floor = floor;
  }
  const floorHigh = size * (Math.max(...boxes.map(({ rows }) => rows.length)) * ROW + 0.6);
  const height = ends.length * (floorHigh + size * 0.4);
  const shapes = boxes.flatMap(({ part, rows, own, left, floor }): Shape[] => {
    const top = height - (floor + 1) * (floorHigh + size * 0.4);
    const high = size * (rows.length * ROW + 0.4);
    return [
      {
        kind: 'line',
        from: [x(part), top + high],
        to: [x(part), height + size],
        pen: { role: 'rule', width: size * 0.14 },
      },
      {
        kind: 'rect',
        at: [left, top],
        width: own,
        height: high,
        fill: 'card',
        pen: { role: 'ink', width: size * 0.1 },
      },
      ...rows.map((text, k) =>
        row([left + own / 2, top + size * (0.15 + ABOVE + k * ROW)], text, { size, anchor: 'middle' }),
      ),
    ];
  });
  // A box on a lower floor covers the posts of those above it.
  const posts = shapes.filter(({ kind }) => kind === 'line');
  return { shapes: [...posts, ...shapes.filter(({ kind }) => kind !== 'line')], height };
}

interface RowLook {
  readonly size: number;
  readonly ids: number;
  readonly flowWide: number;
  readonly isNarrow: boolean;
  readonly units: FlowUnits;
  readonly width: number;
  readonly rowHigh: number;
}

function runShapes(
  wish: CircuitWish,
  run: Run,
  [from, to]: readonly [number, number],
  top: number,
  look: RowLook,
): Shape[] {
  const { size, ids, flowWide, isNarrow, units, width, rowHigh } = look;
  const level = wish.marked?.get(run.line);
  const isChosen = wish.chosen === run.line;
  const role: Role = isChosen ? 'blue' : (level ?? 'ink');
  const y = top + (isNarrow ? size * 1.1 : rowHigh / 2);
  const base = y + size * 0.32;
  const mark = level === 'stop' ? '▲' : level === 'fix' ? '◆' : '';
  const shapes: Shape[] = [];
  if (isChosen) shapes.push({ kind: 'rect', at: [0, top], width, height: rowHigh, fill: 'tape' });
  if (run.isInside !== true) shapes.push(row([0, base], run.line, { size, weight: 'bold', role }));
  shapes.push(row([ids + flowWide - size * 0.8, base], flowText(run.flow, units), { size, anchor: 'end', role }));
  const pressures =
    run.flow === undefined
      ? ''
      : run.flow.flowM3S < 0
        ? [run.flow.toPa, run.flow.fromPa]
        : [run.flow.fromPa, run.flow.toPa];
  if (run.isInside === true) {
    const room = Math.min(from, to) - size * 0.6 - (isNarrow ? 0 : ids + flowWide);
    const words = cutText(run.line, room, size * 0.85);
    shapes.push(
      row(isNarrow ? [0, base + size * 1.1] : [ids + flowWide, base], words, { size: size * 0.85, role: 'soft' }),
    );
  } else if (pressures !== '') {
    const words = pressures.map((pa) => pressureNumber(pa, units)).join(' → ');
    shapes.push(
      isNarrow
        ? row([0, base + size * 1.1], words, { size: size * 0.85, role: 'soft' })
        : row([ids + flowWide, base], words, { size, role: 'soft' }),
    );
  }
  shapes.push(...arrow(from, to, y, size, run.isInside === true ? 'steel' : role, run.flow?.carries));
  if (mark !== '') {
    const beside = Math.max(from, to) + size * 0.5;
    const isRoom = beside + size < width;
    shapes.push(
      row([isRoom ? beside : Math.min(from, to) - size * 0.4, base], cutText(mark, size * 2, size), {
        size,
        role,
        anchor: isRoom ? 'start' : 'end',
      }),
    );
  }
  return shapes;
}

function arrow(
  from: number,
  to: number,
  y: number,
  size: number,
  role: Role,
  carries: LineFlow['carries'] | undefined,
): Shape[] {
  const way = Math.sign(to - from) || 1;
  const dash =
    carries === 'oil and air'
      ? { dash: [size * 0.7, size * 0.35] }
      : carries === 'gas'
        ? { dash: [size * 0.15, size * 0.3] }
        : {};
  const tip = to - way * size * 0.12;
  return [
    { kind: 'line', from: [from, y], to: [tip - way * size * 0.6, y], pen: { role, width: size * 0.2, ...dash } },
    { kind: 'circle', centre: [from, y], radius: size * 0.22, fill: role },
    {
      kind: 'polyline',
      points: [
        [tip, y],
        [tip - way * size * 0.75, y - size * 0.36],
        [tip - way * size * 0.75, y + size * 0.36],
      ],
      isClosed: true,
      fill: role,
    },
  ];
}
