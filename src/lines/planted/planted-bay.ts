import { type Vec, distance, sub, unit } from '#geometry';
import { type Chance, chance } from './chance.ts';
import {
  type BayThing,
  drawnShapes,
  gapToBalls,
  movedShapes,
  portBlock,
  pushedOut,
  wallWithWindow,
} from './obstacles.ts';
import { type Ball, PORT_KNOWN, type PlantedLine, plantedLine } from './planted-line.ts';
import { type CarShape, leastDistance, shapeDistance } from './solid-distance.ts';

export type Level = 'easy' | 'medium' | 'hard';

/** A bay as a car file with the meshes that it names, and what was planted in it. */
export interface PlantedBay {
  readonly car: BayCar;
  readonly meshes: Map<string, { positions: Float64Array; indices: Uint32Array }>;
  readonly planted: readonly PlantedLine[];
}

/** A plain car file. */
export interface BayCar {
  readonly fairlead: 1;
  readonly name: string;
  readonly parts: readonly BayThing[];
  readonly lines: readonly {
    readonly id: string;
    readonly from: string;
    readonly to: string;
    readonly duty: string;
    readonly dash: number;
    readonly hose: string;
    readonly state: string;
  }[];
}

interface Wanted {
  /** Things drawn, least and most. */
  readonly things: readonly [number, number];
  /** Room beyond their keep-off that is left to the planted line [mm]. */
  readonly roomMm: readonly [number, number];
  readonly sizeMm: readonly [number, number];
  readonly walls: readonly [number, number];
}

const LEVELS: Readonly<Record<Level, Wanted>> = {
  easy: { things: [2, 4], roomMm: [10, 40], sizeMm: [60, 160], walls: [0, 0] },
  medium: { things: [6, 10], roomMm: [4, 15], sizeMm: [60, 200], walls: [0, 1] },
  hard: { things: [11, 18], roomMm: [2, 6], sizeMm: [60, 240], walls: [1, 3] },
};

/** What keeps hot, moving and fixed things off; the planted line fits whatever is drawn. */
const KEEP_OFF_MM = { hot: [30, 60], moving: [25, 40], fixed: [6, 12] } as const;
const TRIES = 200;

/** A bay of one line, the same for the same level and seed. */
export function plantedBay(level: Level, seed: number): PlantedBay {
  const draw = chance(seed * 3 + ['easy', 'medium', 'hard'].indexOf(level));
  for (let n = 0; n < TRIES; n++) {
    const line = plantedLine(draw, [draw.between(-100, 100), draw.between(-100, 100), draw.between(300, 500)]);
    const bay = new BayWork(draw, [line]);
    if (!bay.portsStand()) continue;
    const wanted = LEVELS[level];
    const walls = draw.whole(...wanted.walls);
    for (let k = 0; k < walls; k++) bay.addWall(wanted.roomMm);
    const things = draw.whole(...wanted.things);
    for (let k = 0; k < things; k++) bay.addThing(draw.between(...wanted.sizeMm), wanted.roomMm);
    return bay.bay(`planted ${level} ${seed}`);
  }
  throw new Error('planted bay: no line was drawn whose ports leave it room');
}

/** A bay while it is filled: nothing is put in that the planted lines do not clear. */
export class BayWork {
  readonly meshes = new Map<string, { positions: Float64Array; indices: Uint32Array }>();
  private readonly draw: Chance;
  private readonly lines: readonly PlantedLine[];
  private readonly balls: readonly Ball[];
  private readonly things: BayThing[] = [];
  private readonly ports: BayThing[];
  private readonly blocksByPlace: boolean;

  /** With `blocksByPlace` the blocks behind a line's ports depend on its place alone, whatever else is planted. */
  constructor(draw: Chance, lines: readonly PlantedLine[], blocksByPlace = false) {
    this.draw = draw;
    this.blocksByPlace = blocksByPlace;
    this.lines = lines;
    this.balls = lines.flatMap((line) => line.balls);
    this.ports = lines.flatMap((line, i) => [this.portThing(line, i, 'a'), this.portThing(line, i, 'b')]);
  }

  private portThing(line: PlantedLine, i: number, side: 'a' | 'b'): BayThing {
    const { at, faces } = side === 'a' ? line.from : line.to;
    return {
      id: `${side}${i + 1}`,
      name: `Block ${side}${i + 1}`,
      class: 'fixed',
      keepOffMm: 6,
      knownToMm: PORT_KNOWN.knownToMm,
      shapes: portBlock(this.blocksByPlace ? chance(Math.round(1000 * Math.hypot(...at))) : this.draw, at, faces),
      ports: [{ id: 'p', atMm: at, faces, facingKnownDeg: PORT_KNOWN.facingKnownDeg, end: line.end }],
    };
  }

