import type { LeverCable } from '#car';
import type { Vec } from '#geometry';
import { controlCableLimit } from '#standards';
import type { HeatFinding } from '../finding.ts';
import type { HeatModel } from './heat-model.ts';
import type { HeatLimit, PanelHeat, PartHeat } from '../heat-answer.ts';
import { filmHeat } from '../balance/net-state.kernel.ts';
import { stefanBoltzmann } from '../laws/radiation.ts';
import { errorAt, type NetAt, sharesAt } from './heat-shares.ts';
import { airOfNode, type ToldC } from './line-heat.ts';
import type { CaseState } from './net-in-case.ts';

const stands = (
  what: 'part' | 'panel',
  name: string,
  limitC: number | undefined,
  valueC: number,
  isStated = true,
  atMm?: Vec,
): readonly HeatLimit[] =>
  limitC === undefined
    ? []
    : [
        {
          what,
          name: isStated ? name : `${name}, a ${controlCableLimit.name}`,
          limitC,
          valueC,
          marginK: limitC - valueC,
          source: isStated ? 'the car file' : controlCableLimit.source,
          ...(atMm === undefined ? {} : { atMm }),
        },
      ];

/** What a part is called in a finding: a lever's cable is no part of the car file. */
export function partOrCable(
  { car }: Pick<HeatModel, 'car'>,
  id: string,
): Pick<HeatFinding, 'part' | 'lever' | 'cable'> {
  const owner = car.levers?.find((lever) => lever.cables?.some((cable) => `${lever.id}-${cable.id}` === id));
  if (owner !== undefined) return { lever: owner.id, cable: id };
  return car.parts.some((part) => part.id === id) ? { part: id } : {};
}

/** The lever's cable that a part stands for; undefined: it is a part of its own. */
export const cableNamed = ({ car }: Pick<HeatModel, 'car'>, id: string): LeverCable | undefined =>
  (car.levers ?? [])
    .flatMap((lever) => (lever.cables ?? []).map((cable) => ({ id: `${lever.id}-${cable.id}`, cable })))
    .find((row) => row.id === id)?.cable;

/** The parts of a model, each with its rows there: one, or those of its stretches in their order. */
export function wholeParts({ parts }: Pick<HeatModel, 'parts'>): readonly (readonly number[])[] {
  const rows = new Map<string, number[]>();
  parts.forEach(({ part }, i) => rows.set(part.part.id, [...(rows.get(part.part.id) ?? []), i]));
  return [...rows.values()];
}

/** How hot a part gets: of one in stretches the hottest of them, and each. */
export function partHeat(first: NetAt, told: ToldC, state: CaseState, rows: readonly number[]): PartHeat {
  const { model, layout } = first;
  const cOf = (row: number): number => told.c(layout.partNode[row]!);
  const i = rows.reduce((best, row) => (cOf(row) > cOf(best) ? row : best));
  const part = model.parts[i]!;
  const sum = (of: (at: NetAt, row: number) => number): number =>
    rows.reduce((total, row) => total + of(told.at(layout.partNode[row]!), row), 0);
  const node = layout.partNode[i]!;
  const under = layout.underNode[i]!;
  const at = told.at(node);
  const c = told.c(node);
  const minutes = told.minutes(node);
  const warmth = state.warmth[i]!;
  const isGiven = at.state.net.fixed[node] === 1;
  const ask = {
    nodes: [node],
    surface: part.surface,
    airC: airOfNode(at, node),
    hottestC: c,
    linked: (other: number) =>
      other === under ? ({ of: 'under', kind: 'part', name: 'what is under its cover' } as const) : null,
  };
  const shares = isGiven ? [] : sharesAt(at, ask);
  const cable = cableNamed(model, part.part.part.id);
  const isOwn = cable === undefined || cable.standsC !== undefined;
  return {
    part: part.part.part.id,
    name: part.part.name,
    surfaceC: c,
    ...(under < 0 ? {} : { underC: told.c(under) }),
    how: warmth.how === 'given' || warmth.how === 'kept' ? (under < 0 ? warmth.how : 'worked out') : 'worked out',
    emissivity: part.finish.emissivity,
    toAirW: sum((moment, row) => toAir(moment, layout.partNode[row]!)),
    byRadiationW: sum((moment, row) => radiated(moment, model.parts[row]!.surface, layout.partNode[row]!)),
    errorK: isGiven ? 0 : errorAt(at, ask, shares, [{ patch: part.patch, areaM2: part.openM2 }]),
    shares,
    limits: stands('part', part.part.name, part.part.part.standsC, c, isOwn, part.stretch?.atMm),
    ...(part.stretch === undefined
      ? {}
      : {
          places: rows.map((row) => {
            const { share: _share, ...place } = model.parts[row]!.stretch!;
            return { ...place, c: cOf(row) };
          }),
        }),
    ...(minutes === undefined ? {} : { peak: { atMin: minutes, c } }),
  };
}

