import { addScaled, cross, dot, perpendicular, turned, unit, type Vec } from '#geometry';
import { type CarG, type FreeSurface, type NoSurface, oilSurface, pullOn } from './level.ts';
import type { LevelMesh } from './mesh-level.kernel.ts';
import { type Cover, coverOf, type Outlet, outletIn } from './outlet.ts';
import type { Tank } from './tank.ts';

/** A place of the section: along it to the right, up to the top [mm]. */
export type SectionSpot = readonly [alongMm: number, upMm: number];

/**
 * An outlet as the section shows it, seen square onto it. The surface is level along that sight, so that the bore stands to it
 * in the picture as it does in the tank, however far off the section it lies.
 */
export interface SectionOutlet {
  readonly id: string;
  /** Rim of its bore: a line where the axis lies in the section. */
  readonly rimMm: readonly SectionSpot[];
  /** How far its middle lies off the section. */
  readonly offMm: number;
  readonly cover: Cover | undefined;
}

/** A tank cut upright along the pull, so that the oil's surface is seen on edge. */
export interface TankSection {
  readonly tank: string;
  readonly g: CarG;
  readonly oilM3: number;
  readonly volumeM3: number;
  /** Direction to the right of the section, in car axes. */
  readonly right: Vec;
  /** The same in words: "rearward", "to the car's left". */
  readonly rightWords: string;
  /** Skins of the inside; holes run the other way round. */
  readonly insideMm: readonly (readonly SectionSpot[])[];
  /** Oil in it. */
  readonly oilMm: readonly (readonly SectionSpot[])[];
  /** Where the surface crosses the inside, from wall to wall. */
  readonly levelMm: readonly (readonly [SectionSpot, SectionSpot])[];
  /** Where it would cross standing still on the level. */
  readonly restMm: readonly (readonly [SectionSpot, SectionSpot])[];
  /** The pull on the oil in the section: its direction, of length one. */
  readonly pull: SectionSpot | undefined;
  readonly surface: FreeSurface | NoSurface;
  readonly outlets: readonly SectionOutlet[];
}

/**
 * The section of a tank through its middle (or where it is said) by the upright plane that holds the pull. With the pull straight
 * down it is the plane along the first outlet's axis, or along the car.
 */
export function tankSection(
  tank: Tank,
  outlets: readonly Outlet[],
  g: CarG,
  oilM3: number,
  throughMm: Vec = tank.mesh.centre,
): TankSection {
  const surface = oilSurface(tank, g, oilM3);
  const atRest = oilSurface(tank, { longitudinalG: 0, lateralG: 0, verticalG: 1 }, oilM3);
  const inside = outlets.map((outlet) => outletIn(tank, outlet));
  const right = rightOf(g, inside[0]);
  const away = cross(right, up);
  const loops = cutLoops(tank.mesh, away, throughMm, right);
  // The surface is level across the section: up . away = 0, so that its line does not depend on where the cut is made.
  const clip: Line | undefined =
    surface.kind === 'surface' ? [dot(surface.up, right), surface.up[2], surface.heightMm] : undefined;
  return {
    tank: tank.name,
    g,
    oilM3,
    volumeM3: tank.volumeM3,
    right,
    rightWords: wordsOf(right),
    insideMm: loops,
    oilMm: clip === undefined ? [] : loops.map((loop) => clippedBelow(loop, clip)).filter((loop) => loop.length > 2),
    levelMm: clip === undefined ? [] : crossings(loops, clip),
    restMm: atRest.kind === 'none' ? [] : crossings(loops, [0, 1, atRest.heightMm]),
    pull: clip === undefined ? undefined : [-clip[0], -clip[1]],
    surface,
    outlets: inside.map((outlet) => ({
      id: outlet.id,
      rimMm: rimOf(outlet, right),
      offMm: Math.abs(dot(away, outlet.atMm) - dot(away, throughMm)),
      cover: surface.kind === 'surface' ? coverOf(outlet, surface) : undefined,
    })),
  };
}

const up: Vec = [0, 0, 1];
/** Of a length of one, below which a direction is upright [-]. */
const UPRIGHT = 1e-9;

function rightOf(g: CarG, outlet: Outlet | undefined): Vec {
  const [x, y] = pullOn(g);
  if (Math.hypot(x, y) > UPRIGHT) return unit([Math.abs(x) < UPRIGHT ? 0 : x, Math.abs(y) < UPRIGHT ? 0 : y, 0]);
  const axis = outlet?.axis ?? [1, 0, 0];
  return Math.hypot(axis[0], axis[1]) > UPRIGHT ? unit([axis[0], axis[1], 0]) : [1, 0, 0];
}

/** Eight directions of the plan are enough to find one's way in a picture. */
function wordsOf([x, y]: Vec): string {
  const words = [
    'rearward',
    "rearward and to the car's right",
    "to the car's right",
    "forward and to the car's right",
    'forward',
    "forward and to the car's left",
    "to the car's left",
    "rearward and to the car's left",
  ];
  return words[Math.round((Math.atan2(y, x) / Math.PI) * 4 + 8) % 8]!;
}

/** Points of a rim: four times a whole number, so that its highest and lowest are among them where the axis lies in the section. */
const RIM_POINTS = 32;

