import type { Touching } from '../balance/net-shape.ts';
import { filmHeat, type NetState } from '../balance/net-state.kernel.ts';
import { isBoiling } from '../laws/boiling-film.ts';
import type { HeatShare } from '../heat-answer.ts';
import { stefanBoltzmann } from '../laws/radiation.ts';
import type { HeatModel } from './heat-model.ts';
import type { NetLayout } from './net-layout.ts';

const ICE_K = 273.15;
const fourth = (c: number): number => (c + ICE_K) ** 4;

/** A network at some moment, with what it was drawn from. */
export interface NetAt {
  readonly model: HeatModel;
  readonly layout: NetLayout;
  readonly state: NetState;
  readonly c: Float64Array;
}

/** What the shares of a place are asked of. */
export interface ShareAsk {
  /** Nodes that count as the place: one, or a ring of metal that is one temperature. */
  readonly nodes: readonly number[];
  readonly surface: number;
  readonly airC: number;
  /** Hottest of them [degC]. */
  readonly hottestC: number;
  /** What a node linked to them is: its fluid, the part it is screwed to; null: more of the same thing. */
  readonly linked: (node: number) => Pick<HeatShare, 'of' | 'kind' | 'name'> | null;
}

/** More of the same thing, which is no source of its own. */
export const isOfItself = ({ of }: Pick<HeatShare, 'of'>): boolean => of === ALONG;

const ALONG = 'along';
const REST = { of: ALONG, kind: 'part', name: 'the rest of it' } as const;

interface Counted {
  watts: number;
  /** What it would come to over air at the air's own temperature [W]. */
  overAir: number;
}

/** What brings heat to a place and what takes it away; the degrees add up to how much hotter it is than the air about it. */
export function sharesAt({ model, layout, state, c }: NetAt, ask: ShareAsk): readonly HeatShare[] {
  const found = new Map<string, Counted & Pick<HeatShare, 'of' | 'kind' | 'name'>>();
  const add = (who: Pick<HeatShare, 'of' | 'kind' | 'name'>, watts: number, overAir: number): void => {
    const row = found.get(who.of) ?? { ...who, watts: 0, overAir: 0 };
    row.watts += watts;
    row.overAir += overAir;
    found.set(who.of, row);
  };
  const { net } = state;
  const own = new Set(ask.nodes);
  const itself = surfaceNamed(model, ask.surface).of;
  const air = fourth(ask.airC);
  for (const p of layout.pairsOfSurface[ask.surface]!) {
    const [a, b] = layout.pairOf[p]!;
    const { k, nodesA, weightsA, nodesB, weightsB } = net.pairs[p]!;
    const isA = a === ask.surface;
    const [nodes, weights, otherNodes, otherWeights] = isA
      ? [nodesA, weightsA, nodesB, weightsB]
      : [nodesB, weightsB, nodesA, weightsA];
    let other: number | undefined;
    nodes.forEach((node, j) => {
      if (!own.has(node)) return;
      other ??= otherNodes.reduce((sum, n, i) => sum + otherWeights[i]! * fourth(c[n]!), 0);
      const factor = stefanBoltzmann * k * weights[j]!;
      const from = surfaceNamed(model, isA ? b : a);
      // Another stretch of the same cable, the other leg of a bent panel.
      add(from.of === itself ? REST : from, factor * (other - fourth(c[node]!)), factor * (other - air));
    });
  }
  for (const node of ask.nodes) {
    const factor = stefanBoltzmann * net.outsideK[node]!;
    const outside = fourth(net.outsideC);
    add(SURROUNDINGS, factor * (outside - fourth(c[node]!)), factor * (outside - air));
  }
  const { filmsOfNode, linksOfNode } = state.shape;
  for (const l of touchingAny(filmsOfNode, ask.nodes))
    if (!isBoiling(net.films[net.film[l]!]!))
      add(BAY_AIR, -net.filmArea[l]! * filmHeat(net.films[net.film[l]!]!, c[net.filmNode[l]!]!), 0);
  for (const l of touchingAny(linksOfNode, ask.nodes)) {
    const [a, b] = [net.linkA[l]!, net.linkB[l]!];
    if (own.has(a) === own.has(b)) continue;
    const [here, there] = own.has(a) ? [a, b] : [b, a];
    const who = ask.linked(there) ?? {
      of: ALONG,
      kind: 'line' as const,
      name: 'the rest of it, through its own wall',
    };
    add(who, net.linkG[l]! * (c[there]! - c[here]!), net.linkG[l]! * (c[there]! - ask.airC));
  }
  const warms = [...found.values()].reduce((sum, { overAir }) => sum + overAir, 0);
  const rise = ask.hottestC - ask.airC;
  const perW = Math.abs(warms) > 1e-9 ? rise / warms : 0;
  return [...found.values()]
    .map(({ of, kind, name, watts, overAir }) => ({ of, kind, name, watts, kelvin: overAir * perW }))
    .filter(({ watts, kelvin }) => Math.abs(watts) > LEAST_W || Math.abs(kelvin) > LEAST_K)
    .toSorted((a, b) => b.kelvin - a.kelvin || b.watts - a.watts);
}