function toAir({ state, c }: NetAt, node: number): number {
  const { net } = state;
  let sum = 0;
  for (let l = 0; l < net.filmNode.length; l++)
    if (net.filmNode[l] === node) sum += net.filmArea[l]! * filmHeat(net.films[net.film[l]!]!, c[node]!);
  return sum;
}

const ICE_K = 273.15;

function radiated({ layout, state, c }: NetAt, surface: number, node: number): number {
  const { net } = state;
  const fourth = (n: number): number => (c[n]! + ICE_K) ** 4;
  let sum = net.outsideK[node]! * (fourth(node) - (net.outsideC + ICE_K) ** 4);
  for (const p of layout.pairsOfSurface[surface]!) {
    const { k, nodesA, weightsA, nodesB, weightsB } = net.pairs[p]!;
    for (const [nodes, weights, others, otherWeights] of [
      [nodesA, weightsA, nodesB, weightsB],
      [nodesB, weightsB, nodesA, weightsA],
    ] as const) {
      const at = nodes.indexOf(node);
      if (at < 0) continue;
      const other = others.reduce((total, n, j) => total + otherWeights[j]! * fourth(n), 0);
      sum += k * weights[at]! * (fourth(node) - other);
    }
  }
  return stefanBoltzmann * sum;
}

/** How hot a panel gets. */
export function panelHeat(first: NetAt, told: ToldC, i: number): PanelHeat {
  const { model, layout } = first;
  const panel = model.panels[i]!;
  const base = layout.panelNode[i]!;
  const cells = panel.patches
    .filter((_, k) => k % 2 === 0)
    .map((patch, k) => ({ patch, node: base + k, c: told.c(base + k) }));
  const worst = cells.reduce((best, cell) => (cell.c > best.c ? cell : best));
  const area = cells.reduce((sum, { patch }) => sum + patch.areaM2, 0);
  const at = told.at(worst.node);
  const minutes = told.minutes(worst.node);
  const ask = {
    nodes: [worst.node],
    surface: panel.surface,
    airC: airOfNode(at, worst.node),
    hottestC: worst.c,
    linked: () => null,
  };
  const shares = sharesAt(at, ask);
  const first2 = panel.firstPatch + 2 * (worst.node - base);
  return {
    panel: panel.id,
    name: panel.name,
    meanC: cells.reduce((sum, { patch, c }) => sum + patch.areaM2 * c, 0) / area,
    worstC: worst.c,
    atMm: worst.patch.middleMm,
    errorK: errorAt(
      at,
      ask,
      shares,
      [first2, first2 + 1].map((patch) => ({ patch, areaM2: model.patches[patch]!.areaM2 })),
    ),
    shares,
    limits: stands('panel', panel.name, panel.layout.panel.standsC, worst.c),
    patches: cells.map(({ patch, c }) => ({ atMm: patch.middleMm, c, areaM2: patch.areaM2 })),
    ...(minutes === undefined ? {} : { peak: { atMin: minutes, c: worst.c } }),
  };
}
