import type { Case } from '#car';
import type { Vec } from '#geometry';
import { fluidAt } from '#flow';
import { heatSolid, type HeatSolidId } from '#standards';
import type { NetBlock, RadiantPair, ThermalNet } from '../balance/thermal-net.ts';
import { type AirZone, type Films, STILL, STREAM, zoneAt } from './air-zones.ts';
import { type HeatModel, type ModelLine, type ModelPart, SECTORS } from './heat-model.ts';
import { insideFilm } from './inside-film.ts';
import type { LineFluid } from './line-fluid.ts';
import { fluidStands } from './line-limits.ts';
import { type LineWall, wallAlong, wallCapacity, wallResistance } from './line-wall.ts';
import { fluidNode, type LineNodes, type NetLayout } from './net-layout.ts';
import type { PartWarmth } from './part-warmth.ts';

/** What one case says of everything. */
export interface CaseState {
  readonly at: Case;
  readonly isOff: boolean;
  /** Water that stands gives off steam at its boiling point; false: it gets as hot as it would without, which is what cures are told by. */
  readonly steams: boolean;
  readonly warmth: readonly PartWarmth[];
  readonly fluids: readonly LineFluid[];
  readonly zones: readonly AirZone[];
  /** Water lines that have boiled dry: steam alone is left in them. */
  readonly dry?: ReadonlySet<string>;
}

/** Grows a network link by link. */
class Drawn {
  readonly linkA: number[] = [];
  readonly linkB: number[] = [];
  readonly linkG: number[] = [];
  readonly flowFrom: number[] = [];
  readonly flowTo: number[] = [];
  readonly flowWPerK: number[] = [];
  readonly filmNode: number[] = [];
  readonly filmArea: number[] = [];
  readonly film: number[] = [];
  readonly pairs: RadiantPair[] = [];
  readonly fixed: Uint8Array;
  readonly capacity: Float64Array;

  constructor(nodes: number) {
    this.fixed = new Uint8Array(nodes);
    this.capacity = new Float64Array(nodes);
  }

  link(a: number, b: number, g: number): void {
    if (!(g > 0)) return;
    this.linkA.push(a);
    this.linkB.push(b);
    this.linkG.push(g);
  }

  flow(from: number, to: number, g: number): void {
    this.flowFrom.push(from);
    this.flowTo.push(to);
    this.flowWPerK.push(g);
  }

  air(node: number, area: number, film: number): void {
    this.filmNode.push(node);
    this.filmArea.push(area);
    this.film.push(film);
  }
}

/** The network of a car in one case. */
export function netInCase(model: HeatModel, layout: NetLayout, state: CaseState, films: Films): ThermalNet {
  const drawn = new Drawn(layout.nodes);
  model.parts.forEach((part, i) => drawPart(drawn, model, layout, state, films, part, i));
  model.panels.forEach((_, i) => drawPanel(drawn, model, layout, films, i));
  model.lines.forEach((line, i) => drawLine(drawn, model, layout, state, films, line, i));
  const blocks: NetBlock[] = [
    ...bodyBlocks(model, layout),
    ...layout.lines.map(({ head, tail }) => ({ from: head, to: tail + 1, half: SECTORS + 1 })),
  ];
  return {
    nodes: layout.nodes,
    blocks,
    fixed: drawn.fixed,
    capacity: drawn.capacity,
    source: new Float64Array(layout.nodes),
    filmNode: Int32Array.from(drawn.filmNode),
    filmArea: Float64Array.from(drawn.filmArea),
    film: Int32Array.from(drawn.film),
    films: films.tables(state.zones),
    outsideK: layout.outsideK,
    outsideC: state.zones[STILL]!.airC,
    pairs: [...layout.pairs, ...drawn.pairs],
    linkA: Int32Array.from(drawn.linkA),
    linkB: Int32Array.from(drawn.linkB),
    linkG: Float64Array.from(drawn.linkG),
    flowFrom: Int32Array.from(drawn.flowFrom),
    flowTo: Int32Array.from(drawn.flowTo),
    flowWPerK: Float64Array.from(drawn.flowWPerK),
  };
}

/** Parts together, each panel by itself: thin sheet shines little from one panel to the next. */
function bodyBlocks(model: HeatModel, layout: NetLayout): NetBlock[] {
  const firsts = [...layout.panelNode, layout.bodies];
  const parts = firsts[0]!;
  return [
    { from: 0, to: parts, half: Math.max(0, parts - 1) },
    ...model.panels.map((_, i) => ({ from: firsts[i]!, to: firsts[i + 1]!, half: firsts[i + 1]! - firsts[i]! - 1 })),
  ];
}

