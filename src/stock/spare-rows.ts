import { type Car, findPort } from '#car';
import { type Catalogue, type End, type PlugRow, endKey } from '#standards';
import type { OrderRow } from './order-row.ts';
import type { PartIndex } from './part-index.ts';
import { partUses, pieceUses } from './part-uses.ts';
import type { LineWithWay } from './planned-lines.ts';

interface SpareWish {
  readonly car: Car;
  readonly lines: readonly LineWithWay[];
  readonly shelf: Catalogue;
  readonly facts: PartIndex;
  /** Takes as many as there are from the shelf. */
  readonly take: (id: string, qty: number) => number;
}

/** Rings are carried four of each size in use. */
const RINGS = 4;

/**
 * What to carry: one of each hose end size and angle in use, four of each O-ring, a cap or plug for every size of port and hose
 * end with its seals, one metre of each hose. Common practice, no source. Lines already made count: their spares are needed too.
 */
export function spareRows({ car, lines, shelf, facts, take }: SpareWish): OrderRow[] {
  const withWay = lines.filter((entry) => entry.way !== null);
  const uses = withWay.flatMap(({ line, way }) => partUses(car, line, way!, shelf));
  const pieces = withWay.flatMap(({ line, way }) => pieceUses(line, way!, shelf));
  const idsOf = (kind: string): string[] =>
    [...new Set(uses.filter((use) => use.kind === kind).map((use) => use.id))].sort();
  const isRing = (id: string): boolean => shelf.findSeal(id)?.kind === 'o-ring' || id.startsWith('o-ring');
  const hoses = [...new Set(pieces.filter((piece) => piece.kind === 'hose').map((piece) => piece.id))].sort();
  const hoseEnds = idsOf('hose-end');
  const plugs = plugsFor(
    portEnds(car, lines),
    hoses.flatMap((id) => swivelsOf(id, hoseEnds, shelf)),
    shelf,
  );
  const rings = new Map(
    idsOf('seal')
      .filter(isRing)
      .map((id) => [id, RINGS]),
  );
  const others = new Map<string, number>();
  for (const seal of plugs.flatMap((plug) => plug.seals)) {
    if (isRing(seal.id)) rings.set(seal.id, RINGS);
    else others.set(seal.id, (others.get(seal.id) ?? 0) + seal.qty);
  }
  const row = (id: string, kind: OrderRow['kind'], qty: number, unit: OrderRow['unit'] = 'each'): OrderRow => {
    const { unknown: _unknown, ...known } = facts(id);
    const inBox = take(id, qty);
    return { id, ...known, kind, qty, unit, usedIn: [], inBox, toBuy: Number((qty - inBox).toFixed(3)), spare: true };
  };
  const seals = [...rings, ...others].sort(([a], [b]) => (a < b ? -1 : 1));
  return [
    ...hoses.map((id) => row(id, 'hose', 1, 'm')),
    ...hoseEnds.map((id) => row(id, 'hose-end', 1)),
    ...seals.map(([id, qty]) => row(id, 'seal', qty)),
    ...plugs.map((plug) => row(plug.id, 'plug', 1)),
  ];
}

/** Every kind of port that a line is on. */
function portEnds(car: Car, lines: readonly LineWithWay[]): End[] {
  return lines.flatMap(({ line }) => [line.from, line.to]).flatMap((ref) => findPort(car, ref)?.port.end ?? []);
}

/** What the hose ends in use screw onto, and themselves: both are left open when a hose comes off. */
function swivelsOf(hoseId: string, inUse: readonly string[], shelf: Catalogue): End[] {
  const hose = shelf.findHose(hoseId);
  if (hose === undefined) return [];
  const swivels = shelf
    .hoseEndsFor(hose)
    .filter((end) => inUse.includes(end.id))
    .map((end) => end.to);
  return swivels.flatMap((end): End[] =>
    end.type === 'flare37-female' ? [end, { type: 'flare37-male', dash: end.dash }] : [end],
  );
}

function plugsFor(ports: readonly End[], swivels: readonly End[], shelf: Catalogue): PlugRow[] {
  const open = new Set([...ports, ...swivels].map(endKey));
  return shelf.plugs.filter((plug) => open.has(endKey(plug.closes)));
}
