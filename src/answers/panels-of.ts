import type { LinesWorld, PlannedLine, WayBody } from '#lines';
import { type PanelLayout, panelLayouts } from '#panels';
import { panelCrossings } from './panel-crossings.ts';
import { exitFindings } from './panel-exits.ts';
import { neighbourFindings } from './panel-neighbours.ts';

/** What is solid of each line, by its id: of its way only this meets a panel. */
export type BodiesByLine = ReadonlyMap<string, readonly WayBody[]>;

/** What do I cut? Every panel laid out, with holes for what goes through it on the ways as planned or, where none was, as taken. */
export const panelsOf = (world: LinesWorld, lines: readonly PlannedLine[] = []): readonly PanelLayout[] =>
  panelsAround(
    world,
    new Map<string, readonly WayBody[]>([
      ...world.car.lines.flatMap(({ id, taken }) => (taken ? [[id, taken.bodies as readonly WayBody[]] as const] : [])),
      ...lines.map(({ line, taken, best }) => [line, (taken ?? best).bodies] as const),
    ]),
  );

/** As `panelsOf`, with the lines' bodies at hand. */
export function panelsAround(world: LinesWorld, bodies: BodiesByLine): readonly PanelLayout[] {
  const bare = panelLayouts(world.car, { meshes: world.meshes });
  if (bare.length === 0) return bare;
  const layouts = panelLayouts(world.car, {
    meshes: world.meshes,
    crossings: panelCrossings(world, bodies, bare),
  });
  return layouts.map((layout) => ({
    ...layout,
    findings: [...layout.findings, ...neighbourFindings(world, layout), ...exitFindings(world, bodies, layout)],
  }));
}
