import {
  breakJobs,
  type BreakJobs,
  bookBeside,
  bookNuts,
  compareDecided,
  curesOf,
  dragged,
  type Dragged,
  firstWayOf,
  type FlowBeside,
  type FlowTried,
  flowTried,
  flowBeside,
  flowInCase,
  followingWayOf,
  heatOf,
  lapsOf,
  lifingOf,
  type LifingAnswer,
  type LeverInCar,
  leversOf,
  panelsOf,
  type ReachFound,
  reachFound,
  rulesWithHeat,
  type Standing,
  standing,
  type StripOf,
  stripOf,
  waysOf,
} from '#answers';
import { type Car, findLine, partMotion, type TakenWay } from '#car';
import type { FlowAnswer } from '#flow';
import { type TriangleMesh, type Vec } from '#geometry';
import { type HeatAnswer, type LineCures, newHeatMemory } from '#heat';
import {
  type MeshKind,
  type MeshReading,
  type MeshUnit,
  type PictureLevel,
  pictureLevels,
  readDriveLog,
  readMesh,
} from '#intake';
import { linesWorld, type LinesWorld, type Way } from '#lines';
import { nestedPanels, type PanelLayout, type PanelNest } from '#panels';
import type { RulesAnswer } from '#rules';
import type { Comparison } from '#stock';
import { type BookAsk, type BookMade, bookMade } from './book-task.ts';
import { sharedMesh } from './car-input.ts';
import { photoSeen } from './photo-task.ts';
import { type PieceStrength, strengthOfPanel } from './strength-task.ts';

/** A car as it is handed to a thread that stays: what the thread knows already it does not take again. */
export interface SharedCar {
  /** The same for the same content. */
  readonly key: string;
  readonly car: Car;
  readonly meshes: readonly { readonly file: string; readonly hash: string; readonly mesh: TriangleMesh }[];
}

/** A thread keeps this many cars as solid space, and this many scans. */
const MOST_WORLDS = 4;
const MOST_MESHES = 32;

interface Known {
  readonly world: LinesWorld;
  readonly hashes: ReadonlyMap<string, string>;
}

const worlds = new Map<string, Known>();
const scans = new Map<string, TriangleMesh>();

function remembered<T>(known: Map<string, T>, key: string, most: number, make: () => T): T {
  const value = known.get(key) ?? make();
  known.delete(key);
  known.set(key, value);
  for (const oldest of known.keys()) {
    if (known.size <= most) break;
    known.delete(oldest);
  }
  return value;
}

function worldFor({ key, car, meshes }: SharedCar): LinesWorld {
  return remembered(worlds, key, MOST_WORLDS, () => {
    const own = meshes.map(({ file, hash, mesh }) => [file, remembered(scans, hash, MOST_MESHES, () => mesh)] as const);
    const hashes = new Map(meshes.map(({ file, hash }) => [file, hash]));
    // The car before an edit is the one that was asked about last; a scan of the same name may be another scan.
    const last = [...worlds.values()].at(-1);
    const isSame = last !== undefined && [...hashes].every(([file, hash]) => last.hashes.get(file) === hash);
    return { world: linesWorld(car, new Map(own), isSame ? last.world : undefined), hashes };
  }).world;
}

/** What a drag asks for; the car itself goes along only where the thread does not know it yet. */
export interface DragAsk {
  readonly key: string;
  readonly part: string;
  readonly byMm: Vec;
  readonly turnDeg?: Vec | undefined;
  readonly aboutMm?: Vec | undefined;
}

/** A driven log through each dry sump, and what was taken for granted in reading it. */
export interface DrivenLaps {
  readonly laps: ReturnType<typeof lapsOf>;
  readonly notes: readonly string[];
}

/** What there is to cut: every panel laid out with holes for what goes through it on the ways taken, and every lever. */
export interface ToCut {
  readonly panels: readonly PanelLayout[];
  readonly levers: readonly LeverInCar[];
}

export interface WhatIfAsk {
  readonly input: SharedCar;
  /** Lines to be worked out anew, in this order, each among all that stand. */
  readonly lines: readonly string[];
  readonly tried: ReadonlyMap<string, Way>;
}

/** The heat of a car is mostly asked about again with one thing changed. */
const heatMemory = newHeatMemory();

/** One list, so that what is made ready for the car is kept from question to question. */
const NO_LINES: readonly [] = [];

