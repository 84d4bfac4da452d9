import type { Car } from '#car';
import type { Catalogue } from '#standards';
import { partIndex } from '../part-index.ts';
import { partUses, pieceUses } from '../part-uses.ts';
import type { LineWithWay } from '../planned-lines.ts';
import { type DueItem, stopsTheCar } from './due-list.ts';

/** One thing to load for a weekend. */
export interface WeekendSpare {
  readonly id: string;
  readonly what: string;
  readonly qty: number;
  readonly unit: 'each' | 'm';
  /** Lines that it would mend, those that stop the car first. */
  readonly servesLines: readonly string[];
  /** How many of them stop the car. */
  readonly stops: number;
  readonly why: string;
  readonly inBox: number;
}

export interface SparesAsk {
  readonly car: Car;
  readonly lines: readonly LineWithWay[];
  readonly shelf: Catalogue;
  readonly due: readonly DueItem[];
}

/** O2 before O11. */
const asCounted = new Intl.Collator('en', { numeric: true });

/** O-rings are carried four of a size. Common practice, no source. */
const RINGS = 4;
const isRing = (id: string): boolean => /^(o-ring|washer)/.test(id);

/** What a line is made of that is carried: what leaks or is spoiled when it is opened. */
const CARRIED = new Set(['hose-end', 'seal', 'clamp']);

/**
 * Spares for a weekend away, by what they save: first what mends the most lines that stop the car, then the most lines, then what is
 * nearest to its end. One spare that serves several lines stands once.
 */
export function weekendSpares({ car, lines, shelf, due }: SparesAsk): readonly WeekendSpare[] {
  const withWay = lines.filter(({ way }) => way !== null);
  const facts = partIndex(
    shelf,
    withWay.flatMap(({ way }) => way!.pieces.flatMap(({ hose }) => hose ?? [])),
  );
  const rows = new Map<string, { kind: string; name: string; qty: number; unit: 'each' | 'm'; lines: Set<string> }>();
  const add = (id: string, kind: string, name: string, qty: number, unit: 'each' | 'm', line: string): void => {
    const row = rows.get(id) ?? { kind, name, qty: 0, unit, lines: new Set<string>() };
    row.qty = Math.max(row.qty, qty);
    row.lines.add(line);
    rows.set(id, row);
  };
  for (const { line, way } of withWay) {
    for (const use of partUses(car, line, way!, shelf))
      if (CARRIED.has(use.kind)) add(use.id, use.kind, facts(use.id).name, isRing(use.id) ? RINGS : 1, 'each', line.id);
    for (const piece of pieceUses(line, way!, shelf))
      if (piece.kind === 'hose') add(piece.id, 'hose', piece.name, Math.ceil(piece.lengthMm / 100) / 10, 'm', line.id);
  }
  const stopping = new Set(withWay.filter(({ line }) => stopsTheCar(line)).map(({ line }) => line.id));
  const used = usedByLine(due);
  const spares = [...rows].map(([id, row]): WeekendSpare & { used: number } => {
    const served = [...row.lines].sort(
      (a, b) => Number(stopping.has(b)) - Number(stopping.has(a)) || asCounted.compare(a, b),
    );
    const stops = served.filter((line) => stopping.has(line)).length;
    return {
      id,
      what: row.name,
      qty: row.qty,
      unit: row.unit,
      servesLines: served,
      stops,
      why: whyOf(stops, served.length),
      inBox: car.box?.find((inBox) => inBox.id === id)?.qty ?? 0,
      used: Math.max(0, ...served.map((line) => used.get(line) ?? 0)),
    };
  });
  return spares
    .sort(
      (a, b) =>
        b.stops - a.stops || b.servesLines.length - a.servesLines.length || b.used - a.used || (a.id < b.id ? -1 : 1),
    )
    .map(({ used: _used, ...spare }) => spare);
}

const whyOf = (stops: number, lines: number): string => {
  if (stops === 0) return lines === 1 ? 'the car runs on without it' : `none of ${lines} lines stops the car`;
  const calm = lines - stops;
  const also = calm === 0 ? '' : `, ${calm} more that ${calm === 1 ? 'does' : 'do'} not`;
  return `${stops === 1 ? 'a line that stops the car' : `any of ${stops} lines that stop the car`}${also}`;
};

function usedByLine(due: readonly DueItem[]): ReadonlyMap<string, number> {
  const used = new Map<string, number>();
  for (const item of due)
    for (const line of item.lines) used.set(line, Math.max(used.get(line) ?? 0, item.usedShare ?? 0));
  return used;
}
