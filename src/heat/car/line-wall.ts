import type { Line } from '#car';
import type { WayBody } from '#lines';
import {
  type Catalogue,
  type FinishId,
  type FinishRow,
  finishOf,
  findSleeve,
  type HeatSolidId,
  heatSolid,
  type HeatSolidRow,
  type HoseRow,
  type SleeveRow,
} from '#standards';

/** One layer of a line's wall, from inside out. */
export interface WallLayer {
  readonly innerMm: number;
  readonly outerMm: number;
  readonly conductivityWPerMK: number;
  readonly heatCapacityJPerKgK: number;
  readonly densityKgM3: number;
}

/** What one body of a line is made of. Radii in mm. */
export interface LineWall {
  readonly kind: 'hose' | 'tube' | 'end';
  readonly name: string;
  readonly boreMm: number;
  /** Outside of the hose, tube or fitting itself, and of what is pulled over it. */
  readonly odMm: number;
  readonly outsideMm: number;
  readonly layers: readonly WallLayer[];
  readonly isMetal: boolean;
  readonly finish: FinishRow;
  readonly hose?: HoseRow;
  readonly sleeve?: SleeveRow;
  /** Of what is under the sleeve. */
  readonly bareFinish?: FinishRow;
}

/** What the walls of a line's bodies are, one for each body. */
export function lineWalls(line: Line, bodies: readonly WayBody[], shelf: Catalogue): readonly LineWall[] {
  const boreMm = lineBoreMm(line, shelf);
  return bodies.map((body) => {
    const hose = body.part.startsWith('hose') ? shelf.hoses.find(({ id }) => id === body.row) : undefined;
    if (hose !== undefined && body.part !== 'hose-end') return hoseWall(line, body, hose);
    if (body.part === 'tube') return tubeWall(line, body);
    return fittingWall(body, boreMm);
  });
}

/** The hoses' own bore; of a line of tube alone its tube's; else by eye from the line [mm]. */
export function lineBoreMm(line: Line, shelf: Catalogue): number {
  for (const { hose, tube } of line.pieces) {
    const row = hose === undefined ? undefined : shelf.hoses.find(({ id }) => id === hose);
    if (row !== undefined) return row.boreMm;
    if (tube !== undefined) return tube.odMm - 2 * tube.wallMm;
  }
  return line.boreMm ?? (line.dash ?? 8) * DASH_MM * BORE_SHARE;
}

const DASH_MM = 25.4 / 16;
/** Bores are some tenth under their dash. */
const BORE_SHARE = 0.9;

const layer = (innerMm: number, outerMm: number, solid: HeatSolidRow): WallLayer => ({
  innerMm,
  outerMm,
  conductivityWPerMK: solid.conductivityWPerMK,
  heatCapacityJPerKgK: solid.heatCapacityJPerKgK,
  densityKgM3: solid.densityKgM3,
});

/** Liner and outside of a hose, by its family, else by the words of its name. */
function hoseStuff({ family, name }: HoseRow): { readonly solid: HeatSolidId; readonly finish: FinishId } {
  const words = `${family} ${name}`;
  const solid = /ptfe/i.test(words) ? 'ptfe' : /silicone/i.test(words) ? 'silicone' : 'epdm';
  const isTextile = /aramid|textile|nylon/i.test(name);
  const isBraided = /steel|stainless|braid/i.test(words) && !/silicone/i.test(words);
  return { solid, finish: isTextile ? 'textile' : isBraided ? 'steel-braid' : 'rubber' };
}

function hoseWall(line: Line, body: WayBody, hose: HoseRow): LineWall {
  const { solid, finish } = hoseStuff(hose);
  const boreMm = Math.min(hose.boreMm, body.odMm - 1);
  const under = layer(boreMm / 2, body.odMm / 2, heatSolid(solid));
  return sleeved(line, {
    kind: 'hose',
    name: hose.name,
    boreMm,
    odMm: body.odMm,
    outsideMm: body.odMm,
    layers: [under],
    isMetal: false,
    finish: finishOf(finish),
    hose,
  });
}