/** Where a mass is not stated: so much metal under its surface [m]. Common practice: castings and tube of that wall. */
const HOT_WALL_M = 0.003;
const KEPT_WALL_M = 0.01;

/** What a part stores [J/K]. */
export function partCapacity({ part, openM2, stretch }: ModelPart): {
  readonly jPerK: number;
  readonly isStated: boolean;
} {
  const solid: HeatSolidId = part.class === 'hot' ? 'stainless-304' : 'aluminium';
  const { heatCapacityJPerKgK, densityKgM3 } = heatSolid(solid);
  const perKg = part.part.heatCapacityJPerKgK ?? heatCapacityJPerKgK;
  if (part.part.massKg !== undefined)
    return { jPerK: part.part.massKg * perKg * (stretch?.share ?? 1), isStated: true };
  if (stretch !== undefined) {
    // A long thin thing has no wall: it stores what its whole section of rubber does, openM2 r/2.
    const rubber = heatSolid('epdm');
    const radiusM = (roundMm({ part }) ?? 0) / 2000;
    return { jPerK: ((openM2 * radiusM) / 2) * rubber.densityKgM3 * rubber.heatCapacityJPerKgK, isStated: false };
  }
  const wall = part.class === 'hot' ? HOT_WALL_M : KEPT_WALL_M;
  return { jPerK: Math.max(1, openM2 * wall * densityKgM3 * perKg), isStated: false };
}

/** Air still in a gap conducts; at the middle of what hot gaps are [degC]. */
const GAP_AIR_C = 300;

function drawPart(
  drawn: Drawn,
  model: HeatModel,
  layout: NetLayout,
  state: CaseState,
  films: Films,
  part: ModelPart,
  i: number,
): void {
  const node = layout.partNode[i]!;
  const under = layout.underNode[i]!;
  const body = under < 0 ? node : under;
  const isHeld = state.warmth[i]!.c !== null && !(state.isOff && canCool(part));
  if (isHeld) drawn.fixed[body] = 1;
  drawn.capacity[body] = partCapacity(part).jPerK;
  if (part.cover !== null && under >= 0) {
    const { thicknessMm, conductivityWPerMK, airGapMm, densityKgM3, finish } = part.cover;
    drawn.capacity[node] = (part.openM2 * thicknessMm * densityKgM3 * COVER_J_PER_KG_K) / 1000;
    if (airGapMm > 0) {
      const air = fluidAt({ kind: 'air' }, GAP_AIR_C, undefined);
      drawn.link(node, under, air.ok ? (part.openM2 * air.state.conductivityWMK * 1000) / airGapMm : 0);
      drawn.pairs.push(gapPair(part, finish.emissivity, node, under));
    } else drawn.link(node, under, (part.openM2 * conductivityWPerMK * 1000) / thicknessMm);
  }
  const { bounds } = part.part;
  if (bounds === null) return;
  const middle = [0, 1, 2].map((k) => (bounds.min[k]! + bounds.max[k]!) / 2) as unknown as Vec;
  const round = roundMm(part);
  const film =
    round === null
      ? films.row('upright', (bounds.max[2] - bounds.min[2]) / 1000, zoneAt(model.car, middle))
      : films.row('bar', round / 1000, zoneAt(model.car, middle));
  drawn.air(node, part.openM2, film);
}

const COVER_J_PER_KG_K = 900;

/** Parts that are held to a given temperature while the engine runs cool by their own mass once it stands; outside air does not. */
export const canCool = ({ part }: ModelPart): boolean => part.part.keptAt !== 'outside-air';

const gapPair = (part: ModelPart, outer: number, node: number, under: number): RadiantPair => ({
  k: part.openM2 / (1 / BARE_UNDER + 1 / outer - 1),
  nodesA: Int32Array.of(node),
  weightsA: Float64Array.of(1),
  nodesB: Int32Array.of(under),
  weightsB: Float64Array.of(1),
});

/** Emissivity of used stainless or iron under a shield: the middle of its printed range. */
const BARE_UNDER = 0.6;

/** Diameter of a part that is round bars for the most part [mm]; null: it is not. */
function roundMm({ part }: Pick<ModelPart, 'part'>): number | null {
  const round = part.solids.filter(({ kind }) => kind === 'capsule' || kind === 'cylinder');
  if (round.length < part.solids.length / 2 || round.length === 0) return null;
  const radii = round.flatMap(({ form }) =>
    form.kind === 'capsule' || form.kind === 'cylinder' ? [form.radiusMm] : [],
  );
  return 2 * Math.max(...radii);
}