  /** Each port's block leaves room to all but what stands on it, and to that beyond its first bit. */
  portsStand(): boolean {
    return this.ports.every((thing, n) => {
      const distanceTo = leastDistance(thing.shapes.map((shape) => shapeDistance(shape, this.meshes)));
      const own = this.lines[n >> 1]!;
      const side = n % 2 === 0 ? -1 : 1;
      const at = thing.ports[0]!.atMm;
      const isNear = (ball: Ball): boolean => Math.hypot(...sub(ball.at, at)) < BLOCK_REACH_MM + ball.radiusMm;
      for (const line of this.lines) {
        const others = line.balls.filter((ball) => isNear(ball) && (line !== own || ball.beside !== side));
        if (gapToBalls(distanceTo, others) < thing.keepOffMm + PORT_ROOM_MM) return false;
      }
      // What screws in stands on the face; ball by ball it must leave it as it goes on.
      return own.balls
        .filter((ball) => ball.beside === side && Math.hypot(...sub(ball.at, at)) > ball.radiusMm + STANDS_MM)
        .every((ball) => distanceTo(ball.at) > ball.radiusMm + 1);
    });
  }

  private keepOff(cls: BayThing['class']): number {
    return Math.round(this.draw.between(KEEP_OFF_MM[cls][0], KEEP_OFF_MM[cls][1]));
  }

  private put(shapes: readonly CarShape[], cls: BayThing['class'], keepOffMm: number, id: string): void {
    this.things.push({
      id,
      name: `Thing ${id}`,
      class: cls,
      keepOffMm,
      knownToMm: PORT_KNOWN.knownToMm,
      shapes,
      ports: [],
    });
  }

  /** A thing close beside the planted hose, anywhere along it. */
  addThing(sizeMm: number, roomMm: readonly [number, number]): void {
    const { draw } = this;
    const id = `t${this.things.length + 1}`;
    const cls = draw.oneOf(['fixed', 'fixed', 'hot', 'moving'] as const);
    const keepOffMm = this.keepOff(cls);
    const shapes = drawnShapes(draw, sizeMm, this.meshes, id);
    const rod = draw.oneOf(this.lines).rod;
    const k = draw.whole(1, rod.length / 3 - 2);
    const at: Vec = [rod[3 * k]!, rod[3 * k + 1]!, rod[3 * k + 2]!];
    const along = unit(sub([rod[3 * k + 3]!, rod[3 * k + 4]!, rod[3 * k + 5]!], at));
    const near = this.balls.filter((ball) => distance(ball.at, at) < AROUND_MM);
    const by = pushedOut(shapes, this.meshes, near, at, draw.squareTo(along), keepOffMm + draw.between(...roomMm));
    if (by === null || distance(by, at) > PUSHED_MM || !this.leavesPorts(movedShapes(shapes, by)))
      this.meshes.delete(`${id}.stl`);
    else this.put(movedShapes(shapes, by), cls, keepOffMm, id);
  }

  /** A wall across the planted hose, with a window in it. */
  addWall(roomMm: readonly [number, number]): void {
    const { draw } = this;
    const rod = draw.oneOf(this.lines).rod;
    const k = draw.whole(2, rod.length / 3 - 3);
    const at: Vec = [rod[3 * k]!, rod[3 * k + 1]!, rod[3 * k + 2]!];
    const along = unit(sub([rod[3 * k + 3]!, rod[3 * k + 4]!, rod[3 * k + 5]!], at));
    const axis = ([0, 1, 2] as const).reduce((p, q) => (Math.abs(along[q]) > Math.abs(along[p]) ? q : p));
    const keepOffMm = this.keepOff('fixed');
    const shapes = wallWithWindow(draw, this.balls, at, axis, keepOffMm + draw.between(...roomMm));
    const distanceTo = leastDistance(shapes.map((shape) => shapeDistance(shape, this.meshes)));
    if (gapToBalls(distanceTo, this.balls) < keepOffMm + 1 || !this.leavesPorts(shapes)) return;
    this.put(shapes, 'fixed', keepOffMm, `w${this.things.length + 1}`);
  }

  /** Fixed shapes put where they are, whatever is planted. */
  addShapes(shapes: readonly CarShape[], keepOffMm: number): void {
    this.put(shapes, 'fixed', keepOffMm, `s${this.things.length + 1}`);
  }

  /** A port whose face is in something else would be a fault of the car. */
  private leavesPorts(shapes: readonly CarShape[]): boolean {
    const distanceTo = leastDistance(shapes.map((shape) => shapeDistance(shape, this.meshes)));
    return this.ports.every((thing) => distanceTo(thing.ports[0]!.atMm) > PORT_ROOM_MM);
  }

  bay(name: string): PlantedBay {
    const lines = this.lines.map((line, i) => ({
      id: `L${i + 1}`,
      from: `a${i + 1}.p`,
      to: `b${i + 1}.p`,
      duty: 'oil-pressure',
      dash: line.hose.dash!,
      hose: line.hose.id,
      state: 'planned',
    }));
    return {
      car: { fairlead: 1, name, parts: [...this.ports, ...this.things], lines },
      meshes: this.meshes,
      planted: this.lines,
    };
  }
}

const PORT_ROOM_MM = 3;
const STANDS_MM = 8;
/** A block behind a port and its keep-off lie within this of the port [mm]. */
const BLOCK_REACH_MM = 140;
/** Balls farther than this from where a thing is put do not matter, if it is not pushed far [mm]. */
const AROUND_MM = 700;
const PUSHED_MM = 350;
