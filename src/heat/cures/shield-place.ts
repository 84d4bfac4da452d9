import {
  addScaled,
  distanceToBounds,
  dot,
  firstRayHit,
  norm,
  RAY_HIT_WORDS,
  rayScene,
  scale,
  type Solid,
  sub,
  unit,
  type Vec,
} from '#geometry';
import type { ExchangeAsk } from '../exchange/exchange-factors.ts';
import type { LinePatch } from '../exchange/line-patches.ts';
import { cosineWay, patchPoint, POINT_WORDS } from '../exchange/patch-point.kernel.ts';
import type { HeatSurface } from '../exchange/patch.ts';
import { reversedSobol, scrambled, SOBOL_DIMENSIONS, stirred } from '../exchange/sobol.kernel.ts';
import { exchangeAgain, type TracedExchange, tracedExchange } from '../exchange/traced-exchange.ts';
import { type FieldRectangle, smallestFields } from './free-fields.ts';
import {
  isClear,
  type Plate,
  plateFacing,
  plateFront,
  platePatches,
  type PlateShape,
  plateShape,
  plateSurface,
} from './plate.ts';
import { radiationTaken, shieldTemperature } from './shield-balance.ts';

/** What a shield is to be placed for. */
export interface ShieldPlaceAsk {
  readonly surfaces: readonly HeatSurface[];
  /** The line's worst stretch: all sectors of its segments. */
  readonly stretch: readonly LinePatch[];
  /** Temperature of each patch of the stretch as it is now [K]. */
  readonly stretchK: ArrayLike<number>;
  /** Surfaces whose view the shield is to cut, the hot ones. */
  readonly sources: readonly number[];
  /** Temperature of each surface in the case, the surroundings last [K]. */
  readonly temperatures: ArrayLike<number>;
  readonly airK: number;
  /** Heat transfer between plate and air, each face [W/(m2 K)]. */
  readonly airWPerM2K: number;
  /** Degrees of the stretch for a watt less of radiation [K/W]. */
  readonly kelvinPerWatt: number;
  readonly plate: {
    readonly thicknessMm: number;
    readonly densityKgPerM3: number;
    readonly emissivityToSource: number;
    readonly emissivityToLine: number;
  };
  /** Least air between the plate and the source, and the line [mm]; at least 10, as a rule 12. */
  readonly airGapMm: number;
  /** Least gap to every other surface, by number; absent: 3 mm [mm]. */
  readonly keepMm?: ArrayLike<number>;
  /** Where moving things come, with the gap that they keep. */
  readonly swept?: readonly { readonly solids: readonly Solid[]; readonly mm: number }[];
  readonly raysPerPatch: number;
  readonly seed: number;
  readonly watch?: (done: number, total: number) => boolean;
}

/** A plate that has room, and what it gives. */
export interface ShieldPlace extends PlateShape {
  readonly thicknessMm: number;
  readonly areaMm2: number;
  readonly grams: number;
  /** The plate's own temperature [K]. */
  readonly plateK: number;
  /** Radiation that the stretch takes up, net, without the plate and with it [W]. */
  readonly beforeW: number;
  readonly afterW: number;
  readonly gainK: number;
  readonly kelvinPerGram: number;
}

/** Least gap to what is neither source nor line nor named [mm]: room to fix it. */
const USUAL_GAP_MM = 3;
/** Rays of each patch that tell where the sources are seen. */
const LOOKS = 64;
/** Shares of the rays to the sources that a plate is sized for. */
const COVERED = [1, 0.98, 0.85, 0.6, 0.35];
/** Where it stands between the line and the source, over the way that is free. */
const STANDS = [0, 0.33, 0.67, 1];
/** Of the heights from which rays come, and at which they end, what lies outside this share is left to the look for room. */
const MIDDLE_SHARE = 0.15;
/** Fields a side that a plane is looked through for room in. */
const FIELDS = 8;
/** Plates are no smaller [mm]. */
const LEAST_MM = 15;
/** Plates that gain less than this share of the most come after the others, however light: half a cure is none. */
const WORTH = 0.6;
/** Beyond the rays it is to cut [mm]. */
const OVERLAP_MM = 5;

/**
 * Plates that cut the view of a line's worst stretch to the hot parts: first those that gain about as much as any, by degrees a gram; none
 * where nothing has room. Each is judged by rays with the plate in the scene at the temperature that its own balance gives; the temperatures of all
 * else stay what they were.
 */
