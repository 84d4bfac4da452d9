import type { LinesWorld, PlannedLine, Way } from '#lines';
import { type PanelLayout, panelLayouts } from '#panels';
import { panelCrossings } from './panel-crossings.ts';
import { neighbourFindings } from './panel-neighbours.ts';
import { waysByLine } from './ways-by-line.ts';

/** What do I cut? Every panel laid out, with holes for what goes through it on the ways as planned or taken. */
export const panelsOf = (world: LinesWorld, lines: readonly PlannedLine[] = []): readonly PanelLayout[] =>
  panelsAround(world, waysByLine(world, lines));

/** As `panelsOf`, with the ways at hand. */
export function panelsAround(world: LinesWorld, ways: ReadonlyMap<string, Way>): readonly PanelLayout[] {
  const bare = panelLayouts(world.car, { meshes: world.meshes });
  if (bare.length === 0) return bare;
  const layouts = panelLayouts(world.car, {
    meshes: world.meshes,
    crossings: panelCrossings(world, ways, bare),
  });
  return layouts.map((layout) => ({
    ...layout,
    findings: [...layout.findings, ...neighbourFindings(world, layout)],
  }));
}
