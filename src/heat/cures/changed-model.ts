import { box, placing, type Vec } from '#geometry';
import { finishOf, type FinishRow, heatCover, type SleeveRow } from '#standards';
import { exchangeFactors } from '../exchange/exchange-factors.ts';
import { partPatch } from '../exchange/part-patch.ts';
import {
  type HeatModel,
  type LaidWay,
  lineInModel,
  type ModelLine,
  type ModelPart,
  type ModelRow,
  RAY_SEED,
  rowsOf,
} from '../car/heat-model.ts';
import { type LineWall, withSleeve } from '../car/line-wall.ts';

/** Rays of each patch of a line that is looked at anew. */
const RAYS = 256;

/** Rows of others without what they say of one surface: it has moved, or is covered otherwise; its own rows say it all. */
const withoutSurface = (rows: readonly ModelRow[], surface: number): ModelRow[] =>
  rows.map((row) => {
    if (!row.to.includes(surface)) return row;
    const kept = [...row.to.keys()].filter((k) => row.to[k] !== surface);
    return {
      to: Uint16Array.from(kept, (k) => row.to[k]!),
      share: Float64Array.from(kept, (k) => row.share[k]!),
      error95: Float64Array.from(kept, (k) => row.error95[k]!),
    };
  });

/** The same car with one line lying otherwise: its own rays are shot anew, what others see of it comes from them. */
export function withLine(model: HeatModel, i: number, way: LaidWay): HeatModel {
  const old = model.lines[i]!;
  const made = lineInModel(old.line, way, model.shelf, old.surface, old.firstPatch);
  const surfaces = model.surfaces.map((row, s) => (s === old.surface ? made.heats : row));
  const before = model.rows.slice(0, old.firstPatch);
  const behind = model.rows.slice(old.firstPatch + old.patches.length);
  const shot = rowsOf(exchangeFactors({ surfaces, patches: made.line.patches, raysPerPatch: RAYS, seed: RAY_SEED }));
  const shift = made.line.patches.length - old.patches.length;
  return {
    ...model,
    surfaces,
    patches: [
      ...model.patches.slice(0, old.firstPatch),
      ...made.line.patches,
      ...model.patches.slice(old.firstPatch + old.patches.length),
    ],
    rows: [...withoutSurface(before, old.surface), ...shot, ...withoutSurface(behind, old.surface)],
    parts: model.parts.map((part) => (part.patch > old.firstPatch ? { ...part, patch: part.patch + shift } : part)),
    lines: model.lines.map((line, k): ModelLine => {
      if (k === i) return made.line;
      return line.firstPatch > old.firstPatch ? { ...line, firstPatch: line.firstPatch + shift } : line;
    }),
  };
}

/** The same car: what others see of a line comes from the line's own rays. */
export function withOwnRays(model: HeatModel, i: number): HeatModel {
  const { surface, firstPatch, patches } = model.lines[i]!;
  const isOwn = (p: number): boolean => p >= firstPatch && p < firstPatch + patches.length;
  return {
    ...model,
    rows: withoutSurface(model.rows, surface).map((row, p) => (isOwn(p) ? model.rows[p]! : row)),
  };
}

/** The same with a sleeve over one line's hoses and tubes, in place of any that it has. */
export function withLineSleeve(
  model: HeatModel,
  i: number,
  sleeve: SleeveRow,
  finish = finishOf(sleeve.finish),
): HeatModel {
  const old = model.lines[i]!;
  const walls = old.walls.map((wall): LineWall => {
    const made = withSleeve(bare(wall), sleeve);
    return made.sleeve === undefined ? made : { ...made, finish };
  });
  const patches = old.patches.map((patch) => {
    const [was, is] = [old.walls[patch.body]!, walls[patch.body]!];
    return { ...patch, emissivity: is.finish.emissivity, areaM2: (patch.areaM2 * is.outsideMm) / was.outsideMm };
  });
  return {
    ...withOwnRays(model, i),
    patches: model.patches.map((patch, p) => patches[p - old.firstPatch] ?? patch),
    lines: model.lines.map((line, k) => (k === i ? { ...old, walls, patches } : line)),
  };
}

const bare = (wall: LineWall): LineWall => {
  if (wall.sleeve === undefined) return wall;
  const { sleeve: _sleeve, ...rest } = wall;
  return { ...rest, outsideMm: wall.odMm, layers: wall.layers.slice(0, -1), finish: wall.bareFinish ?? wall.finish };
};

/** The same with a blanket over some parts: what they shine with changes, and so what others take from them. */
export function withBlankets(model: HeatModel, covered: ReadonlySet<string>): HeatModel {
  const usual = heatCover('blanket');
  const finish = finishOf(usual.finish);
  const dims = new Map<number, number>();
  const parts = model.parts.map((row) => {
    if (!covered.has(row.part.id) || row.cover !== null) return row;
    dims.set(row.surface, finish.emissivity / row.finish.emissivity);
    return { ...row, finish, cover: { ...usual, airGapMm: 0, finish } };
  });
  return {
    ...model,
    parts,
    surfaces: model.surfaces.map((row, s) => (dims.has(s) ? { ...row, emissivity: finish.emissivity } : row)),
    patches: model.patches.map((patch) =>
      dims.has(patch.surface) ? { ...patch, emissivity: finish.emissivity } : patch,
    ),
    rows: model.rows.map((row) => ({
      ...row,
      share: row.share.map((share, k) => share * (dims.get(row.to[k]!) ?? 1)),
    })),
  };
}

