import type { Panel } from '#car';
import { depthInOutline, readyOutline, straightOutline, type Point2 } from '#geometry';
import { sheetRule } from '#standards';
import { mm, type PanelFinding, placeOf } from '../finding.ts';
import type { PanelSheet } from '../panel-sheet.ts';
import { carFromFlat } from './flat-frame.ts';
import type { Facet } from './facets.ts';

/** How finely the middle of a facet is looked for: so many steps across it. */
const STEPS = 24;

/** The widest round that fits into a facet: how far its middle is from any edge or fold that holds it. */
function widestRound(polygon: readonly Point2[]): { readonly at: Point2; readonly spanMm: number } {
  const ready = readyOutline(straightOutline(polygon));
  const [xs, ys] = [polygon.map(([x]) => x), polygon.map(([, y]) => y)];
  const box = {
    x: Math.min(...xs),
    y: Math.min(...ys),
    w: Math.max(...xs) - Math.min(...xs),
    h: Math.max(...ys) - Math.min(...ys),
  };
  let best: { at: Point2; depth: number } = { at: polygon[0]!, depth: 0 };
  for (let i = 1; i < STEPS; i++)
    for (let j = 1; j < STEPS; j++) {
      const at: Point2 = [box.x + (box.w * i) / STEPS, box.y + (box.h * j) / STEPS];
      const depth = depthInOutline(ready, at);
      if (depth > best.depth) best = { at, depth };
    }
  return { at: best.at, spanMm: 2 * best.depth };
}

/** Wide flat sheet drums: where a bead, a fold or a swage belongs. */
export function spanFindings(panel: Panel, facets: readonly Facet[], sheet: PanelSheet): readonly PanelFinding[] {
  const rule = sheetRule('flat-span-thickness');
  const limit = rule.value * sheet.thicknessMm;
  return facets.flatMap((facet): PanelFinding[] => {
    const { at, spanMm } = widestRound(facet.polygon);
    if (spanMm <= limit) return [];
    const beads = Math.ceil(spanMm / limit) - 1;
    return [
      {
        code: 'panel-flat-span',
        level: 'note',
        panel: panel.id,
        text: `${panel.id}: ${mm(spanMm)} of flat ${mm(sheet.thicknessMm)} sheet with nothing across it: it drums and dents`,
        value: Math.round(spanMm),
        limit: Math.round(limit),
        unit: 'mm',
        source: rule.source,
        place: placeOf(carFromFlat(facet.frame, at)),
        cures: [
          `${beads} ${beads === 1 ? 'bead or fold' : 'beads or folds'} across it, ${mm(spanMm / (beads + 1))} apart`,
          `sheet of ${mm(spanMm / rule.value)}`,
        ],
      },
    ];
  });
}
