import type { Bay, BayPart } from '#bay';
import type { Car, Line } from '#car';
import { type Body, rayScene, type TriangleMesh } from '#geometry';
import { bodiesOfWay, type Way } from '#lines';
import { panelLayouts, type PanelLayout } from '#panels';
import { type Catalogue, findFinish, finishOf, type FinishRow } from '#standards';
import { type Exchange, type ExchangeAsk, exchangeFactors, patchPlaces } from '../exchange/exchange-factors.ts';
import { exchangeAgain, type TracedExchange, tracedExchange } from '../exchange/traced-exchange.ts';
import { type LinePatch, linePatches } from '../exchange/line-patches.ts';
import { type PanelPatch, panelPatches } from '../exchange/panel-patches.ts';
import { partPatch } from '../exchange/part-patch.ts';
import type { HeatSurface, Patch } from '../exchange/patch.ts';
import { type LineWall, lineWalls } from './line-wall.ts';
import { bareFinish, coverOf, type CoverOver } from './part-warmth.ts';
import { cableBayParts, type PartStretch, partStretches } from './part-stretches.ts';

/** How a line lies, and what it is made up of at its ends. */
export type LaidWay = Pick<Way, 'bodies' | 'ends'>;

/** A part among what radiates, or a stretch of a long one: what it is of stands in `part.part`. */
export interface ModelPart {
  readonly part: BayPart;
  /** Where on a long part it lies; absent: the whole of it. */
  readonly stretch?: Omit<PartStretch, 'part'>;
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
  readonly way: LaidWay;
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
  /** Rays as they went, where they were to be kept. */
  readonly traces?: ModelTraces;
}

/** The looks of a model, with all their rays. */
export interface ModelTraces {
  /** Patches of parts and panels. */
  readonly large: TracedExchange;
  /** Patches of lines with few rays, and those that see something hot with many. */
  readonly first: TracedExchange;
  readonly close: TracedExchange;
  /** Stretches of looms and cables that see something hot, with as many for their whole round as a line has for its sectors. */
  readonly along: TracedExchange;
}

export interface HeatModelAsk {
  readonly car: Car;
  readonly bay: Bay;
  readonly shelf: Catalogue;
  readonly meshes: ReadonlyMap<string, TriangleMesh>;
  readonly ways: ReadonlyMap<string, LaidWay>;
  /** Panels that are off. */
  readonly coversOff?: readonly string[];
  /** `keep`: rays are kept for the next time; a model with its traces: only rays that a change touches are shot anew. */
  readonly before?: 'keep' | ModelTraces;
  /** The model that `before` is of: lines that lie as they did are taken over. */
  readonly like?: HeatModel;
  /** As `panelLayouts` gives them, where they are known. */
  readonly layouts?: readonly PanelLayout[];
}

/** The circumference in so many; a sector's own temperature stands for 45 degrees of it. */
export const SECTORS = 8;
export const SEGMENT_MM = 20;
const PANEL_CELL_MM = 100;
/** Every ray estimate begins from this number. */
export const RAY_SEED = 20_261_004;
/** What a close look at begins from, so that it does not repeat the rays that chose what to look at. */
const CLOSE_SEED = RAY_SEED + 1;
/** Rays of a first look, and of a patch that sees something hot. */
const FIRST_RAYS = 64;
const CLOSE_RAYS = 512;
const BODY_RAYS = 512;
const ALONG_RAYS = 4096;
/** A stretch that sends more than this to what is hot is looked at again. */
const ALONG_SHARE = 0.001;
/** A patch that sends more than this share to what is hot is looked at closely. */
const HOT_SHARE = 0.01;
/** What counts as hot there [degC]. */
const HOT_C = 200;

/** All that radiates on a car, traced. */
export function heatModel(ask: HeatModelAsk): HeatModel {
  const { car, bay, shelf } = ask;
  const surfaces: HeatSurface[] = [];
  const patches: Patch[] = [];
  // Panels are patched by themselves; a lever is cold and small, its cables are followed.
  const cables = cableBayParts(car);
  const own = new Set([...(car.panels ?? []), ...(car.levers ?? []), ...cables].map(({ id }) => id));
  const parts = [...bay.parts.filter(({ id }) => !own.has(id)), ...cables]
    .filter(({ solids }) => solids.length > 0)
    .flatMap(
      (part): Pick<ModelPart, 'part' | 'stretch'>[] =>
        partStretches(part)?.map(({ part: piece, ...stretch }) => ({ part: piece, stretch })) ?? [{ part }],
    )
    .map((row) => {
      const { part } = row;
      const cover = coverOf(part.part);
      const finish = cover?.finish ?? bareFinish(part.part);
      const surface = surfaces.length;
      surfaces.push({ id: part.id, kind: 'part', solids: part.solids, emissivity: finish.emissivity });
      patches.push(partPatch(surface, finish.emissivity, part.solids));
      return { ...row, surface, patch: patches.length - 1, finish, cover };
    });
  const panels = modelPanels(ask, surfaces, patches);
  const lines = car.lines.flatMap((line) => {
    const way = ask.ways.get(line.id);
    return way === undefined || way.bodies.length === 0 ? [] : [modelLine(line, way, ask, surfaces, patches)];
  });
  const hot = Uint8Array.from(surfaces, () => 0);
  for (const { part, surface } of parts)
    if (Math.max(part.part.surfaceC ?? 0, ...(part.part.surfaceByCase ?? []).map((row) => row.surfaceC)) > HOT_C)
      hot[surface] = 1;
  const bodies = parts.length + panels.reduce((sum, row) => sum + row.patches.length, 0);
  const { rows, covered, raysShot, traces } = traced({
    surfaces,
    patches,
    hot,
    bodies,
    stretches: parts.flatMap(({ stretch, patch }) => (stretch === undefined ? [] : [patch])),
    ...(ask.before === undefined ? {} : { before: ask.before }),
  });
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
    ...(traces === undefined ? {} : { traces }),
  };
}

