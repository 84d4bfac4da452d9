import type { Bay, BayPart } from '#bay';
import type { Car, Line } from '#car';
import { type Body, type TriangleMesh } from '#geometry';
import { bodiesOfWay, type Way } from '#lines';
import { panelLayouts, type PanelLayout } from '#panels';
import { type Catalogue, findFinish, finishOf, type FinishRow } from '#standards';
import { type Exchange, exchangeFactors } from '../exchange/exchange-factors.ts';
import { type LinePatch, linePatches } from '../exchange/line-patches.ts';
import { type PanelPatch, panelPatches } from '../exchange/panel-patches.ts';
import { partPatch } from '../exchange/part-patch.ts';
import type { HeatSurface, Patch } from '../exchange/patch.ts';
import { type LineWall, lineWalls } from './line-wall.ts';
import { bareFinish, coverOf, type CoverOver } from './part-warmth.ts';

/** A part among what radiates. */
export interface ModelPart {
  readonly part: BayPart;
  readonly surface: number;
  readonly patch: number;
  readonly finish: FinishRow;
  readonly cover: CoverOver | null;
  /** What is not inside another solid [m2]. */
  readonly openM2: number;
}

export interface ModelPanel {
  readonly id: string;
  readonly name: string;
  readonly layout: PanelLayout;
  readonly surface: number;
  readonly firstPatch: number;
  readonly patches: readonly PanelPatch[];
  readonly finish: { readonly outside: FinishRow; readonly inside: FinishRow };
}

export interface ModelLine {
  readonly line: Line;
  readonly way: Pick<Way, 'bodies' | 'ends'>;
  readonly walls: readonly LineWall[];
  readonly surface: number;
  readonly firstPatch: number;
  /** Segment after segment, sector after sector. */
  readonly patches: readonly LinePatch[];
  readonly segments: number;
}

/** Where the row of a patch goes: surfaces and shares with their errors. */
export interface ModelRow {
  readonly to: Uint16Array;
  readonly share: Float64Array;
  readonly error95: Float64Array;
}

/** Everything that gives or takes heat, with how much of what each piece gives off each thing takes up. */
export interface HeatModel {
  readonly car: Car;
  readonly shelf: Catalogue;
  readonly surfaces: readonly HeatSurface[];
  readonly patches: readonly Patch[];
  readonly rows: readonly ModelRow[];
  readonly parts: readonly ModelPart[];
  readonly panels: readonly ModelPanel[];
  readonly lines: readonly ModelLine[];
  readonly raysShot: number;
}

export interface HeatModelAsk {
  readonly car: Car;
  readonly bay: Bay;
  readonly shelf: Catalogue;
  readonly meshes: ReadonlyMap<string, TriangleMesh>;
  readonly ways: ReadonlyMap<string, Way>;
  /** Panels that are off. */
  readonly coversOff?: readonly string[];
  readonly watch?: (done: number, total: number) => boolean;
}

/** The circumference in so many; a sector's own temperature stands for 45 degrees of it. */
export const SECTORS = 8;
export const SEGMENT_MM = 20;
const PANEL_CELL_MM = 100;
/** Every ray estimate begins from this number. */
export const RAY_SEED = 20_261_004;
/** Rays of a first look, and of a patch that sees something hot. */
const FIRST_RAYS = 64;
const CLOSE_RAYS = 512;
const BODY_RAYS = 512;
/** A patch that sends more than this share to what is hot is looked at closely. */
const HOT_SHARE = 0.01;
/** What counts as hot there [degC]. */
const HOT_C = 200;

/** All that radiates on a car, traced. */
export function heatModel(ask: HeatModelAsk): HeatModel {
  const { car, bay, shelf } = ask;
  const surfaces: HeatSurface[] = [];
  const patches: Patch[] = [];
  // Panels are patched by themselves; a lever is cold and small.
  const sheets = new Set([...(car.panels ?? []), ...(car.levers ?? [])].map(({ id }) => id));
  const parts = bay.parts
    .filter(({ id, solids }) => !sheets.has(id) && solids.length > 0)
    .map((part) => {
      const cover = coverOf(part.part);
      const finish = cover?.finish ?? bareFinish(part.part);
      const surface = surfaces.length;
      surfaces.push({ id: part.id, kind: 'part', solids: part.solids, emissivity: finish.emissivity });
      patches.push(partPatch(surface, finish.emissivity, part.solids));
      return { part, surface, patch: patches.length - 1, finish, cover };
    });
  const panels = modelPanels(ask, surfaces, patches);
  const lines = car.lines.flatMap((line) => {
    const way = ask.ways.get(line.id);
    return way === undefined || way.bodies.length === 0 ? [] : [modelLine(line, way, shelf, surfaces, patches)];
  });
  const hot = Uint8Array.from(surfaces, () => 0);
  for (const { part, surface } of parts)
    if (Math.max(part.part.surfaceC ?? 0, ...(part.part.surfaceByCase ?? []).map((row) => row.surfaceC)) > HOT_C)
      hot[surface] = 1;
  const bodies = parts.length + panels.reduce((sum, row) => sum + row.patches.length, 0);
  const { rows, covered, raysShot } = traced({ surfaces, patches, hot, bodies, watch: ask.watch });
  return {
    car,
    shelf,
    surfaces,
    patches,
    rows,
    parts: parts.map((row) => ({ ...row, openM2: patches[row.patch]!.areaM2 * (1 - covered[row.patch]!) })),
    panels,
    lines,
    raysShot,
  };
}

