import type { LinesWorld } from '#lines';
import { collarId } from '#standards';
import type { FitsElsewhere } from './fits-elsewhere.ts';
import { hoseEndId, hoseEndRows } from './hose-ends-of.ts';
import { type PartKind, partIndex, partKinds } from './part-index.ts';
import { endsOf, partUses, pieceUses } from './part-uses.ts';
import { type LineWithWay, isMade } from './planned-lines.ts';

/** A line in both cars, or in one. */
export interface PartsMove {
  readonly was: LineWithWay | null;
  readonly is: LineWithWay | null;
  readonly kept: boolean;
}

export interface BuyRow {
  readonly id: string;
  readonly name: string;
  readonly kind: PartKind;
  /** More than the first car has to give. */
  readonly qty: number;
  readonly unit: 'each' | 'm';
  readonly usedIn: readonly string[];
  readonly inBox: number;
  readonly toBuy: number;
}

export interface SurplusRow {
  readonly id: string;
  readonly name: string;
  readonly kind: PartKind;
  readonly qty: number;
  readonly unit: 'each' | 'm';
  readonly from: readonly string[];
}

interface Count {
  readonly kind: PartKind;
  readonly unit: 'each' | 'm';
  qty: number;
  readonly places: string[];
}

/**
 * Parts that the second car needs beyond what the first gives, and what is left of the first. A line that is kept keeps its parts. Of a line
 * already made, hose, seals and ends that cannot be used again give nothing, except as a whole hose that does elsewhere.
 */
export function partsMoved(
  a: LinesWorld,
  b: LinesWorld,
  moves: readonly PartsMove[],
  elsewhere: readonly FitsElsewhere[],
): { buy: BuyRow[]; surplus: SurplusRow[] } {
  const needed = new Map<string, Count>();
  const given = new Map<string, Count>();
  const passedOn = new Set(elsewhere.map((fit) => fit.line));
  for (const { was, is, kept } of moves) {
    if (kept) continue;
    if (is?.way) count(needed, usesOf(b, is));
    if (was?.way) count(given, givesOf(a, was, passedOn.has(was.line.id)));
  }
  count(needed, newCollars(a, moves, needed, passedOn));
  const hoses = [
    ...needed.keys(),
    ...given.keys(),
    ...moves
      .flatMap(({ was, is }) => [was, is])
      .flatMap((entry) => entry?.way?.pieces.flatMap((piece) => piece.hose ?? []) ?? []),
  ];
  const [factsA, factsB] = [partIndex(a.shelf, hoses), partIndex(b.shelf, hoses)];
  const nameOf = (id: string): string => (factsB(id).unknown === true ? factsA(id).name : factsB(id).name);
  const spoken = inUseBefore(a, moves);
  const buy: BuyRow[] = [];
  const surplus: SurplusRow[] = [];
  for (const id of [...new Set([...needed.keys(), ...given.keys()])]) {
    const [need, give] = [needed.get(id), given.get(id)];
    const more = round((need?.qty ?? 0) - (give?.qty ?? 0));
    const { kind, unit } = (need ?? give)!;
    if (more > 0) {
      const onShelf = (b.car.box ?? []).filter((row) => row.id === id).reduce((sum, row) => sum + row.qty, 0);
      const inBox = round(Math.min(more, Math.max(0, onShelf - (spoken.get(id) ?? 0))));
      buy.push({
        id,
        name: nameOf(id),
        kind,
        qty: more,
        unit,
        usedIn: need?.places ?? [],
        inBox,
        toBuy: round(more - inBox),
      });
    }
    if (more < 0) surplus.push({ id, name: nameOf(id), kind, qty: -more, unit, from: give?.places ?? [] });
  }
  return { buy: sorted(buy), surplus: sorted(surplus) };
}

const round = (qty: number): number => Number(qty.toFixed(3));

