import { type Car, type Line, readCar } from '#car';
import { type LinesWorld, type Way, type WayEnd, type WayPart, linesWorld } from '#lines';

/*
 * A tank and a cooler face each other along X, two ports each; straight hoses between them. For tests: every number can be
 * worked out by hand. Ports stand on the faces at X 400 (cooler) and X 1000 (tank).
 */

type Point = readonly [number, number, number];

export interface SmallCarWish {
  readonly tankShiftMm?: Point;
  readonly lines?: readonly object[];
  readonly box?: readonly object[];
  readonly catalogue?: object;
  readonly parts?: readonly object[];
  /** X of the second cooler port, 400 usually. */
  readonly secondAtMm?: number;
  readonly tankEnd?: object;
  readonly tankFaces?: Point;
}

export const twoLines = [
  {
    id: 'O1',
    from: 'cooler.c1',
    to: 'tank.r1',
    duty: 'oil-return',
    dash: 16,
    hose: 'rubber-braid-16',
    state: 'planned',
  },
  {
    id: 'O2',
    from: 'cooler.c2',
    to: 'tank.r2',
    duty: 'oil-return',
    dash: 16,
    hose: 'rubber-braid-16',
    state: 'planned',
  },
] as const;

export function smallCar(wish: SmallCarWish = {}): Car {
  const [dx, dy, dz] = wish.tankShiftMm ?? [0, 0, 0];
  const tankEnd = wish.tankEnd ?? { type: 'orb', dash: 16 };
  const at = (x: number, y: number, z: number): Point => [x + dx, y + dy, z + dz];
  const file = {
    fairlead: 1,
    parts: [
      {
        id: 'tank',
        name: 'Oil tank, 8 L',
        class: 'fixed',
        shapes: [{ box: { minMm: at(1000, -100, 0), maxMm: at(1200, 100, 400) } }],
        ports: [
          { id: 'r1', atMm: at(1000, -50, 300), faces: wish.tankFaces ?? [-1, 0, 0], end: tankEnd },
          { id: 'r2', atMm: at(1000, 50, 300), faces: [-1, 0, 0], end: { type: 'orb', dash: 16 } },
        ],
      },
      {
        id: 'cooler',
        name: 'Oil cooler',
        class: 'fixed',
        shapes: [{ box: { minMm: [200, -100, 200], maxMm: [wish.secondAtMm ?? 400, 100, 400] } }],
        ports: [
          { id: 'c1', atMm: [400, -50, 300], faces: [1, 0, 0], end: { type: 'orb', dash: 16 } },
          { id: 'c2', atMm: [wish.secondAtMm ?? 400, 50, 300], faces: [1, 0, 0], end: { type: 'orb', dash: 16 } },
        ],
      },
      ...(wish.parts ?? []),
    ],
    lines: wish.lines ?? twoLines,
    ...(wish.box === undefined ? {} : { box: wish.box }),
    ...(wish.catalogue === undefined ? {} : { catalogue: wish.catalogue }),
  };
  const read = readCar(JSON.stringify(file));
  if (!read.ok) throw new Error(JSON.stringify(read));
  return read.car;
}

export const worldOf = (car: Car): LinesWorld => linesWorld(car, new Map());

export interface WayWish {
  readonly cutLengthMm?: number;
  readonly hose?: string;
  readonly hoseOdMm?: number;
  readonly adapters?: readonly [string, string];
  readonly hoseEnds?: readonly [string, string];
  readonly seals?: readonly [string, string];
  readonly anglesDeg?: readonly [number, number];
  readonly clocksDeg?: readonly [number | null, number | null];
  readonly endToEndDeg?: number | null;
  readonly clamps?: Way['clamps'];
  readonly fails?: Way['fails'];
  readonly notes?: Way['notes'];
  readonly gaps?: Way['gaps'];
}

