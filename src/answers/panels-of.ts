import type { LinesWorld, PlannedLine } from '#lines';
import { type PanelLayout, panelLayouts } from '#panels';
import { type BodiesByLine, bodiesByLine } from './bodies-by-line.ts';
import { panelCrossings } from './panel-crossings.ts';
import { exitFindings } from './panel-exits.ts';
import { neighbourFindings } from './panel-neighbours.ts';

/** What do I cut? Every panel laid out, with holes for what goes through it on the ways as planned or, where none was, as taken. */
export const panelsOf = (world: LinesWorld, lines: readonly PlannedLine[] = []): readonly PanelLayout[] =>
  panelsAround(world, bodiesByLine(world.car, lines));

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
