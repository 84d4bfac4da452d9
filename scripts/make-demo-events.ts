// Makes the ten changed demo cars and demo/six-lines.json from demo/fellside.json: `npx tsx scripts/make-demo-events.ts` after a change to it.
// They stand beside it, not in a folder below, because a car reaches scans only in or under its own folder.
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { type Car, carText, faultLine, type Line, type Part, readCar } from '#car';

const root = fileURLToPath(new URL('..', import.meta.url));

type Point = [number, number, number];

/** What of the kept data names lines. */
interface NamesLines {
  lines?: string[];
  crossings?: string[];
}

/** One change of mind: how the file is called, what it is in words, and what it does to the car. */
interface DemoEvent {
  readonly file: string;
  readonly words: string;
  readonly apply: (car: Car) => void;
}

function found<T extends { id: string }>(rows: readonly T[], id: string): T {
  const row = rows.find((each) => each.id === id);
  if (!row) throw new Error(`demo: there is no "${id}" in demo/fellside.json`);
  return row;
}

const part = (car: Car, id: string) => found(car.parts, id);
const line = (car: Car, id: string) => found(car.lines, id);

/** To a tenth of a micron: a turned point carries no false digits into the file. */
const rounded = (value: number) => Math.round(value * 1e4) / 1e4 + 0;

/** Puts every point of the part through `move`, every facing through `turn`. */
function moved(target: Part, move: (at: Point) => Point, turn: (faces: Point) => Point): void {
  for (const shape of target.shapes) {
    if (shape.mesh || shape.turnDeg || shape.atMm)
      throw new Error(`demo: part "${target.id}" has a shape that this change cannot move`);
    if (shape.box) {
      const [a, b] = [move(shape.box.minMm), move(shape.box.maxMm)];
      shape.box.minMm = [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.min(a[2], b[2])];
      shape.box.maxMm = [Math.max(a[0], b[0]), Math.max(a[1], b[1]), Math.max(a[2], b[2])];
    }
    if (shape.cylinder) {
      shape.cylinder.fromMm = move(shape.cylinder.fromMm);
      shape.cylinder.toMm = move(shape.cylinder.toMm);
    }
    if (shape.tube) shape.tube.pointsMm = shape.tube.pointsMm.map(move);
  }
  for (const port of target.ports) {
    port.atMm = move(port.atMm);
    port.faces = turn(port.faces);
  }
}

const shifted = (target: Part, by: Point) =>
  moved(
    target,
    (at) => [at[0] + by[0], at[1] + by[1], at[2] + by[2]],
    (faces) => faces,
  );

/** Turned about a line along car X, right-handed. */
function turnedAboutX(target: Part, y0: number, z0: number, deg: number): void {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  const turn = ([x, y, z]: Point): Point => [x, rounded(y * c - z * s), rounded(y * s + z * c)];
  moved(
    target,
    ([x, y, z]) => {
      const [, dy, dz] = turn([0, y - y0, z - z0]);
      return [x, rounded(y0 + dy), rounded(z0 + dz)];
    },
    turn,
  );
}

/** The other side of a plane square to car X. */
const mirroredInX = (target: Part, planeMm: number) =>
  moved(
    target,
    ([x, y, z]) => [2 * planeMm - x, y, z],
    ([x, y, z]) => [0 - x + 0, y, z],
  );

/** Takes parts off, and the lines that end on them. */
function takeOff(car: Car, comesOff: (part: Part) => boolean): void {
  const gone = new Set(car.parts.filter(comesOff).map((each) => each.id));
  const ends = (each: Line) => [each.from, each.to].map((port) => port.split('.')[0] ?? '');
  car.parts = car.parts.filter((each) => !gone.has(each.id));
  car.lines = car.lines.filter((each) => !ends(each).some((id) => gone.has(id)));
  for (const each of car.lines) each.through = each.through.filter((row) => !gone.has(row.part));
  dropUnused(car);
  dropFromCircuits(car, gone);
  dropFromHeat(car, gone);
  dropFromAccess(car);
  for (const each of car.parts) dropLostNear(each, gone);
}