function modelPanels(ask: HeatModelAsk, surfaces: HeatSurface[], patches: Patch[]): ModelPanel[] {
  if ((ask.car.panels ?? []).length === 0) return [];
  return panelLayouts(ask.car, { meshes: ask.meshes }).flatMap((layout): ModelPanel[] => {
    const { panel, piece } = layout;
    if (panel.on !== undefined || layout.flats.length === 0 || ask.coversOff?.includes(panel.id) === true) return [];
    const usual = finishOf(/304|316|321|stainless/i.test(layout.sheet.id) ? 'stainless-sheet' : 'aluminium-sheet');
    const outside = (panel.finish === undefined ? undefined : findFinish(panel.finish)) ?? usual;
    const inside = (panel.insideFinish === undefined ? undefined : findFinish(panel.insideFinish)) ?? outside;
    const surface = surfaces.length;
    const made = panelPatches(
      surface,
      { outside: outside.emissivity, inside: inside.emissivity },
      layout,
      PANEL_CELL_MM,
    );
    if (made.patches.length === 0) return [];
    surfaces.push({
      id: piece === undefined ? panel.id : `${panel.id} ${piece.number}`,
      kind: 'panel',
      solids: made.solids,
      emissivity: outside.emissivity,
      backEmissivity: inside.emissivity,
    });
    const firstPatch = patches.length;
    patches.push(...made.patches);
    const finish = { outside, inside };
    const name = panel.name ?? panel.id;
    return [{ id: panel.id, name, layout, surface, firstPatch, patches: made.patches, finish }];
  });
}

function modelLine(line: Line, way: Way, shelf: Catalogue, surfaces: HeatSurface[], patches: Patch[]): ModelLine {
  const made = lineInModel(line, way, shelf, surfaces.length, patches.length);
  surfaces.push(made.heats);
  patches.push(...made.line.patches);
  return made.line;
}

/** A line in patches, and as what rays meet. */
export function lineInModel(
  line: Line,
  way: Pick<Way, 'bodies' | 'ends'>,
  shelf: Catalogue,
  surface: number,
  firstPatch: number,
): { readonly line: ModelLine; readonly heats: HeatSurface } {
  const walls = lineWalls(line, way.bodies, shelf);
  const bodies = bodiesOfWay(way).map((body, b): Body => ({ ...body, radiusMm: walls[b]!.outsideMm / 2 }));
  const made = linePatches(surface, 1, bodies, { segmentMm: SEGMENT_MM, sectors: SECTORS });
  const patches = made.patches.map((patch) => ({ ...patch, emissivity: walls[patch.body]!.finish.emissivity }));
  const area = patches.reduce((sum, { areaM2 }) => sum + areaM2, 0);
  // Rays that meet a line meet one surface: it takes them up by the mean of its pieces.
  const mean = patches.reduce((sum, { areaM2, emissivity }) => sum + areaM2 * emissivity, 0) / Math.max(1e-12, area);
  return {
    line: { line, way, walls, surface, firstPatch, patches, segments: patches.length / SECTORS },
    heats: { id: line.id, kind: 'line', solids: made.solids, emissivity: Math.max(0.01, mean) },
  };
}

interface TraceAsk {
  readonly surfaces: readonly HeatSurface[];
  readonly patches: readonly Patch[];
  readonly hot: Uint8Array;
  /** Patches of parts and panels: they come first. */
  readonly bodies: number;
  readonly watch: HeatModelAsk['watch'];
}

/** A first look with few rays; what sees something hot is looked at closely. */
function traced({ surfaces, patches, hot, bodies, watch }: TraceAsk) {
  const asked = { surfaces, seed: RAY_SEED };
  const large = exchangeFactors({ ...asked, patches: patches.slice(0, bodies), raysPerPatch: BODY_RAYS });
  const small = patches.slice(bodies);
  const first = exchangeFactors({
    ...asked,
    patches: small,
    raysPerPatch: FIRST_RAYS,
    ...(watch === undefined ? {} : { watch }),
  });
  const rows: ModelRow[] = [...rowsOf(large), ...rowsOf(first)];
  const close = small.flatMap((_, i) => {
    const { to, share } = rows[bodies + i]!;
    return to.some((surface, k) => hot[surface] === 1 && share[k]! > HOT_SHARE) ? [i] : [];
  });
  const again = exchangeFactors({ ...asked, patches: close.map((i) => small[i]!), raysPerPatch: CLOSE_RAYS });
  rowsOf(again).forEach((row, k) => {
    rows[bodies + close[k]!] = row;
  });
  const covered = new Float64Array(patches.length);
  covered.set(large.covered);
  covered.set(first.covered, bodies);
  return { rows, covered, raysShot: large.raysShot + first.raysShot + again.raysShot };
}

/** The rows of an exchange, one for each patch. */
export const rowsOf = ({ starts, to, share, error95 }: Exchange): ModelRow[] =>
  Array.from({ length: starts.length - 1 }, (_, p) => {
    const [a, b] = [starts[p]!, starts[p + 1]!];
    return { to: to.slice(a, b), share: share.slice(a, b), error95: error95.slice(a, b) };
  });