export function shieldPlaces(ask: ShieldPlaceAsk): readonly ShieldPlace[] {
  const sights = sightsOf(ask);
  if (sights.length === 0) return [];
  const before = tracedExchange(exchangeAsk(ask, ask.surfaces, []));
  const beforeW = radiationTaken(ask.stretch, before.exchange, 0, (p) => ask.stretchK[p]!, ask.temperatures);
  const plates = candidates(ask, sights);
  const places: ShieldPlace[] = [];
  for (const [i, plate] of plates.entries()) {
    places.push(judged(ask, before, beforeW, plate));
    if (ask.watch?.(i + 1, plates.length) === false) break;
  }
  const most = Math.max(0, ...places.map(({ gainK }) => gainK));
  const isWorth = ({ gainK }: ShieldPlace): number => (gainK >= WORTH * most ? 1 : 0);
  return places
    .filter(({ gainK }) => gainK > 0)
    .sort((a, b) => isWorth(b) - isWorth(a) || b.kelvinPerGram - a.kelvinPerGram || b.gainK - a.gainK);
}

function exchangeAsk(ask: ShieldPlaceAsk, surfaces: readonly HeatSurface[], more: ExchangeAsk['patches']): ExchangeAsk {
  return { surfaces, patches: [...ask.stretch, ...more], raysPerPatch: ask.raysPerPatch, seed: ask.seed };
}

/** A ray from the stretch that meets a source. */
interface Sight {
  readonly from: Vec;
  readonly to: Vec;
}

function sightsOf(ask: ShieldPlaceAsk): readonly Sight[] {
  const scene = rayScene(ask.surfaces);
  const sobol = reversedSobol(LOOKS);
  const isSource = new Set(ask.sources);
  const [point, way, hit] = [new Float64Array(POINT_WORDS), new Float64Array(3), new Float64Array(RAY_HIT_WORDS)];
  const sights: Sight[] = [];
  ask.stretch.forEach(({ pieces }, p) => {
    const base = stirred(ask.seed, p);
    for (let n = 0; n < LOOKS; n++) {
      const number = (d: number): number => scrambled(sobol[n * SOBOL_DIMENSIONS + d]!, stirred(base, d));
      patchPoint(pieces, number(0), number(1), point);
      cosineWay(point[3]!, point[4]!, point[5]!, number(2), number(3), way);
      const from = [0, 1, 2].map((i) => point[i]! + 0.02 * point[i + 3]!) as unknown as Vec;
      const item = firstRayHit(scene, ...from, way[0]!, way[1]!, way[2]!, Infinity, hit);
      if (isSource.has(item)) sights.push({ from, to: addScaled(from, [way[0]!, way[1]!, way[2]!], hit[0]!) });
    }
  });
  return sights;
}

const meanOf = (points: readonly Vec[]): Vec =>
  points.reduce<Vec>((m, p) => addScaled(m, p, 1 / points.length), [0, 0, 0]);

/** Square to the mean sight, and square to it and the line: between line and source. */
function candidates(ask: ShieldPlaceAsk, sights: readonly Sight[]): readonly Plate[] {
  const [from, to] = [meanOf(sights.map((s) => s.from)), meanOf(sights.map((s) => s.to))];
  const ends = [ask.stretch[0]!.middleMm, ask.stretch.at(-1)!.middleMm] as const;
  const run = sub(ends[1], ends[0]);
  const along: Vec = norm(run) > 1e-6 ? unit(run) : [1, 0, 0];
  const sight = unit(sub(to, from));
  const square = addScaled(sight, along, -dot(sight, along));
  const fronts = norm(square) > 0.2 ? [sight, unit(square)] : [sight];
  const gap = ask.airGapMm + ask.plate.thicknessMm / 2;
  return fronts.flatMap((front) => {
    const sorted = (which: 'from' | 'to') => sights.map((s) => dot(s[which], front)).sort((p, q) => p - q);
    const cut = Math.floor(MIDDLE_SHARE * sights.length);
    const nearest = sorted('from')[sights.length - 1 - cut]! + gap;
    const furthest = sorted('to')[cut]! - gap;
    const heights =
      furthest > nearest ? STANDS.map((share) => nearest + share * (furthest - nearest)) : [(nearest + furthest) / 2];
    return heights.flatMap((height) => withRoom(ask, sights, plateFacing(scale(front, height), front, along, 1, 1)));
  });
}