function modelPanels(ask: HeatModelAsk, surfaces: HeatSurface[], patches: Patch[]): ModelPanel[] {
  if ((ask.car.panels ?? []).length === 0) return [];
  return (ask.layouts ?? panelLayouts(ask.car, { meshes: ask.meshes })).flatMap((layout): ModelPanel[] => {
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

function modelLine(
  line: Line,
  way: LaidWay,
  { shelf, like }: HeatModelAsk,
  surfaces: HeatSurface[],
  patches: Patch[],
): ModelLine {
  const made =
    (like === undefined ? null : lineTakenOver(line, way, shelf, like, surfaces.length, patches.length)) ??
    lineInModel(line, way, shelf, surfaces.length, patches.length);
  surfaces.push(made.heats);
  patches.push(...made.line.patches);
  return made.line;
}

/** A line of another model that lies and is made as it was there; null: it is another. */
function lineTakenOver(
  line: Line,
  way: LaidWay,
  shelf: Catalogue,
  like: HeatModel,
  surface: number,
  firstPatch: number,
): { readonly line: ModelLine; readonly heats: HeatSurface } | null {
  const was = like.lines.find((row) => row.line.id === line.id);
  if (was === undefined || was.surface !== surface || was.firstPatch !== firstPatch) return null;
  const walls = lineWalls(line, way.bodies, shelf);
  const isSame = (a: unknown, b: unknown): boolean => a === b || JSON.stringify(a) === JSON.stringify(b);
  if (!isSame(was.way.bodies, way.bodies) || !isSame(was.walls, walls)) return null;
  return { line: { ...was, line, way }, heats: like.surfaces[surface]! };
}

/** A line in patches, and as what rays meet. */
export function lineInModel(
  line: Line,
  way: LaidWay,
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
  /** Those of them that are stretches of long parts. */
  readonly stretches: readonly number[];
  readonly before?: HeatModelAsk['before'];
}

/** A first look with few rays; what sees something hot is looked at closely. */
function traced({ surfaces, patches, hot, bodies, stretches, before }: TraceAsk) {
  const looks: Partial<Record<keyof ModelTraces, TracedExchange>> = {};
  const scene = rayScene(surfaces);
  const allPlaces = patchPlaces(surfaces.length, patches);
  const look = (which: keyof ModelTraces, at: readonly number[], raysPerPatch: number, seed = RAY_SEED): Exchange => {
    const of = at.map((p) => patches[p]!);
    // A patch keeps its chance whichever others are looked at closely beside it: its rays can be taken over after a change.
    const places = Int32Array.from(at, (p) => allPlaces[p]!);
    const asked: ExchangeAsk = { surfaces, patches: of, places, raysPerPatch, seed, scene };
    if (before === undefined) return exchangeFactors(asked);
    const made = before === 'keep' ? tracedExchange(asked) : exchangeAgain(before[which], asked);
    looks[which] = made;
    return made.exchange;
  };
  const all = Array.from(patches.keys());
  const large = look('large', all.slice(0, bodies), BODY_RAYS);
  const first = look('first', all.slice(bodies), FIRST_RAYS);
  const rows: ModelRow[] = [...rowsOf(large), ...rowsOf(first)];
  const seesHot =
    (least: number) =>
    (p: number): boolean => {
      const { to, share } = rows[p]!;
      return to.some((surface, k) => hot[surface] === 1 && share[k]! > least);
    };
  let looked = 0;
  const lookCloser = (which: 'close' | 'along', at: readonly number[], raysPerPatch: number): void => {
    const again = look(which, at, raysPerPatch, CLOSE_SEED);
    looked += again.raysShot;
    rowsOf(again).forEach((row, k) => {
      rows[at[k]!] = row;
    });
  };
  lookCloser('close', all.slice(bodies).filter(seesHot(HOT_SHARE)), CLOSE_RAYS);
  lookCloser('along', stretches.filter(seesHot(ALONG_SHARE)), ALONG_RAYS);
  const covered = new Float64Array(patches.length);
  covered.set(large.covered);
  covered.set(first.covered, bodies);
  const raysShot = large.raysShot + first.raysShot + looked;
  const traces = before === undefined ? undefined : (looks as ModelTraces);
  return { rows, covered, raysShot, traces };
}

/** The rows of an exchange, one for each patch. */
export const rowsOf = ({ starts, to, share, error95 }: Exchange): ModelRow[] =>
  Array.from({ length: starts.length - 1 }, (_, p) => {
    const [a, b] = [starts[p]!, starts[p + 1]!];
    return { to: to.slice(a, b), share: share.slice(a, b), error95: error95.slice(a, b) };
  });