/** A cell's face that looks further from upright than this takes the law of a level plate [cos]. */
const LEVEL_COS = 0.7;
/** How far off a face its air is looked up [mm]. */
const OFF_FACE_MM = 25;

function drawPanel(drawn: Drawn, model: HeatModel, layout: NetLayout, films: Films, i: number): void {
  const { patches, layout: laid } = model.panels[i]!;
  const first = layout.panelNode[i]!;
  const thickM = laid.sheet.thicknessMm / 1000;
  const isSteel = /304|316|321|4130|stainless/i.test(laid.sheet.id);
  const solid = heatSolid(isSteel ? 'stainless-304' : 'aluminium');
  const heights = patches.map(({ middleMm }) => middleMm[2]);
  const tallM = Math.max(0.05, (Math.max(...heights) - Math.min(...heights)) / 1000);
  const wideM = Math.sqrt(patches.reduce((sum, { areaM2 }) => sum + areaM2, 0) / 2);
  patches.forEach((patch, k) => {
    const node = first + Math.floor(k / 2);
    const out = patch.middleMm.map((x, axis) => x + OFF_FACE_MM * patch.faces[axis]!) as unknown as Vec;
    const inBay = zoneAt(model.car, out);
    const zone = inBay === STILL && patch.side === 'outside' ? STREAM : inBay;
    const tilt = patch.faces[2];
    const film =
      Math.abs(tilt) < LEVEL_COS
        ? films.row('upright', tallM, zone)
        : films.row(tilt > 0 ? 'up' : 'down', wideM / 4, zone);
    drawn.air(node, patch.areaM2, film);
    if (k % 2 === 0) {
      drawn.capacity[node] = patch.areaM2 * thickM * solid.densityKgM3 * solid.heatCapacityJPerKgK;
      for (const other of besideOf(patches, k)) {
        const size = Math.sqrt(patch.areaM2);
        const apart = Math.hypot(...patch.middleMm.map((x, a) => x - patches[other]!.middleMm[a]!)) / 1000;
        drawn.link(node, first + other / 2, (solid.conductivityWPerMK * thickM * size) / Math.max(0.01, apart));
      }
    }
  });
}

type Cells = HeatModel['panels'][number]['patches'];

/** Cells after this one that share a side with it. */
const besideOf = (patches: Cells, k: number): number[] => {
  const cell = patches[k]!;
  const found: number[] = [];
  for (let j = k + 2; j < patches.length; j += 2) {
    const other = patches[j]!;
    if (other.facet !== cell.facet) continue;
    if (Math.abs(other.column - cell.column) + Math.abs(other.row - cell.row) === 1) found.push(j);
  }
  return found;
};

/** How much of a line's sector goes from its outside to the fluid [W/K], the film inside and the wall in series. */
export const sectorToFluid = (wall: LineWall, fluid: LineFluid, lengthM: number, wholeM: number): number => {
  const film = 1 / (insideFilm(fluid, wall.boreMm, wholeM) * Math.PI * (wall.boreMm / 1000));
  return lengthM / (SECTORS * (film + wallResistance(wall.layers)));
};

/** A full bore of liquid; of oil that froths or drains, and of air, what is there weighs little [share]. */
const FULL: Readonly<Record<LineFluid['carries'], number>> = {
  oil: 0.7,
  water: 1,
  fuel: 1,
  air: 1,
  'brake-fluid': 1,
};