/** Circuits lead through no part that is gone. */
function dropFromCircuits(car: Car, gone: ReadonlySet<string>): void {
  const isThere = (spot: string) => !gone.has(spot.split('.')[0] ?? '');
  for (const each of car.circuits ?? []) {
    if (each.passages) each.passages = each.passages.filter((row) => isThere(row.from) && isThere(row.to));
    if (each.pumps) each.pumps = each.pumps.filter((row) => isThere(row.from) && isThere(row.to));
    if (each.vessels) each.vessels = each.vessels.filter((row) => isThere(row.part));
  }
}

/** Nothing draws air where it is no more, and no temperature stands that was read on what is gone. */
function dropFromHeat(car: Car, gone: ReadonlySet<string>): void {
  for (const bay of car.bays ?? []) {
    if (bay.intakes) bay.intakes = bay.intakes.filter((row) => !gone.has(row.part));
    if (bay.intakes?.length === 0) delete bay.intakes;
  }
  if (car.heatReadings) car.heatReadings = car.heatReadings.filter((row) => isThere(car, row));
}

/** Nothing is screwed into, sits on, or is worked at what is gone. */
function dropFromAccess(car: Car): void {
  const left = new Set([...car.parts, ...(car.panels ?? []), ...car.lines].map((row) => row.id));
  for (const each of car.parts) {
    if (each.sitsOn) each.sitsOn = each.sitsOn.filter((id) => left.has(id));
    for (const row of each.fasteners ?? []) if (row.into !== undefined && !left.has(row.into)) delete row.into;
  }
  for (const row of car.workshop?.breaks ?? []) if (row.jobs) row.jobs = row.jobs.filter((id) => left.has(id));
}

const isThere = (car: Car, { line, part }: { line?: string | undefined; part?: string | undefined }) =>
  (line === undefined || car.lines.some((row) => row.id === line)) &&
  (part === undefined || car.parts.some((row) => row.id === part));

function dropLostNear(target: Part, gone: ReadonlySet<string>): void {
  for (const port of target.ports) {
    if (!port.near) continue;
    port.near.parts = port.near.parts.filter((id) => !gone.has(id));
    if (port.near.parts.length === 0) delete port.near;
  }
}

/** Circuits, panels and movers name only what is still there. */
function dropUnused(car: Car): void {
  const left = new Set(car.lines.map((each) => each.id));
  for (const row of [car.circuits, car.panels].flat() as NamesLines[]) {
    for (const key of ['lines', 'crossings'] as const) if (row[key]) row[key] = row[key].filter((id) => left.has(id));
  }
  const used = new Set(car.parts.map((each) => each.movesWith));
  car.movers = car.movers.filter((mover) => used.has(mover.id));
  // A cable whose far end is off the car hangs loose: it comes off too.
  for (const lever of car.levers ?? [])
    for (const key of ['rods', 'cables'] as const)
      if (lever[key])
        (lever[key] as unknown[]) = lever[key].filter(({ to }) => to.mover === undefined || used.has(to.mover));
}

const FILTER: readonly string[] = ['filter', 'filter-canister'];
const PIPE_45 = { odMm: 45, wallMm: 1.6, bendRadiusMm: 90, material: 'aluminium' };
const BLANKET_MM = 12;
const BLANKET_C = 280;
const BLANKET_BY_CASE = [
  { case: 'cold-start', surfaceC: 60 },
  { case: 'idle-hot', surfaceC: 140 },
  { case: 'longest-corner', surfaceC: 270 },
  { case: 'braking', surfaceC: 250 },
];
const BULKHEAD_X = 1350;

