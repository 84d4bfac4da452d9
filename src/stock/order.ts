import type { Car } from '#car';
import type { Catalogue } from '#standards';
import { type CutPlan, cutPlan } from './cut-plan.ts';
import type { OrderRow } from './order-row.ts';
import { type Making, makings } from './makings.ts';
import { type PartFacts, type PartIndex, partIndex, partKinds } from './part-index.ts';
import { type PartUse, type PieceUse, partUses, pieceUses } from './part-uses.ts';
import { type PlannedLines, isMade, linesWithWays } from './planned-lines.ts';
import { spareRows } from './spare-rows.ts';

/** One length to cut. */
export interface OrderCut {
  readonly line: string;
  /** Catalogue id of the hose or tube. */
  readonly hose: string;
  readonly kind: 'hose' | 'tube';
  readonly lengthMm: number;
  /** Which length of the line it is, from 1. */
  readonly number: number;
  readonly allowanceMm: readonly [number, number];
}

/** A hose or tube by the metre, and which cut comes from which length. */
export interface CutSheet extends CutPlan {
  readonly id: string;
  readonly kind: 'hose' | 'tube';
  /** To buy [m]. */
  readonly toBuyM: number;
}

export interface Order {
  readonly rows: readonly OrderRow[];
  readonly cuts: readonly OrderCut[];
  readonly hoseByTheMetre: readonly CutSheet[];
  readonly tubes: readonly CutSheet[];
  /** How the hose ends are put on, kind by kind. */
  readonly makings: readonly Making[];
  /** Brackets to make, for clamps with nothing fixed within reach. */
  readonly brackets: readonly {
    readonly line: string;
    readonly alongMm: number;
    readonly atMm: readonly [number, number, number];
  }[];
  /** Sum of what has a price, for each currency. */
  readonly cost: readonly { readonly currency: string; readonly sum: number }[];
  /** Rows to buy that have no price. */
  readonly unpriced: number;
  /** Planned lines without a way: nothing of theirs is in this order. */
  readonly withoutWay: readonly string[];
  readonly remarks: readonly string[];
}

/** What the builder may set; the usual values are common practice, no source. */
export interface OrderOptions {
  readonly spares?: boolean;
  /** Lengths that tube is sold in [mm]. */
  readonly tubeStockMm?: readonly number[];
  /** Longest hose in one length [m]. */
  readonly hoseRollM?: number;
  /** Lost at each cut: a cut-off wheel and squaring [mm]. */
  readonly cutLossMm?: number;
  /** Lost once a length [mm]. */
  readonly endsWasteMm?: number;
}

const usual = {
  spares: true,
  tubeStockMm: [2000, 6000],
  hoseRollM: 20,
  cutLossMm: 3,
  endsWasteMm: 20,
} as const satisfies Required<OrderOptions>;

/** What to buy for every planned line that has a way: every part counted, less the box, with the cuts and what they come from. */
export function order(car: Car, planned: PlannedLines, shelf: Catalogue, options: OrderOptions = {}): Order {
  const wish = { ...usual, ...options };
  const all = linesWithWays(car, planned);
  const toBuild = all.filter(({ line, way }) => !isMade(line) && way !== null);
  const uses = toBuild.flatMap(({ line, way }) => partUses(car, line, way!, shelf));
  const pieces = toBuild.flatMap(({ line, way }) => pieceUses(line, way!, shelf));
  const everyPiece = all.flatMap(({ line, way }) => (way === null ? [] : pieceUses(line, way, shelf)));
  const facts = partIndex(
    shelf,
    everyPiece.map((piece) => piece.id),
  );
  const box = new Box(car);
  const sheets = cutSheets(pieces, box, wish);
  const rows = sortedRows([...lengthRows(sheets, pieces, facts, box), ...partRows(uses, facts, box)]);
  const spares = wish.spares ? spareRows({ car, lines: all, shelf, facts, take: (id, qty) => box.take(id, qty) }) : [];
  const everything = [...rows, ...spares];
  return {
    rows: everything,
    cuts: pieces.map(({ line, id, kind, lengthMm, piece, allowanceMm }) => ({
      line,
      hose: id,
      kind,
      lengthMm,
      number: piece,
      allowanceMm,
    })),
    hoseByTheMetre: sheets.filter((sheet) => sheet.kind === 'hose'),
    tubes: sheets.filter((sheet) => sheet.kind === 'tube'),
    makings: makings(toBuild, shelf),
    brackets: toBuild.flatMap(({ line, way }) =>
      (way!.clamps ?? [])
        .filter((clamp) => clamp.bracket === true)
        .map((clamp) => ({ line: line.id, alongMm: clamp.alongMm ?? 0, atMm: clamp.atMm ?? ([0, 0, 0] as const) })),
    ),
    ...costOf(everything),
    withoutWay: all.filter(({ line, way }) => !isMade(line) && way === null).map(({ line }) => line.id),
    remarks: remarksOn(sheets, everything),
  };
}

/** What lies on the shelf; each thing can be taken once. */
class Box {
  private readonly left = new Map<string, number>();

  constructor(car: Car) {
    for (const { id, qty } of car.box ?? []) this.left.set(id, (this.left.get(id) ?? 0) + qty);
  }

  has(id: string): number {
    return this.left.get(id) ?? 0;
  }

