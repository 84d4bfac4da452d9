import type { Car } from '#car';
import { nearestName } from '#sources';
import { builtInBulkheadFittings, type Catalogue } from '#standards';
import { locknutId } from '#stock';
import type { Snag } from './snag.ts';

/** Plain tube goes by its size and metal, whatever the size. */
const isPlainTube = (id: string): boolean => /^tube-\d/u.test(id);

/** Every id of the catalogue or of a part of the car that a line, an order or a strip-down may ask the box for. */
function idsOf(car: Car, shelf: Catalogue): ReadonlySet<string> {
  const rows = [
    ...shelf.hoses,
    ...shelf.hoses.flatMap((hose) => shelf.hoseEndsFor(hose)),
    ...shelf.hoseEnds,
    ...shelf.adapters,
    ...shelf.bulkheadFittings,
    ...shelf.seals,
    ...shelf.tubes,
    ...shelf.clamps,
    ...shelf.grommets,
    ...shelf.plugs,
    ...shelf.bungs,
    ...car.parts,
  ].map(({ id }) => id);
  const nuts = builtInBulkheadFittings.flatMap(({ a }) => (a.dash === undefined ? [] : [locknutId(a.dash)]));
  return new Set([...rows, ...nuts]);
}

/** The id most likely meant: one a few letters away, else the shortest that has all the words of it ("cap-12": cap-flare-12). */
function nearestId(id: string, known: ReadonlySet<string>): string | undefined {
  const words = id.toLowerCase().split('-');
  return (
    nearestName(id, [...known]) ??
    [...known]
      .filter((other) => words.every((word) => other.split('-').includes(word)))
      .toSorted((a, b) => a.length - b.length)[0]
  );
}

/** Rows of the box that are in no table, in one note: anything may lie on a shelf, but nothing that is asked for counts it. */
export function boxSnags(car: Car, shelf: Catalogue): Snag[] {
  const box = car.box ?? [];
  if (box.length === 0) return [];
  const known = idsOf(car, shelf);
  const strange = box.map(({ id }) => id).filter((id) => !known.has(id) && !isPlainTube(id));
  if (strange.length === 0) return [];
  const said = strange.map((id) => {
    const near = nearestId(id, known);
    return near === undefined ? id : `${id} (nearest: ${near})`;
  });
  const are = strange.length === 1 ? 'is' : 'are';
  return [
    {
      id: 'box-unknown',
      kind: 'box-unknown',
      level: 'note',
      question: 'buy',
      text: `In the box ${are} ${said.join(', ')}, which no table of parts names: nothing takes it from there.`,
      value: strange.length,
      limit: 0,
      unit: 'ids',
      source: 'the car file',
      cures: ['write it as the table does, or enter a row of your own with that id in the catalogue'],
    },
  ];
}