export const demoEvents: readonly DemoEvent[] = [
  {
    file: '1-swap-tank-returns',
    words: 'the tank returns swapped: the cooler returns inboard, the turbo scavenge outboard',
    apply: (car) => {
      const [cooler, turbo] = [line(car, 'O10'), line(car, 'O11')];
      [cooler.to, turbo.to] = [turbo.to, cooler.to];
    },
  },
  {
    file: '2-header-tank-left',
    words: 'the header tank moved 120 mm to the left',
    apply: (car) => shifted(part(car, 'header'), [0, -120, 0]),
  },
  {
    file: '3-feed-dash-20',
    words: 'a -20 oil feed instead of -16; the bosses stay',
    apply: (car) => {
      const hoses = car.catalogue?.hoses ?? [];
      const larger = {
        id: 'rubber-20',
        name: '-20 steel-braided rubber',
        dash: 20,
        boreMm: 28.6,
        odMm: 38,
        minBendRadiusMm: 185,
      };
      hoses.push({ ...found(hoses, 'rubber-16'), ...larger });
      line(car, 'O1').dash = 20;
      line(car, 'O1').pieces = [{ hose: 'rubber-20' }];
    },
  },
  {
    file: '4-turbo-turned',
    words: 'the turbo centre housing turned 12 degrees about its shaft',
    apply: (car) => turnedAboutX(part(car, 'turbo'), 330, 270, 12),
  },
  {
    file: '5-turbo-blanket',
    words: `a blanket of ${BLANKET_MM} mm on the turbine housing`,
    apply: (car) => {
      const turbine = part(car, 'turbine');
      turbine.shielded = true;
      turbine.surfaceC = BLANKET_C;
      turbine.surfaceByCase = BLANKET_BY_CASE;
      turbine.finish = 'glass-cloth';
      turbine.keepOffMm = 50;
      for (const shape of turbine.shapes) if (shape.tube) shape.tube.radiusMm += BLANKET_MM;
    },
  },
  {
    file: '6-filter-ahead-of-bulkhead',
    words: 'the oil filter head on the other side of the bulkhead',
    apply: (car) => {
      for (const id of FILTER) mirroredInX(part(car, id), BULKHEAD_X);
      for (const id of ['O2', 'O3']) line(car, id).through = [{ part: 'bulkhead', kind: 'bulkhead-fitting' }];
    },
  },
  {
    file: '7-water-pipe-45',
    words: '45 mm water pipe instead of 38; spigots and couplers stay',
    apply: (car) => {
      for (const id of ['C1', 'C2']) {
        line(car, id).boreMm = PIPE_45.odMm - 2 * PIPE_45.wallMm;
        for (const piece of line(car, id).pieces) if (piece.tube) piece.tube = { ...PIPE_45 };
      }
    },
  },
  {
    file: '8-engine-out',
    words: 'engine and gearbox out, with all that hangs on them',
    apply: (car) =>
      takeOff(car, (each) => ['engine', 'swing-left', 'swing-right', 'fork', 'arm'].includes(each.movesWith ?? '')),
  },
  {
    file: '9-filter-off',
    words: 'the oil filter off, between runs',
    apply: (car) => takeOff(car, (each) => FILTER.includes(each.id)),
  },
  {
    file: '10-turbo-off',
    words: 'the turbo off, between runs',
    apply: (car) => takeOff(car, (each) => ['turbo', 'compressor', 'turbine', 'wastegate'].includes(each.id)),
  },
];

const copy = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;

/** The demo car after the change. */
export function changedCar(base: Car, event: DemoEvent): Car {
  const car = copy(base);
  car.name = `${base.name}: ${event.words}`;
  event.apply(car);
  return car;
}

/** A line of each kind: suction, pressure, a bleed, a drain, fuel through the bulkhead, brake. */
const SIX = ['O1', 'O3', 'O7', 'C4', 'F3', 'B1'];

/** The demo car with six of its lines; all parts stay in their way. */
export function sixLineCar(base: Car): Car {
  const car = copy(base);
  car.name = `${base.name}: six lines`;
  car.lines = car.lines.filter((each) => SIX.includes(each.id));
  dropUnused(car);
  dropFromHeat(car, new Set());
  return car;
}

/** The files that are made from the one car, by path from the root. */
export function demoFiles(base: Car): ReadonlyMap<string, string> {
  const rows = demoEvents.map((event): [string, string] => [
    `demo/fellside-${event.file}.json`,
    carText(changedCar(base, event)),
  ]);
  return new Map([...rows, ['demo/six-lines.json', carText(sixLineCar(base))]]);
}

/** The coupe as it was first built. */
export function demoCar(): Car {
  const reading = readCar(readFileSync(`${root}demo/fellside.json`, 'utf8'));
  if (!reading.ok) throw new Error(`demo/fellside.json: ${reading.faults.map(faultLine).join('; ')}`);
  return reading.car;
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  for (const [path, text] of demoFiles(demoCar())) writeFileSync(`${root}${path}`, text);
}