/** Adapter boss-16-flare-16 is 35.84 mm, the straight crimped end 21.88 + 28.31 mm with 26.31 mm of hose in it. */
const ADAPTER_MM = 35.84;
const END_MM = 21.88 + 28.31;
const INSERT_MM = 26.31;

/** A straight way from port to port with the same end at either side; drawn, not planned. */
export function straightWay(car: Car, line: Line, wish: WayWish = {}): Way {
  const [a, b] = [portAt(car, line.from), portAt(car, line.to)];
  const length = Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
  const on = (mm: number): Point => [
    a[0] + ((b[0] - a[0]) * mm) / length,
    a[1] + ((b[1] - a[1]) * mm) / length,
    a[2] + ((b[2] - a[2]) * mm) / length,
  ];
  const body = (part: string, from: number, to: number, odMm: number) => {
    const steps = Math.max(1, Math.ceil((to - from) / 2.9));
    return { part, pathMm: Array.from({ length: steps + 1 }, (_, n) => on(from + ((to - from) * n) / steps)), odMm };
  };
  const marks = [
    0,
    ADAPTER_MM,
    ADAPTER_MM + END_MM,
    length - ADAPTER_MM - END_MM,
    length - ADAPTER_MM,
    length,
  ] as const;
  const exactMm = length - 2 * (ADAPTER_MM + END_MM - INSERT_MM);
  const odMm = wish.hoseOdMm ?? 31.24;
  return {
    rank: 1,
    feasible: (wish.fails ?? []).length === 0,
    cost: length,
    ends: [end(line.from, 0, wish), end(line.to, 1, wish)],
    joints: [],
    pieces: [
      {
        hose: wish.hose ?? 'rubber-braid-16',
        cutLengthMm: wish.cutLengthMm ?? Math.round(exactMm / 5) * 5,
        allowanceMm: [-5, 15],
        odMm,
        minBendRadiusMm: 203.1,
        tightestBendMm: 100_000,
        endToEndDeg: wish.endToEndDeg ?? null,
      },
    ],
    clamps: wish.clamps ?? [],
    bodies: [
      body('adapter', marks[0], marks[1], 44),
      body('hose-end', marks[1], marks[2], 40),
      body('hose', marks[2], marks[3], odMm),
      body('hose-end', marks[3], marks[4], 40),
      body('adapter', marks[4], marks[5], 44),
    ],
    gaps: wish.gaps ?? [],
    fails: wish.fails ?? [],
    notes: wish.notes ?? [],
    reasons: [],
  };
}

function end(port: string, n: 0 | 1, wish: WayWish): WayEnd {
  const adapter = wish.adapters?.[n] ?? 'boss-16-flare-16';
  const hoseEnd = wish.hoseEnds?.[n] ?? 'end-crimped-rubber-braid-16-0';
  const seal = wish.seals?.[n] ?? 'o-ring-916';
  const part = (id: string, kind: string): WayPart => ({ id, name: id, kind, qty: 1 });
  return {
    port,
    makeUp: [adapter, hoseEnd],
    parts: [part(seal, 'seal'), part(adapter, 'adapter'), part(hoseEnd, 'hose-end')],
    angleDeg: wish.anglesDeg?.[n] ?? 0,
    clockDeg: wish.clocksDeg?.[n] ?? null,
    words: '',
    clockHow: 'swivel',
    tightening: [],
  };
}

function portAt(car: Car, ref: string): Point {
  const [partId, portId] = ref.split('.');
  return car.parts.find((part) => part.id === partId)!.ports.find((port) => port.id === portId)!.atMm;
}

/** A plan that takes a straight way for every planned line, with what is wished for each. */
export function plannedStraight(car: Car, wishes: Readonly<Record<string, WayWish>> = {}) {
  const lines = car.lines
    .filter((line) => line.state === 'planned')
    .map((line) => {
      const way = straightWay(car, line, wishes[line.id]);
      return { line: line.id, taken: way.feasible ? way : null, best: way };
    });
  return { lines, lineGaps: [], takenUp: 0, stopped: false };
}