  take(id: string, qty: number): number {
    const taken = Math.min(qty, this.has(id));
    this.left.set(id, this.has(id) - taken);
    return taken;
  }
}

function partRows(uses: readonly PartUse[], facts: PartIndex, box: Box): OrderRow[] {
  const byId = new Map<string, PartUse[]>();
  for (const use of uses) byId.set(use.id, [...(byId.get(use.id) ?? []), use]);
  return [...byId].map(([id, all]) => {
    const qty = all.reduce((sum, use) => sum + use.qty, 0);
    const inBox = box.take(id, qty);
    return {
      id,
      ...known(facts(id)),
      kind: all[0]!.kind,
      qty,
      unit: 'each',
      usedIn: all.map((use) => (use.qty === 1 ? use.where : `${use.where} (${use.qty})`)),
      inBox,
      toBuy: qty - inBox,
    };
  });
}

function known({ unknown: _unknown, ...facts }: PartFacts): Omit<PartFacts, 'unknown'> {
  return facts;
}

/** Hose is bought to the longest that its allowance asks: too long is trimmed at the trial fit, too short is scrap. */
function cutSheets(pieces: readonly PieceUse[], box: Box, wish: Required<OrderOptions>): CutSheet[] {
  const ids = [...new Set(pieces.map((piece) => piece.id))].sort();
  return ids.map((id) => {
    const mine = pieces.filter((piece) => piece.id === id);
    const { kind } = mine[0]!;
    const wanted = mine.map((piece) => ({
      id: `${piece.line} piece ${piece.piece}`,
      lengthMm: piece.lengthMm + piece.allowanceMm[1],
    }));
    const inBoxMm = box.has(id) > 0 ? [box.has(id) * 1000] : [];
    const boughtMm =
      kind === 'tube'
        ? wish.tubeStockMm
        : Array.from({ length: Math.max(1, Math.ceil(wish.hoseRollM)) }, (_, i) => 1000 * (i + 1));
    const plan = cutPlan(wanted, { inBoxMm, boughtMm, cutLossMm: wish.cutLossMm, endsWasteMm: wish.endsWasteMm });
    const metres =
      plan.lengths.filter((length) => length.from === 'bought').reduce((sum, length) => sum + length.lengthMm, 0) /
      1000;
    return { id, kind, toBuyM: round(metres), ...plan };
  });
}

function lengthRows(sheets: readonly CutSheet[], pieces: readonly PieceUse[], facts: PartIndex, box: Box): OrderRow[] {
  return sheets.map((sheet) => {
    const mine = pieces.filter((piece) => piece.id === sheet.id);
    const used = (from: 'box' | 'bought'): number =>
      round(
        sheet.lengths
          .filter((length) => length.from === from)
          .reduce((sum, length) => sum + length.lengthMm - length.leftMm, 0) / 1000,
      );
    const inBox = box.take(sheet.id, used('box'));
    const found = facts(sheet.id);
    return {
      id: sheet.id,
      ...known(found),
      name: found.unknown === true ? mine[0]!.name : found.name,
      kind: sheet.kind,
      qty: round(used('box') + used('bought')),
      unit: 'm',
      usedIn: mine.map((piece) => `${piece.line} piece ${piece.piece}, ${piece.lengthMm} mm`),
      inBox,
      toBuy: sheet.toBuyM,
    };
  });
}

const round = (metres: number): number => Number(metres.toFixed(3));

/** By kind, then by id: the same car gives the same list. */
function sortedRows(rows: readonly OrderRow[]): OrderRow[] {
  return [...rows].sort((a, b) => partKinds.indexOf(a.kind) - partKinds.indexOf(b.kind) || (a.id < b.id ? -1 : 1));
}

function costOf(rows: readonly OrderRow[]): Pick<Order, 'cost' | 'unpriced'> {
  const sums = new Map<string, number>();
  const toBuy = rows.filter((row) => row.toBuy > 0);
  for (const row of toBuy)
    if (row.price !== undefined)
      sums.set(row.currency ?? '', (sums.get(row.currency ?? '') ?? 0) + row.toBuy * row.price);
  return {
    cost: [...sums]
      .map(([currency, sum]) => ({ currency, sum: Number(sum.toFixed(2)) }))
      .sort((a, b) => (a.currency < b.currency ? -1 : 1)),
    unpriced: toBuy.filter((row) => row.price === undefined).length,
  };
}

function remarksOn(sheets: readonly CutSheet[], rows: readonly OrderRow[]): string[] {
  const long = sheets.flatMap((sheet) =>
    sheet.tooLong.map(
      (cut) =>
        `${cut.id}: ${cut.lengthMm} mm of ${sheet.id} is longer than any length it comes in; it needs a joint or a longer length`,
    ),
  );
  const fromBox = sheets
    .filter((sheet) => sheet.lengths.some((length) => length.from === 'box'))
    .map((sheet) => `${sheet.id}: what the box holds is taken to be one length; measure it before buying`);
  const measured = rows.filter((row) => row.measure && row.toBuy > 0).length;
  const measure =
    measured === 0
      ? []
      : [`${measured} rows have the dimensions of a usual part: measure the part in your hand before cutting to it`];
  return [...long, ...fromBox, ...measure];
}
