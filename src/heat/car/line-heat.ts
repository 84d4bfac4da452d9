import type { Vec } from '#geometry';
import type { LineHeat, LinePoint, Peak } from '../heat-answer.ts';
import { type ModelLine, SECTORS } from './heat-model.ts';
import { errorAt, type NetAt, type ShareAsk, sharesAt } from './heat-shares.ts';
import { type HosePlace, lineLimits, type LineHottest, type Place } from './line-limits.ts';
import { wallResistance } from './line-wall.ts';
import type { CaseState } from './net-in-case.ts';
import { fluidNode, type LineNodes, NODES_PER_SEGMENT } from './net-layout.ts';

/** Temperatures that a case is told by: as they stand, or the highest of each node over a soak. */
export interface ToldC {
  /** Of a node. */
  readonly c: (node: number) => number;
  /** The moment at which a node is as told: its network and temperatures. */
  readonly at: (node: number) => NetAt;
  /** When it is so; undefined in a steady case. */
  readonly minutes: (node: number) => number | undefined;
}

interface SegmentC {
  readonly worst: number;
  readonly worstSector: number;
  readonly mean: number;
  readonly fluid: number;
  readonly under: number;
}

/** How hot a line gets. */
export function lineHeat(first: NetAt, told: ToldC, state: CaseState, i: number): LineHeat {
  const { model, layout } = first;
  const line = model.lines[i]!;
  const nodes = layout.lines[i]!;
  const segments = Array.from({ length: nodes.segments }, (_, s) => segmentC(line, told, fluidNode(nodes, s), s));
  const worst = segments.reduce((best, row, s) => (row.worst > segments[best]!.worst ? s : best), 0);
  const place = line.patches[worst * SECTORS + segments[worst]!.worstSector]!;
  const node = fluidNode(nodes, worst) + 1 + segments[worst]!.worstSector;
  const atWorst = told.at(node);
  const ask = shareAsk(first, line, i, worst, told, node);
  const shares = sharesAt(atWorst, ask);
  const fluid = state.fluids[i]!;
  const at = told.minutes(node);
  const hottest = hottestOf(line, segments);
  const ahead = fluid.flowM3S >= 0;
  const [inSegment, outSegment] = ahead ? [0, nodes.segments - 1] : [nodes.segments - 1, 0];
  const standing = fluid.flowM3S === 0;
  const outC = segments[outSegment]!.fluid;
  const inC = standing ? segments[inSegment]!.fluid : fluid.inC;
  return {
    line: line.line.id,
    points: segments.map((row, s): LinePoint => pointOf(line, row, s, airOfNode(atWorst, fluidNode(nodes, s) + 1))),
    worst: {
      alongMm: place.alongMm,
      atMm: place.middleMm,
      faces: place.faces,
      surfaceC: segments[worst]!.worst,
      underC: segments[worst]!.under,
      innerC: innerC(line, segments[worst]!, worst, state, i),
      errorK: errorAt(
        atWorst,
        ask,
        shares,
        ask.nodes.map((n) => {
          const patch = patchOfNode(line, nodes, n);
          return { patch, areaM2: model.patches[patch]!.areaM2 };
        }),
      ),
      shares,
    },
    limits: lineLimits(model, line, fluid, hottest),
    fluidInC: inC,
    fluidOutC: outC,
    flowM3S: fluid.flowM3S,
    carries: fluid.carries,
    heatInW: standing ? 0 : Math.abs(fluid.flowM3S) * fluid.densityKgM3 * fluid.specificHeatJKgK * (outC - inC),
    ...(at === undefined ? {} : { peak: { atMin: at, c: segments[worst]!.worst } satisfies Peak }),
  };
}

/** The patch of a sector's node. */
const patchOfNode = (line: ModelLine, nodes: LineNodes, node: number): number => {
  const segment = Math.floor((node - nodes.first) / NODES_PER_SEGMENT);
  return line.firstPatch + segment * SECTORS + ((node - nodes.first) % NODES_PER_SEGMENT) - 1;
};

function segmentC(line: ModelLine, told: ToldC, core: number, s: number): SegmentC {
  let [worst, worstSector, sum] = [-Infinity, 0, 0];
  for (let k = 0; k < SECTORS; k++) {
    const c = told.c(core + 1 + k);
    sum += c;
    if (c > worst) [worst, worstSector] = [c, k];
  }
  const fluid = told.c(core);
  const wall = line.walls[line.patches[s * SECTORS]!.body]!;
  const whole = wallResistance(wall.layers);
  const share = wall.sleeve === undefined ? 1 : wallResistance(wall.layers.slice(0, -1)) / whole;
  return { worst, worstSector, mean: sum / SECTORS, fluid, under: fluid + share * (worst - fluid) };
}

/** Inside of the wall: by film and wall in series, of the heat that goes through there. */
function innerC(line: ModelLine, row: SegmentC, s: number, state: CaseState, i: number): number {
  const wall = line.walls[line.patches[s * SECTORS]!.body]!;
  const fluid = state.fluids[i]!;
  const still = (fluid.conductivityWMK * STILL_NUSSELT) / (wall.boreMm / 1000);
  const film = 1 / (still * Math.PI * (wall.boreMm / 1000));
  const share = film / (film + wallResistance(wall.layers));
  return fluid.flowM3S === 0
    ? row.fluid + share * (row.worst - row.fluid)
    : Math.min(row.under, row.fluid + 0.5 * (row.under - row.fluid));
}