/** Length over which a moved stretch comes back to where it lay, either side [mm]. */
const BLEND_MM = 160;

/** A way with a stretch of it moved. */
export interface MovedWay {
  readonly way: LaidWay;
  /** How much of the shift the place itself takes part in: near an end it cannot all [-]. */
  readonly share: number;
  /** What is moved is hard tube. */
  readonly isTube: boolean;
}

/** A way whose stretch about a place, or as near to it as the ends let, is moved; its ends stay. Null: it is too short for that. */
export function movedWay(way: LaidWay, alongMm: number, shift: Vec): MovedWay | null {
  const lengths = way.bodies.map(({ pathMm }) => lengthOf(pathMm));
  const whole = lengths.reduce((sum, length) => sum + length, 0);
  const [first, last] = [endOf(way, lengths, 0), whole - endOf(way, lengths, 1)];
  const least = BLEND_MM / 3;
  if (last - first < 2 * least) return null;
  const middle = Math.max(first + least, Math.min(last - least, alongMm));
  const room = Math.min(BLEND_MM, middle - first, last - middle);
  const shareAt = (along: number): number => {
    const off = Math.abs(along - middle) / room;
    return off >= 1 ? 0 : (1 + Math.cos(Math.PI * off)) / 2;
  };
  let along = 0;
  let isTube = false;
  const bodies = way.bodies.map((body, k) => {
    if (body.part === 'tube' && along <= middle && middle <= along + lengths[k]!) isTube = true;
    let before: Vec | undefined;
    const pathMm = body.pathMm.map((p): Vec => {
      if (before !== undefined) along += Math.hypot(p[0] - before[0], p[1] - before[1], p[2] - before[2]);
      before = p;
      const share = shareAt(along);
      return [p[0] + share * shift[0], p[1] + share * shift[1], p[2] + share * shift[2]];
    });
    return { ...body, pathMm };
  });
  return { way: { ...way, bodies }, share: shareAt(alongMm), isTube };
}

/** How far fittings reach in from an end: they stay where they are [mm]. */
function endOf({ bodies }: Pick<LaidWay, 'bodies'>, lengths: readonly number[], end: 0 | 1): number {
  let sum = 0;
  for (let k = 0; k < bodies.length; k++) {
    const at = end === 0 ? k : bodies.length - 1 - k;
    if (bodies[at]!.part === 'hose' || bodies[at]!.part === 'tube') break;
    sum += lengths[at]!;
  }
  return sum;
}

const lengthOf = (path: readonly Vec[]): number =>
  path.slice(1).reduce((sum, p, k) => sum + Math.hypot(...p.map((x, axis) => x - path[k]![axis]!)), 0);

/** A plate as a part of the car: its box about its own middle, turned, then moved. */
export interface PlateShape {
  readonly minMm: Vec;
  readonly maxMm: Vec;
  readonly turnDeg: Vec;
  readonly atMm: Vec;
}

/** Rays of a plate itself. */
const PLATE_RAYS = 1024;

/** The same with a plate in it: what the line sees is shot anew, and what the plate sees; others see it as it sees them. */
export function withPlate(model: HeatModel, i: number, plate: PlateShape, finish: FinishRow, grams: number): HeatModel {
  const motion = placing(plate.turnDeg, plate.atMm);
  const flat = box(plate.minMm, plate.maxMm);
  const solid = motion === undefined ? flat : flat.moved(motion);
  const surface = model.surfaces.length;
  const surfaces = [
    ...model.surfaces,
    { id: PLATE_ID, kind: 'part' as const, solids: [solid], emissivity: finish.emissivity },
  ];
  const patch = partPatch(surface, finish.emissivity, [solid]);
  const shot = rowsOf(exchangeFactors({ surfaces, patches: [patch], raysPerPatch: PLATE_RAYS, seed: RAY_SEED }));
  const part: ModelPart = {
    part: {
      id: PLATE_ID,
      name: 'the shield',
      class: 'fixed',
      solids: [solid],
      moverId: null,
      knownToMm: 1,
      bounds: solid.bounds,
      crossable: [],
      joinedTo: [],
      part: { id: PLATE_ID, class: 'fixed', shapes: [], ports: [], massKg: grams / 1000 },
    },
    surface,
    patch: model.patches.length,
    finish,
    cover: null,
    openM2: patch.areaM2,
  };
  const moved = {
    ...model,
    surfaces,
    patches: [...model.patches, patch],
    // What lies outside the car is named by the number behind the last surface.
    rows: [
      ...model.rows.map((row) => ({ ...row, to: row.to.map((to) => (to === surface ? surface + 1 : to)) })),
      ...shot,
    ],
    parts: [...model.parts, part],
  };
  return withLine(moved, i, model.lines[i]!.way);
}

const PLATE_ID = 'shield-plate';
