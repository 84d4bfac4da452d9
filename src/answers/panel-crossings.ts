import { jointPoses } from '#bay';
import type { Car, Line, Part } from '#car';
import { movedPoint, norm, scale, sub, type Vec } from '#geometry';
import type { LinesWorld, WayBody } from '#lines';
import type { PanelCrossing, PanelLayout } from '#panels';
import { findSheet } from '#standards';
import { controlCrossings } from './control-crossings.ts';
import { placedPath } from './placed-path.ts';
import { type Fitted, grommetHole, meetings } from './sheet-meetings.ts';

/** What goes through the panels: lines on the ways they have, the hot pipes of the car, its cables and levers. */
export function panelCrossings(
  world: LinesWorld,
  bodies: ReadonlyMap<string, readonly WayBody[]>,
  layouts: readonly PanelLayout[],
): readonly PanelCrossing[] {
  return layouts.flatMap((layout) => [
    ...world.car.lines.flatMap((line) => lineCrossings(world, layout, line, bodies.get(line.id) ?? [])),
    ...world.car.parts.flatMap((part) => pipeCrossings(world, layout, part)),
    ...controlCrossings(world, layout),
  ]);
}

function lineCrossings(
  world: LinesWorld,
  layout: PanelLayout,
  line: Line,
  bodies: readonly WayBody[],
): PanelCrossing[] {
  const { panel } = layout;
  const through = line.through.find(({ part }) => part === panel.id || part === panel.on);
  const kind = through === undefined || through.kind === 'tee' ? 'plain' : through.kind;
  return bodies.flatMap((body) =>
    meetings(body.pathMm, layout.facets).map(
      (meets): PanelCrossing => ({
        ...meets,
        panel: panel.id,
        line: line.id,
        odMm: body.odMm,
        kind,
        ...holeFor(world, kind, body),
        ...moves(world, panel.movesWith, moversOf(world.car, line), meets.at),
      }),
    ),
  );
}

const CORNERS_OF_HEX = 2 / Math.sqrt(3);

function holeFor({ shelf }: LinesWorld, kind: PanelCrossing['kind'], body: WayBody): Fitted {
  if (kind === 'grommet') return grommetHole(shelf, body.odMm);
  const row = kind === 'plain' ? undefined : shelf.bulkheadFittings.find(({ id }) => id === body.row);
  if (row === undefined) return {};
  const { holeMm, name: seal, panelMaxMm } = row;
  return { holeMm, seal, panelMaxMm, seatMm: row.hexMm * CORNERS_OF_HEX };
}

/** Of the metals that exhausts are made of stainless grows the most: the row of 304 [1e-6/K]. */
const PIPE_GROWTH_PER_MK = findSheet('304')?.growthPerMk ?? 0;

/** A hot part drawn as a pipe or a cylinder, whichever way it stands, grows with heat and shakes on its mounts: its opening has to let it. */
function pipeCrossings(world: LinesWorld, layout: PanelLayout, part: Part): PanelCrossing[] {
  if (part.class !== 'hot') return [];
  return part.shapes.flatMap((shape) => {
    const placed = placedPath(shape);
    if (placed === undefined) return [];
    const { pathMm: path, radiusMm } = placed;
    return meetings(path, layout.facets).map(
      (meets): PanelCrossing => ({
        ...meets,
        panel: layout.panel.id,
        line: part.id,
        odMm: 2 * radiusMm,
        kind: 'plain',
        ...moves(world, layout.panel.movesWith, [part.movesWith], meets.at),
        ...(part.surfaceC === undefined
          ? {}
          : { surfaceC: part.surfaceC, growsOverMm: norm(sub(meets.at, path[0]!)), growthPerMk: PIPE_GROWTH_PER_MK }),
      }),
    );
  });
}

const moversOf = (car: Car, line: Line): (string | undefined)[] =>
  [line.from, line.to].map((ref) => car.parts.find(({ id }) => id === ref.split('.')[0])?.movesWith);

/** The most that the place moves against the panel, were it fixed to what moves most of its ends; between two ends it moves less. */
function moves(
  world: LinesWorld,
  panelMover: string | undefined,
  movers: readonly (string | undefined)[],
  at: Vec,
): Pick<PanelCrossing, 'movesMm' | 'movesAlong'> {
  const shifts = movers.flatMap((mover) =>
    jointPoses(world.bay.movers, { from: panelMover ?? null, to: panelMover ?? null, part: mover ?? null }).map(
      ({ from, part }) => sub(movedPoint(part, at), movedPoint(from, at)),
    ),
  );
  const most = shifts.toSorted((a, b) => norm(b) - norm(a))[0];
  if (most === undefined || norm(most) < 0.05) return {};
  return { movesMm: norm(most), movesAlong: scale(most, 1 / norm(most)) };
}