/** Questions about a car that stands on the shelf. */
export const standingTasks = {
  standing: ({ input, tried }: { input: SharedCar; tried: ReadonlyMap<string, Way> }): Standing =>
    standing(worldFor(input), tried),
  /** The car made solid ahead of the first question. */
  ready: ({ input }: { input: SharedCar }): boolean => worldFor(input) !== undefined,
  /** Null where this thread does not know the car. */
  drag: ({ key, part, byMm, turnDeg, aboutMm }: DragAsk): Dragged | null => {
    const world = worlds.get(key)?.world;
    return world === undefined ? null : dragged(world, part, partMotion(byMm, turnDeg, aboutMm));
  },
  shelfWays: ({ input, line, count }: { input: SharedCar; line: string; count: number }): Way[] =>
    waysOf(worldFor(input), line, count),
  /** A first way, fast; null where a quick look finds none. */
  shelfFirst: ({ input, line }: { input: SharedCar; line: string }): Way | null => firstWayOf(worldFor(input), line),
  /** The same as `whatIf` in a moment: each line near the way it had, where one comes that fast; null where none does. */
  whatIfFirst: ({ input, lines, tried }: WhatIfAsk): Standing | null => {
    const { world, changed } = withWays(worldFor(input), lines, (now, id) => followingWayOf(now, id));
    return changed === 0 ? null : standing(world, tried);
  },
  whatIf: ({ input, lines, tried }: WhatIfAsk, watch: (done: number, total: number) => boolean): Standing => {
    const best = new Map(tried);
    const { world } = withWays(worldFor(input), lines, (now, id, n) => {
      if (!watch(n, lines.length)) return null;
      const near = followingWayOf(now, id);
      const [way] = waysOf(now, id, 1);
      if (near !== null && (way?.feasible !== true || isBetter(near, way))) return near;
      if (way?.feasible === false) best.set(id, way);
      return way ?? null;
    });
    watch(lines.length, lines.length);
    return standing(world, best);
  },
  cut: ({ input }: { input: SharedCar }): ToCut => {
    const world = worldFor(input);
    return { panels: panelsOf(world), levers: leversOf(world.car, world.meshes) };
  },
  /** All panels that lie flat on the sheets at hand, or on usual ones. */
  nest: ({ panels, sheets }: { panels: readonly PanelLayout[]; sheets: Car['sheets'] }): PanelNest =>
    nestedPanels(
      panels.flatMap(({ flats }) => flats),
      (sheets ?? []).map(({ qty, ...sheet }) => ({ ...sheet, ...(qty === undefined ? {} : { qty }) })),
    ),
  /** What its load does to a panel. */
  strength: ({ input, panel }: { input: SharedCar; panel: string }): readonly PieceStrength[] =>
    strengthOfPanel(worldFor(input), panel),
  /** From one point of a car's history to another, by what was decided at each. */
  compareDecided: ({ from, to }: { from: SharedCar; to: SharedCar }): Comparison =>
    compareDecided(worldFor(from), worldFor(to)),
  /** Does it flow, in one case; without one in the case that stands for none. */
  flow: (
    { input, caseId }: { input: SharedCar; caseId?: string | undefined },
    watch: (done: number, total: number) => boolean,
  ): FlowAnswer => flowInCase(worldFor(input), caseId, watch),
  /** What comes off for one thing of the car, with the lines on the ways taken; with what would win where that is asked. */
  strip: (
    { input, what, aim, wins }: { input: SharedCar; what: string; aim: StripOf['aim']; wins?: boolean },
    watch: (done: number, total: number) => boolean,
  ): StripOf => stripOf(worldFor(input), NO_LINES, what, { aim, watch, ...(wins === undefined ? {} : { wins }) }),
  /** What is to be done in each break, and how long it takes. */
  breaks: ({ input }: { input: SharedCar }, watch: (done: number, total: number) => boolean): readonly BreakJobs[] =>
    breakJobs(worldFor(input), NO_LINES, { watch }),
  rules: ({ input }: { input: SharedCar }): RulesAnswer => rulesWithHeat(worldFor(input), NO_LINES),
  due: ({ input, day }: { input: SharedCar; day: string }): LifingAnswer => lifingOf(worldFor(input), NO_LINES, day),
  flowBeside: ({ input }: { input: SharedCar }): FlowBeside => flowBeside(worldFor(input)),
  /** The circuits of a line with it in another size. */
  flowTried: (
    { input, line, dash }: { input: SharedCar; line: string; dash: number },
    watch: (done: number, total: number) => boolean,
  ): FlowTried | { readonly fault: string } => flowTried(worldFor(input), line, dash, watch),
  /** The papers of the car as a file. */
  book: (
    {
      input,
      known,
      ask,
      earlier,
    }: {
      input: SharedCar;
      known: Parameters<typeof bookMade>[1];
      ask: BookAsk;
      earlier?: { readonly name: string; readonly input: SharedCar };
    },
    watch: (done: number, total: number) => boolean,
  ): Promise<BookMade> =>
    bookMade(
      worldFor(input),
      known,
      ask,
      watch,
      earlier === undefined ? undefined : { name: earlier.name, world: worldFor(earlier.input) },
    ),
  /** Of a book, what can be worked out on other threads meanwhile. */
  bookTools: ({ input }: { input: SharedCar }): ReturnType<typeof bookNuts> => bookNuts(worldFor(input)),
  bookBeside: ({ input }: { input: SharedCar }): ReturnType<typeof bookBeside> => bookBeside(worldFor(input)),
  /** Does it cook, in every case or in one; `flow` is what flows, null where nothing does. */
  heat: (
    { input, flow, caseId }: { input: SharedCar; flow: FlowAnswer | null; caseId?: string | undefined },
    watch: (done: number, total: number) => boolean,
  ): HeatAnswer =>
    heatOf(worldFor(input), [], { flow, watch, memory: heatMemory, ...(caseId === undefined ? {} : { caseId }) }),
  /** What no tool reaches, and what does not meet the rules as entered. */
  reach: ({ input }: { input: SharedCar }, watch: (done: number, total: number) => boolean): ReachFound =>
    reachFound(worldFor(input), watch),
  /** What each cure is worth on one line. */
  heatCures: (
    { input, flow, line, caseId }: { input: SharedCar; flow: FlowAnswer | null; line: string; caseId: string },
    watch: (done: number, total: number) => boolean,
  ): LineCures => curesOf(worldFor(input), [], line, { flow, watch, caseId, memory: heatMemory }),
  /** A driven log through the dry sumps of the car; a log that cannot be read says why in one line. */
  laps: async (
    { input, bytes }: { input: SharedCar; bytes: Uint8Array },
    watch: (done: number, total: number) => boolean,
  ): Promise<DrivenLaps | { readonly fault: string }> => {
    watch(0, 2);
    const reading = await readDriveLog(bytes);
    if (!reading.ok) return { fault: reading.fault };
    watch(1, 2);
    const laps = lapsOf(worldFor(input), [], reading.log);
    watch(2, 2);
    return { laps, notes: reading.log.notes };
  },
  /** The outline of a cardboard template from a photo of it. */
  photoSeen,
  /** A mesh or CAD file's triangles, in memory that all threads share. */
  readMesh: async ({
    bytes,
    kind,
    unit,
  }: {
    bytes: Uint8Array;
    kind: MeshKind;
    unit: MeshUnit;
  }): Promise<MeshReading> => {
    const reading = await readMesh(bytes, kind, { unit });
    return reading.ok ? { ...reading, mesh: sharedMesh(reading.mesh) } : reading;
  },
  /** Lighter meshes for the screen, the lightest first; they are never measured on. */
  pictureLevels: async ({ mesh }: { mesh: TriangleMesh }): Promise<readonly PictureLevel[]> =>
    (await pictureLevels(mesh)).map((level) => ({ ...level, mesh: sharedMesh(level.mesh) })),
} as const;

/** Nothing hot or moving touched at worst goes before cheap. */
const isBetter = (p: Way, q: Way): boolean => stopsOf(p) < stopsOf(q) || (stopsOf(p) === stopsOf(q) && p.cost < q.cost);
const stopsOf = ({ notes }: Way): number => notes.filter(({ level }) => level === 'stop').length;

/** Lines worked out one after the other, each among all that stand; one that finds none has none, one that is not looked for keeps its own. */
function withWays(
  world: LinesWorld,
  lines: readonly string[],
  wayOf: (world: LinesWorld, line: string, n: number) => Way | null,
): { readonly world: LinesWorld; readonly changed: number } {
  let now = world;
  let changed = 0;
  for (const [n, id] of lines.entries()) {
    const way = findLine(now.car, id) === undefined ? null : wayOf(now, id, n);
    if (way === null) continue;
    now = { ...now, car: withWay(now.car, id, way.feasible ? way : null) };
    changed++;
  }
  return { world: now, changed };
}

function withWay(car: Car, id: string, way: Way | null): Car {
  const taken = way === null ? null : (way as unknown as TakenWay);
  return { ...car, lines: car.lines.map((line) => (line.id === id ? { ...line, taken } : line)) };
}