/** Each once, in order. */
const touchingAny = ({ starts, items }: Touching, nodes: readonly number[]): readonly number[] =>
  [...new Set(nodes.flatMap((node) => [...items.subarray(starts[node]!, starts[node + 1]!)]))].toSorted(
    (a, b) => a - b,
  );

const LEAST_W = 0.005;
const LEAST_K = 0.05;
const SURROUNDINGS = { of: 'surroundings', kind: 'surroundings', name: 'what lies outside the car' } as const;
const BAY_AIR = { of: 'bay-air', kind: 'bay-air', name: 'the air about it' } as const;

function surfaceNamed(model: HeatModel, surface: number): Pick<HeatShare, 'of' | 'kind' | 'name'> {
  const { id, kind } = model.surfaces[surface]!;
  if (kind === 'part') {
    const part = model.parts.find((row) => row.surface === surface)!.part;
    return { of: part.part.id, kind, name: part.name };
  }
  if (kind === 'line') {
    const { line } = model.lines.find((row) => row.surface === surface)!;
    return { of: line.id, kind, name: line.name ?? line.id };
  }
  const panel = model.panels.find((row) => row.surface === surface);
  return { of: panel?.id ?? id, kind, name: panel?.name ?? id };
}

/** How well air and fluids are known from gauges [K]. Common practice. */
const GAUGE_K = 3;

/** How well a builder knows the surface temperature of a hot part: strips and paint, +-20 K. Common practice. */
const GIVEN_KNOWN_K = 20;

/**
 * How far off a place may be [K]: rays, the spread of the hot part's emissivity and of its own, and +-20 K on each given temperature, each
 * taken by itself to first order, together as the root of their squares.
 */
export function errorAt(
  { model, layout, state, c }: NetAt,
  ask: ShareAsk,
  shares: readonly HeatShare[],
  rows: readonly { readonly patch: number; readonly areaM2: number }[],
): number {
  const slope = slopeOf(state, ask.nodes, c);
  let squares = 0;
  let radiated = 0;
  for (const { of, kind, watts } of shares) {
    if (kind !== 'part' && kind !== 'panel' && kind !== 'line') continue;
    radiated += watts;
    const part = kind === 'part' ? model.parts.findIndex((row) => row.part.part.id === of) : -1;
    if (part < 0) continue;
    const { finish, surface } = model.parts[part]!;
    const spread = (finish.spread[1] - finish.spread[0]) / 2 / finish.emissivity;
    const node = layout.partNode[part]!;
    const given = state.net.fixed[node] === 1 && c[node]! > HOT_C ? GIVEN_KNOWN_K : 0;
    const perK = (4 * watts) / Math.max(50, c[node]! + ICE_K);
    squares += (watts * spread) ** 2 + (perK * given) ** 2 + rayError(model, rows, surface, watts) ** 2;
  }
  const own = ownFinish(model, ask.surface);
  squares += (radiated * own) ** 2;
  return Math.hypot(Math.sqrt(squares) / slope, GAUGE_K);
}

/** Given temperatures above this are read off strips and paint; below it off gauges, which are better [degC]. */
const HOT_C = 200;

function rayError(
  model: HeatModel,
  rows: readonly { readonly patch: number; readonly areaM2: number }[],
  surface: number,
  watts: number,
): number {
  let [sum, squares] = [0, 0];
  for (const { patch, areaM2 } of rows) {
    const row = model.rows[patch]!;
    const at = row.to.indexOf(surface);
    if (at < 0) continue;
    sum += areaM2 * row.share[at]!;
    squares += (areaM2 * row.error95[at]!) ** 2;
  }
  return sum > 0 ? (Math.abs(watts) * Math.sqrt(squares)) / sum : 0;
}

function ownFinish(model: HeatModel, surface: number): number {
  const relative = ({ emissivity, spread }: { emissivity: number; spread: readonly [number, number] }): number =>
    (spread[1] - spread[0]) / 2 / emissivity;
  const line = model.lines.find((row) => row.surface === surface);
  if (line !== undefined) return Math.max(...line.walls.map(({ finish }) => relative(finish)));
  const part = model.parts.find((row) => row.surface === surface);
  if (part !== undefined) return relative(part.finish);
  return relative(model.panels.find((row) => row.surface === surface)!.finish.inside);
}

/** Of nodes taken as one: what each by itself gives more for a kelvin, links among them left out. */
function slopeOf(state: NetState, nodes: readonly number[], c: Float64Array): number {
  const own = new Set(nodes);
  let sum = nodes.reduce((total, node) => total + state.slope(node, c), 0);
  const { linkA, linkB, linkG } = state.net;
  for (const l of touchingAny(state.shape.linksOfNode, nodes))
    if (own.has(linkA[l]!) && own.has(linkB[l]!)) sum -= 2 * linkG[l]!;
  return Math.max(1e-9, sum);
}