/** Plates in one plane that have room, each the smallest for a share of the sights that go through it. */
function withRoom(ask: ShieldPlaceAsk, sights: readonly Sight[], plane: Plate): readonly Plate[] {
  const front = plateFront(plane);
  const height = dot(plane.middleMm, front);
  const crossings = sights.flatMap(({ from, to }) => {
    const [a, b] = [dot(from, front), dot(to, front)];
    const share = (height - a) / (b - a);
    return share > 0 && share < 1 ? [addScaled(from, sub(to, from), share)] : [];
  });
  if (crossings.length === 0) return [];
  const side = (axis: Vec) => {
    const values = crossings.map((p) => dot(p, axis));
    const [low, high] = [Math.min(...values) - OVERLAP_MM, Math.max(...values) + OVERLAP_MM];
    return {
      low,
      step: (high - low) / FIELDS,
      places: values.map((v) => Math.floor(((v - low) / (high - low)) * FIELDS)),
    };
  };
  const [u, v] = [side(plane.along), side(plane.across)];
  const rectangle = ({ left, right, bottom, top }: FieldRectangle): Plate => {
    const x = u.low + ((left + right) / 2) * u.step;
    const y = v.low + ((bottom + top) / 2) * v.step;
    const middleMm = addScaled(addScaled(scale(front, height), plane.along, x), plane.across, y);
    return { ...plane, middleMm, longMm: wholeMm((right - left) * u.step), wideMm: wholeMm((top - bottom) * v.step) };
  };
  const isFree = roomAbout(ask, rectangle({ left: 0, right: FIELDS, bottom: 0, top: FIELDS }));
  const free = Array.from({ length: FIELDS ** 2 }, (_, k) => {
    const [left, bottom] = [k % FIELDS, Math.floor(k / FIELDS)];
    return isFree(rectangle({ left, right: left + 1, bottom, top: bottom + 1 }));
  });
  const seen = new Float64Array(FIELDS ** 2);
  u.places.forEach((column, i) => seen[v.places[i]! * FIELDS + column]!++);
  return smallestFields(free, seen, FIELDS, COVERED)
    .map(rectangle)
    .filter(({ longMm, wideMm }) => Math.min(longMm, wideMm) >= LEAST_MM);
}

/** Sides are cut to whole millimetres, downwards: the room stays. */
const wholeMm = (mm: number): number => (mm > 2 ? Math.floor(mm) : mm);

/** Tells of a plate in a plane whether it keeps off all that it must. */
function roomAbout(ask: ShieldPlaceAsk, whole: Plate): (plate: Plate) => boolean {
  const half = ask.plate.thicknessMm / 2;
  const keepsAir = new Set([...ask.sources, ask.stretch[0]!.surface]);
  const reach = Math.hypot(whole.longMm, whole.wideMm) / 2;
  const near: { readonly solid: Solid; readonly mm: number }[] = [];
  const keep = (solids: readonly Solid[], mm: number): void => {
    for (const solid of solids)
      if (distanceToBounds(solid.bounds, ...whole.middleMm) < mm + reach) near.push({ solid, mm });
  };
  ask.surfaces.forEach(({ solids }, i) => {
    const mm = Math.max(ask.keepMm?.[i] ?? USUAL_GAP_MM, keepsAir.has(i) ? ask.airGapMm : 0);
    keep(solids, mm + half);
  });
  for (const { solids, mm } of ask.swept ?? []) keep(solids, mm + half);
  return (plate) => near.every(({ solid, mm }) => isClear(plate, solid, mm));
}

function judged(ask: ShieldPlaceAsk, before: TracedExchange, beforeW: number, plate: Plate): ShieldPlace {
  const { emissivityToSource: front, emissivityToLine: back, thicknessMm, densityKgPerM3 } = ask.plate;
  const surface = ask.surfaces.length;
  const surfaces = [...ask.surfaces, plateSurface('shield being placed', plate, front, back)];
  const faces = platePatches(surface, plate, front, back);
  const { exchange: rows } = exchangeAgain(before, exchangeAsk(ask, surfaces, faces));
  const temperatures = new Float64Array(surface + 2);
  for (let i = 0; i < surface; i++) temperatures[i] = ask.temperatures[i]!;
  temperatures[surface + 1] = ask.temperatures[surface]!;
  const { airK, airWPerM2K, stretch } = ask;
  const plateK = shieldTemperature({ faces, rows, first: stretch.length, surface, temperatures, airK, airWPerM2K });
  temperatures[surface] = plateK;
  const afterW = radiationTaken(stretch, rows, 0, (p) => ask.stretchK[p]!, temperatures);
  const areaMm2 = plate.longMm * plate.wideMm;
  const grams = (areaMm2 * thicknessMm * densityKgPerM3) / 1e6;
  const gainK = ask.kelvinPerWatt * (beforeW - afterW);
  const shape = plateShape(plate, thicknessMm);
  return { ...shape, thicknessMm, areaMm2, grams, plateK, beforeW, afterW, gainK, kelvinPerGram: gainK / grams };
}