function rimOf(outlet: Outlet, right: Vec): readonly SectionSpot[] {
  const start = perpendicular(outlet.axis);
  return Array.from({ length: RIM_POINTS }, (_, i) => {
    const spoke = turned(start, outlet.axis, (2 * Math.PI * i) / RIM_POINTS);
    const p = addScaled(outlet.atMm, spoke, outlet.boreMm / 2);
    return [dot(p, right), p[2]];
  });
}

/** Closed outlines where the plane `away . p = away . through` cuts the mesh, solid on their left. */
function cutLoops(mesh: LevelMesh, away: Vec, through: Vec, right: Vec): SectionSpot[][] {
  const { positions: p, indices, centre } = mesh;
  const inCar = (corner: number): Vec => [
    p[corner * 3]! + centre[0],
    p[corner * 3 + 1]! + centre[1],
    p[corner * 3 + 2]! + centre[2],
  ];
  const level = dot(away, through);
  const sides = Float64Array.from({ length: p.length / 3 }, (_, i) => dot(away, inCar(i)) - level);
  const next = new Map<string, string[]>();
  const spots = new Map<string, SectionSpot>();
  const spotOn = (a: number, b: number): string => {
    const [i, j] = a < b ? [a, b] : [b, a];
    const key = `${i} ${j}`;
    if (!spots.has(key)) {
      const t = sides[i]! / (sides[i]! - sides[j]!);
      const [q, r] = [inCar(i), inCar(j)];
      const s: SectionSpot = [dot(q, right), q[2]];
      spots.set(key, [s[0] + (dot(r, right) - s[0]) * t, s[1] + (r[2] - s[1]) * t]);
    }
    return key;
  };
  for (let i = 0; i < indices.length; i += 3) {
    const corners = [indices[i]!, indices[i + 1]!, indices[i + 2]!];
    let from: string | undefined;
    let to: string | undefined;
    corners.forEach((a, k) => {
      const b = corners[(k + 1) % 3]!;
      // A corner on the plane counts to its far side, so that every outline closes.
      if (sides[a]! < 0 && sides[b]! >= 0) to = spotOn(a, b);
      if (sides[a]! >= 0 && sides[b]! < 0) from = spotOn(a, b);
    });
    if (from !== undefined && to !== undefined) next.set(from, [...(next.get(from) ?? []), to]);
  }
  return chained(next, spots);
}

function chained(next: Map<string, string[]>, spots: ReadonlyMap<string, SectionSpot>): SectionSpot[][] {
  const loops: SectionSpot[][] = [];
  for (const [start, ways] of next) {
    while (ways.length > 0) {
      const loop: SectionSpot[] = [];
      let at: string | undefined = start;
      while (at !== undefined) {
        const spot = spots.get(at)!;
        const last = loop.at(-1);
        if (last === undefined || Math.hypot(spot[0] - last[0], spot[1] - last[1]) > SAME_MM) loop.push(spot);
        at = next.get(at)?.pop();
      }
      if (loop.length > 2) loops.push(loop);
    }
  }
  return loops;
}

/** Spots of an outline nearer than this are one [mm]. */
const SAME_MM = 1e-9;

/** A line of the section: points s with s . (a, b) = c. */
type Line = readonly [a: number, b: number, c: number];
const over = (line: Line, s: SectionSpot): number => line[0] * s[0] + line[1] * s[1] - line[2];
const between = (line: Line, s: SectionSpot, t: SectionSpot): SectionSpot => {
  const share = over(line, s) / (over(line, s) - over(line, t));
  return [s[0] + (t[0] - s[0]) * share, s[1] + (t[1] - s[1]) * share];
};

/** The part of an outline that is not above a line. Parts joined only along the line are joined by it without width. */
function clippedBelow(loop: readonly SectionSpot[], line: Line): SectionSpot[] {
  return loop.flatMap((s, i) => {
    const t = loop[(i + 1) % loop.length]!;
    const [isLow, isNextLow] = [over(line, s) <= 0, over(line, t) <= 0];
    return [...(isLow ? [s] : []), ...(isLow !== isNextLow ? [between(line, s, t)] : [])];
  });
}

/** The stretches of a line inside the outlines, in order along it. */
function crossings(loops: readonly (readonly SectionSpot[])[], line: Line): (readonly [SectionSpot, SectionSpot])[] {
  const along = (s: SectionSpot): number => s[0] * line[1] - s[1] * line[0];
  const found = loops
    .flatMap((loop) =>
      loop.flatMap((s, i) => {
        const t = loop[(i + 1) % loop.length]!;
        return over(line, s) <= 0 !== over(line, t) <= 0 ? [between(line, s, t)] : [];
      }),
    )
    .sort((s, t) => along(s) - along(t));
  const pairs: (readonly [SectionSpot, SectionSpot])[] = [];
  for (let i = 0; i + 1 < found.length; i += 2) pairs.push([found[i]!, found[i + 1]!]);
  return pairs;
}

/** Area of a section's outlines [mm2]: holes, running the other way, are taken off. */
export const sectionArea = (loops: readonly (readonly SectionSpot[])[]): number =>
  Math.abs(
    loops.reduce(
      (sum, loop) => sum + loop.reduce((part, s, i) => part + cross2(s, loop[(i + 1) % loop.length]!), 0) / 2,
      0,
    ),
  );
const cross2 = (s: SectionSpot, t: SectionSpot): number => s[0] * t[1] - s[1] * t[0];