function tubeWall(line: Line, body: WayBody): LineWall {
  const piece = line.pieces.find(({ tube }) => tube !== undefined && Math.abs(tube.odMm - body.odMm) < 1)?.tube;
  const material = piece?.material ?? 'aluminium';
  const [solid, finish] = tubeStuff(material);
  const wallMm = piece?.wallMm ?? 1;
  return sleeved(line, {
    kind: 'tube',
    name: `${material} tube ${body.odMm} x ${wallMm} mm`,
    boreMm: body.odMm - 2 * wallMm,
    odMm: body.odMm,
    outsideMm: body.odMm,
    layers: [layer(body.odMm / 2 - wallMm, body.odMm / 2, heatSolid(solid))],
    isMetal: true,
    finish: finishOf(finish),
  });
}

const tubeStuff = (material: string): readonly [HeatSolidId, FinishId] => {
  if (/stainless|304|316|321/i.test(material)) return ['stainless-304', 'stainless-sheet'];
  return /steel|cunifer|copper/i.test(material) ? ['steel', 'galvanised'] : ['aluminium', 'aluminium-sheet'];
};

const fittingWall = (body: WayBody, lineBoreMm: number): LineWall => {
  const boreMm = Math.min(lineBoreMm, body.odMm - 2);
  return {
    kind: 'end',
    name: body.row ?? body.part,
    boreMm,
    odMm: body.odMm,
    outsideMm: body.odMm,
    layers: [layer(boreMm / 2, body.odMm / 2, heatSolid('aluminium'))],
    isMetal: true,
    finish: finishOf('anodised'),
  };
};

/** The same with the line's sleeve over it, where it has one that is known. */
function sleeved(line: Line, wall: LineWall): LineWall {
  const sleeve = line.sleeve === undefined ? undefined : findSleeve(line.sleeve);
  return sleeve === undefined ? wall : withSleeve(wall, sleeve);
}

/** A wall with a sleeve over it. */
export function withSleeve(wall: LineWall, sleeve: SleeveRow): LineWall {
  if (wall.kind === 'end' || wall.sleeve !== undefined) return wall;
  const outsideMm = wall.odMm + 2 * sleeve.wallMm;
  const over: WallLayer = {
    innerMm: wall.odMm / 2,
    outerMm: outsideMm / 2,
    conductivityWPerMK: sleeve.conductivityWPerMK,
    heatCapacityJPerKgK: SLEEVE_J_PER_KG_K,
    densityKgM3: sleeve.densityKgM3,
  };
  return {
    ...wall,
    outsideMm,
    layers: [...wall.layers, over],
    finish: finishOf(sleeve.finish),
    bareFinish: wall.finish,
    sleeve,
  };
}

/** Glass and silicone alike. Recalled. */
const SLEEVE_J_PER_KG_K = 1000;

/** Heat through these layers from inside out, for a metre of line [m K/W]. */
export const wallResistance = (layers: readonly WallLayer[]): number =>
  layers.reduce(
    (sum, { innerMm, outerMm, conductivityWPerMK }) =>
      sum + Math.log(outerMm / innerMm) / (2 * Math.PI * conductivityWPerMK),
    0,
  );

/** What a metre of wall stores [J/(m K)]. */
export const wallCapacity = (layers: readonly WallLayer[]): number =>
  layers.reduce(
    (sum, { innerMm, outerMm, heatCapacityJPerKgK, densityKgM3 }) =>
      sum + ((Math.PI * (outerMm ** 2 - innerMm ** 2)) / 1e6) * heatCapacityJPerKgK * densityKgM3,
    0,
  );

/** Conductivity times cross-section [W m/K], for heat that runs along the wall. */
export const wallAlong = (layers: readonly WallLayer[]): number =>
  layers.reduce(
    (sum, { innerMm, outerMm, conductivityWPerMK }) =>
      sum + ((Math.PI * (outerMm ** 2 - innerMm ** 2)) / 1e6) * conductivityWPerMK,
    0,
  );