function drawLine(
  drawn: Drawn,
  model: HeatModel,
  layout: NetLayout,
  state: CaseState,
  films: Films,
  line: ModelLine,
  i: number,
): void {
  const nodes = layout.lines[i]!;
  const isDry = state.dry?.has(line.line.id) === true;
  const fluid = isDry ? asSteam(state.fluids[i]!) : state.fluids[i]!;
  drawn.fixed[nodes.head] = 1;
  drawn.fixed[nodes.tail] = 1;
  const wholeM = line.patches.reduce((sum, { lengthMm }) => sum + lengthMm, 0) / SECTORS / 1000;
  const stands = state.isOff && state.steams && fluid.carries === 'water' ? fluidStands(model, line, fluid) : null;
  const boils = stands === null ? null : films.boiling(stands.limitC);
  const carried = Math.abs(fluid.flowM3S) * fluid.densityKgM3 * fluid.specificHeatJKgK;
  for (let s = 0; s < nodes.segments; s++) {
    const patch = line.patches[s * SECTORS]!;
    const wall = line.walls[patch.body]!;
    const lengthM = patch.lengthMm / 1000;
    const core = fluidNode(nodes, s);
    const toFluid = sectorToFluid(wall, fluid, lengthM, wholeM);
    const around = aroundWall(wall, lengthM);
    const stores = wallCapacity(wall.layers) * lengthM;
    const bore = (Math.PI / 4) * (wall.boreMm / 1000) ** 2 * lengthM;
    // The inner half of a wall goes with what is in it.
    drawn.capacity[core] =
      bore * (isDry ? 0 : FULL[fluid.carries]) * fluid.densityKgM3 * fluid.specificHeatJKgK +
      stores * (wall.isMetal ? 0.1 : 0.5);
    // Water that stands boils no hotter than its cap lets it: the heat beyond goes off with the steam.
    if (boils !== null) drawn.air(core, isDry ? 0 : Math.PI * (wall.boreMm / 1000) * lengthM, boils);
    const film = films.row('bar', wall.outsideMm / 1000, zoneAt(model.car, patch.middleMm));
    for (let k = 0; k < SECTORS; k++) {
      const node = core + 1 + k;
      drawn.capacity[node] = (stores * (wall.isMetal ? 0.9 : 0.5)) / SECTORS;
      drawn.link(core, node, toFluid);
      drawn.link(node, core + 1 + ((k + 1) % SECTORS), around);
      drawn.air(node, line.patches[s * SECTORS + k]!.areaM2, film);
    }
    drawAlong(drawn, line, nodes, s);
    if (carried > 0) {
      const ahead = fluid.flowM3S > 0;
      const before = ahead ? (s === 0 ? nodes.head : fluidNode(nodes, s - 1)) : nextFluid(nodes, s);
      drawn.flow(before, core, carried);
    }
  }
  drawEnds(drawn, model, layout, line, nodes);
}

/** What is left in a line that has boiled dry: steam that stands, which conducts some 0.027 W/(m K) at 130 degC, from memory. */
const asSteam = (fluid: LineFluid): LineFluid => ({ ...fluid, flowM3S: 0, conductivityWMK: STEAM_W_PER_M_K });
const STEAM_W_PER_M_K = 0.027;

const nextFluid = (nodes: LineNodes, s: number): number =>
  s === nodes.segments - 1 ? nodes.tail : fluidNode(nodes, s + 1);

/** From a sector to the next one round the wall [W/K]. */
const aroundWall = (wall: LineWall, lengthM: number): number =>
  wall.layers.reduce((sum, { innerMm, outerMm, conductivityWPerMK }) => {
    const arc = (Math.PI * (innerMm + outerMm)) / SECTORS;
    return sum + (conductivityWPerMK * (outerMm - innerMm) * lengthM) / arc;
  }, 0);

/** From a segment to the one before it, sector by sector, along the wall. */
function drawAlong(drawn: Drawn, line: ModelLine, nodes: LineNodes, s: number): void {
  if (s === 0) return;
  const [here, before] = [line.patches[s * SECTORS]!, line.patches[(s - 1) * SECTORS]!];
  const half = (patch: typeof here): number =>
    patch.lengthMm / 2000 / (wallAlong(line.walls[patch.body]!.layers) / SECTORS);
  const g = 1 / (half(here) + half(before));
  for (let k = 0; k < SECTORS; k++) drawn.link(fluidNode(nodes, s - 1) + 1 + k, fluidNode(nodes, s) + 1 + k, g);
}

/** At a port metal meets metal: the end takes up or gives heat to the part that it is screwed into. */
function drawEnds(drawn: Drawn, model: HeatModel, layout: NetLayout, line: ModelLine, nodes: LineNodes): void {
  for (const [ref, s] of [
    [line.line.from, 0],
    [line.line.to, nodes.segments - 1],
  ] as const) {
    const at = model.parts.findIndex(({ part }) => part.part.id === ref.split('.')[0]);
    const patch = line.patches[s * SECTORS];
    if (at < 0 || patch === undefined) continue;
    const wall = line.walls[patch.body]!;
    const g = wallAlong(wall.layers) / SECTORS / (patch.lengthMm / 2000 + JOINT_M * (wall.isMetal ? 1 : 0));
    const under = layout.underNode[at]!;
    for (let k = 0; k < SECTORS; k++)
      drawn.link(under < 0 ? layout.partNode[at]! : under, fluidNode(nodes, s) + 1 + k, g);
  }
}

/** A threaded joint holds heat back as so much more length of the metal. Common practice, no source [m]. */
const JOINT_M = 0.02;