const STILL_NUSSELT = 3.66;

function shareAsk(
  { model, layout }: NetAt,
  line: ModelLine,
  i: number,
  s: number,
  told: ToldC,
  node: number,
): ShareAsk {
  const nodes = layout.lines[i]!;
  const at = told.at(node);
  const stretch = stretchOf(line, s);
  const cores = new Set(stretch.map((n) => fluidNode(nodes, n)));
  return {
    nodes: stretch.flatMap((n) => Array.from({ length: SECTORS }, (_, k) => fluidNode(nodes, n) + 1 + k)),
    surface: line.surface,
    airC: airOfNode(at, node),
    hottestC: told.c(node),
    linked: (other) => {
      if (cores.has(other)) return { of: 'fluid', kind: 'fluid', name: 'what runs in it' };
      const part = other < layout.bodies ? model.parts.findIndex((_, p) => partHas(layout, p, other)) : -1;
      return part < 0
        ? null
        : { of: 'port', kind: 'port', name: `${model.parts[part]!.part.name}, that it is screwed to` };
    },
  };
}

/** Metal is of one temperature over so much of its length, for the question where its heat comes from [mm]. */
const METAL_STRETCH_MM = 60;

/** Segments that count as the place: the one, and of metal what lies near it in the same piece. */
function stretchOf(line: ModelLine, s: number): readonly number[] {
  const here = line.patches[s * SECTORS]!;
  if (!line.walls[here.body]!.isMetal) return [s];
  const near: number[] = [];
  for (let n = 0; n < line.segments; n++) {
    const { body, alongMm } = line.patches[n * SECTORS]!;
    if (body === here.body && Math.abs(alongMm - here.alongMm) <= METAL_STRETCH_MM) near.push(n);
  }
  return near;
}

const partHas = (layout: NetAt['layout'], part: number, node: number): boolean =>
  layout.partNode[part] === node || layout.underNode[part] === node;

/** Air about a node [degC]. */
export function airOfNode({ state }: NetAt, node: number): number {
  const { starts, items } = state.shape.filmsOfNode;
  const l = starts[node]! === starts[node + 1]! ? -1 : items[starts[node]!]!;
  return l < 0 ? state.net.outsideC : state.net.films[state.net.film[l]!]!.airC;
}

function pointOf(line: ModelLine, row: SegmentC, s: number, airC: number): LinePoint {
  const ring = line.patches.slice(s * SECTORS, (s + 1) * SECTORS);
  const middle = [0, 1, 2].map((k) => ring.reduce((sum, { middleMm }) => sum + middleMm[k]!, 0) / SECTORS);
  return {
    alongMm: ring[0]!.alongMm,
    atMm: middle as unknown as Vec,
    worstC: row.worst,
    meanC: row.mean,
    fluidC: row.fluid,
    airC,
  };
}

/** The hose that a body is, or that sits in it where it is an end: the nearest along the line. */
function hoseOf({ walls }: ModelLine, body: number): HosePlace['hose'] | undefined {
  for (let off = 0; off < walls.length; off++)
    for (const k of [body - off, body + off]) if (walls[k]?.hose !== undefined) return walls[k].hose;
  return undefined;
}

function hottestOf(line: ModelLine, segments: readonly SegmentC[]): LineHottest {
  const hottest = (
    kind: (wall: ModelLine['walls'][number], body: number) => boolean,
    of: (row: SegmentC) => number,
  ): Place | null => {
    let best: Place | null = null;
    segments.forEach((row, s) => {
      const patch = line.patches[s * SECTORS + row.worstSector]!;
      if (!kind(line.walls[patch.body]!, patch.body)) return;
      const c = of(row);
      if (best === null || c > best.c) best = { c, atMm: patch.middleMm, segment: s };
    });
    return best;
  };
  const hoses = [...new Set(line.walls.flatMap(({ hose }) => hose ?? []))];
  const ofEach = (kind: 'hose' | 'end', of: (row: SegmentC) => number): HosePlace[] =>
    hoses.flatMap((hose) => {
      const place = hottest(
        (wall, body) =>
          wall.kind === kind && (kind === 'hose' || wall.name.startsWith('end-')) && hoseOf(line, body) === hose,
        of,
      );
      return place === null ? [] : [{ hose, place }];
    });
  const fluid = segments.reduce((best, row, s) => (row.fluid > segments[best]!.fluid ? s : best), 0);
  const ends = [0, segments.length - 1].map((s): Place => {
    const patch = line.patches[s * SECTORS]!;
    return { c: segments[s]!.mean, atMm: patch.middleMm, segment: s };
  });
  return {
    hoses: ofEach('hose', ({ under, fluid: inside }) => Math.max(under, inside)),
    ends: ofEach('end', ({ mean }) => mean),
    port: ends.toSorted((a, b) => b.c - a.c)[0] ?? null,
    sleeve: hottest(
      ({ sleeve }) => sleeve !== undefined,
      ({ worst }) => worst,
    ),
    fluidC: segments[fluid]!.fluid,
    fluidAt: line.patches[fluid * SECTORS]!.middleMm,
  };
}
