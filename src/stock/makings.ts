import { type Catalogue, type Fixing, fixings } from '#standards';
import type { LineWithWay } from './planned-lines.ts';
import { hoseEndId, hoseEndRows } from './hose-ends-of.ts';
import { endsOf } from './part-uses.ts';

/** How hose ends of one kind are put on, and what can be done with them afterwards. */
export interface Making {
  readonly fixing: Fixing;
  readonly needs: string;
  /** Whether they can be used again, and when the angle between two elbows is set. */
  readonly again: string;
  /** "O1 at tank.out" */
  readonly ends: readonly string[];
}

/** What it takes to put on the hose ends of these lines, kind by kind; hose pushed over a spigot and clamped is not among them. */
export function makings(lines: readonly LineWithWay[], shelf: Catalogue): Making[] {
  const places = lines.flatMap(({ line, way }) =>
    way === null
      ? []
      : endsOf(way).flatMap((end) => {
          const [row] = hoseEndRows(
            [end],
            way.pieces.map((piece) => piece.hose),
            shelf,
          );
          const isSpigot =
            row === undefined || row.to.type === 'hose-bore' || hoseEndId(end.makeUp, shelf) === undefined;
          return isSpigot ? [] : [{ fixing: row.fixing, place: `${line.id} at ${end.port}` }];
        }),
  );
  return fixings.flatMap(({ fixing, needs, again }) => {
    const ends = places.filter((place) => place.fixing === fixing).map(({ place }) => place);
    return ends.length === 0 ? [] : [{ fixing, needs, again, ends }];
  });
}