const sorted = <T extends { readonly id: string; readonly kind: PartKind }>(rows: readonly T[]): T[] =>
  [...rows].sort((p, q) => partKinds.indexOf(p.kind) - partKinds.indexOf(q.kind) || (p.id < q.id ? -1 : 1));

interface Use {
  readonly id: string;
  readonly kind: PartKind;
  readonly qty: number;
  readonly unit: 'each' | 'm';
  readonly where: string;
}

function count(into: Map<string, Count>, uses: readonly Use[]): void {
  for (const { id, kind, qty, unit, where } of uses) {
    const had = into.get(id);
    if (had === undefined) into.set(id, { kind, unit, qty, places: [where] });
    else {
      had.qty = round(had.qty + qty);
      if (!had.places.includes(where)) had.places.push(where);
    }
  }
}

/** Everything on a line, hose and tube in metres as cut to the longest its allowance asks. */
function usesOf(world: LinesWorld, { line, way }: LineWithWay): Use[] {
  const parts = partUses(world.car, line, way!, world.shelf).map((use): Use => ({ ...use, unit: 'each' }));
  const lengths = pieceUses(line, way!, world.shelf).map(
    (piece): Use => ({
      id: piece.id,
      kind: piece.kind,
      qty: (piece.lengthMm + piece.allowanceMm[1]) / 1000,
      unit: 'm',
      where: `${line.id} piece ${piece.piece}`,
    }),
  );
  return [...lengths, ...parts];
}

/** What a line gives back when it is taken apart; all of it while nothing of it is made up. */
function givesOf(world: LinesWorld, entry: LineWithWay, asWholeHose: boolean): Use[] {
  const { line, way } = entry;
  const all = usesOf(world, entry);
  if (!isMade(line) || line.state === 'bought') return all;
  const ends = hoseEndRows(
    endsOf(way!),
    way!.pieces.map((piece) => piece.hose),
    world.shelf,
  );
  const comesOff = new Set(ends.filter((row) => row.reusable).map((row) => row.id));
  const ids = new Set(endsOf(way!).map((end) => hoseEndId(end.makeUp, world.shelf)));
  return all.filter((use) => {
    if (use.kind === 'seal') return false;
    if (use.kind === 'hose' || use.kind === 'tube') return asWholeHose;
    return use.kind !== 'hose-end' || asWholeHose || (ids.has(use.id) && comesOff.has(use.id));
  });
}

/** Crushed-collar ends of made hoses that go on again want a new collar each: the old one stays on the hose that is cut off. */
function newCollars(
  world: LinesWorld,
  moves: readonly PartsMove[],
  needed: ReadonlyMap<string, Count>,
  passedOn: ReadonlySet<string>,
): Use[] {
  const off = moves.flatMap(({ was, kept }) =>
    kept || !was?.way || !isMade(was.line) || was.line.state === 'bought' || passedOn.has(was.line.id)
      ? []
      : hoseEndRows(
          endsOf(was.way),
          was.way.pieces.map((piece) => piece.hose),
          world.shelf,
        ),
  );
  const collars = off.filter((row) => row.fixing === 'crushed-collar' && row.hoseDash !== undefined);
  return [...new Set(collars)].flatMap((row): Use[] => {
    const again = Math.min(collars.filter(({ id }) => id === row.id).length, needed.get(row.id)?.qty ?? 0);
    const where = needed.get(row.id)?.places ?? [];
    return again === 0
      ? []
      : [{ id: collarId(row.hoseDash!), kind: 'seal', qty: again, unit: 'each', where: where.join(', ') }];
  });
}

/** What the first car's planned lines take off the shelf already. */
function inUseBefore(a: LinesWorld, moves: readonly PartsMove[]): ReadonlyMap<string, number> {
  const spoken = new Map<string, number>();
  for (const { was } of moves) {
    if (!was?.way || isMade(was.line)) continue;
    for (const { id, qty } of usesOf(a, was)) spoken.set(id, (spoken.get(id) ?? 0) + qty);
  }
  return spoken;
}
