import type { Line } from '#car';
import { type Catalogue, dutyNeeds } from '#standards';
import { boreGraceMm, boreLossMost } from '../make-up/bore-limit.ts';
import type { WayFail } from '../way.ts';

/** What a bore is read off: a body of a line, as drafted or as written down. */
interface Bored {
  readonly part: string;
  readonly row?: string;
}

/** A bore on the way from the line's start to its end. */
interface BoreOnWay {
  readonly boreMm: number;
  readonly where: string;
}

/** All bores in the order that what falls meets them; of a part that the catalogue does not know none is told. */
function boresOnWay(line: Line, bodies: readonly Bored[], shelf: Catalogue): BoreOnWay[] {
  const tubes = line.pieces?.flatMap(({ tube }) => tube ?? []) ?? [];
  const hoses = new Set(bodies.flatMap(({ row }) => (row === undefined ? [] : (shelf.findHose(row) ?? []))));
  const ends = [...hoses].flatMap((hose) => shelf.hoseEndsFor(hose));
  const rows = new Map(
    [...shelf.bulkheadFittings, ...shelf.adapters, ...ends, ...hoses].map((row) => [row.id, row] as const),
  );
  let tubesPassed = 0;
  return bodies.flatMap((body): BoreOnWay[] => {
    const tube = body.part === 'tube' ? tubes[tubesPassed++] : undefined;
    if (tube !== undefined) return [{ boreMm: tube.odMm - 2 * tube.wallMm, where: 'in the tube' }];
    const row = body.row === undefined ? undefined : rows.get(body.row);
    return row === undefined ? [] : [{ boreMm: row.boreMm, where: `in ${row.name}` }];
  });
}

/**
 * A drain whose bore shrinks on its way down: what cannot run off stands in what is drained. A hose end may take the tenth of the
 * hose's bore that it may anywhere (SAE J516). `bodies` in order from the line's start.
 */
export function shrinkFails(line: Line, bodies: readonly Bored[], shelf: Catalogue): WayFail[] {
  if (!dutyNeeds(line.duty).boreNotShrinking) return [];
  let widest: BoreOnWay | null = null;
  for (const here of boresOnWay(line, bodies, shelf)) {
    if (widest !== null && here.boreMm < (1 - boreLossMost) * widest.boreMm - boreGraceMm)
      return [
        {
          limit: 'mating',
          valueMm: here.boreMm,
          limitMm: widest.boreMm,
          text: `shrinks from ${widest.boreMm.toFixed(1)} mm of bore ${widest.where} to ${here.boreMm.toFixed(1)} ${here.where}; a drain must not`,
        },
      ];
    if (widest === null || here.boreMm > widest.boreMm) widest = here;
  }
  return [];
}
