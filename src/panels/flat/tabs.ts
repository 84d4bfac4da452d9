import type { PanelEdge } from '#car';
import { sheetRule } from '#standards';
import type { LaidEdge } from '../layout.ts';
import type { PanelSheet } from '../panel-sheet.ts';
import { type FlatLine, movedOut, plus, rightOf } from './lines.ts';
import type { DraftCorner } from './rounded.ts';
import { foldedStrip, type LaidStrip, type Strip } from './strip.ts';

/** A saw cut or a file goes in beside a folded tab; wider for thick sheet [mm]. */
const SLIT_MM = 2;

/** Width of the slit beside a folded tab [mm]. */
const slitOf = (thicknessMm: number): number => Math.max(SLIT_MM, thicknessMm);

/** Tabs in equal steps along an edge; folded ones begin at their own tangent line, set back into the sheet. */
export function laidTabs(
  tabs: NonNullable<PanelEdge['tabs']>,
  line: FlatLine,
  edge: LaidEdge,
  sheet: PanelSheet,
): readonly LaidStrip[] {
  const { turnDeg = 0, towards = 'inside', heightMm, widthMm, count } = tabs;
  const strip: Strip =
    turnDeg === 0
      ? {
          kind: 'tab',
          setbackMm: 0,
          landMm: heightMm,
          reachMm: heightMm,
          steps: [{ kind: 'flat', lengthMm: heightMm }],
        }
      : foldedStrip('tab', { heightMm, turnDeg, towards }, sheet);
  const base = movedOut(line, edge.reachMm - strip.setbackMm);
  return Array.from({ length: count }, (_, i) => {
    const middle = (edge.lengthMm * (i + 0.5)) / count;
    const flank = (s: number) =>
      [0, strip.reachMm].map((d) => plus(plus(base.at, base.along, s), rightOf(base.along), d));
    return { ...strip, base, start: flank(middle - widthMm / 2), end: flank(middle + widthMm / 2) };
  });
}

/** The outline along an edge with tabs, between its corners. */
export function tabCorners(
  tabs: readonly LaidStrip[],
  thicknessMm: number,
  freeRadiusMm: number,
): readonly DraftCorner[] {
  return tabs.flatMap((tab): DraftCorner[] => {
    const { along } = tab.base;
    const free = [tab.start.at(-1)!, tab.end.at(-1)!].map((at) => ({ at, radiusMm: freeRadiusMm }));
    if (tab.setbackMm === 0) return [{ at: tab.start[0]! }, ...free, { at: tab.end[0]! }];
    const [slit, behind] = [slitOf(thicknessMm), sheetRule('relief-behind').value];
    const deep = (at: DraftCorner['at'], by: number, over: number): DraftCorner => ({
      at: plus(plus(at, along, by), rightOf(along), over),
    });
    // Half round at the bottom of each slit, so that no crack starts there.
    return [
      deep(tab.start[0]!, -slit, tab.setbackMm),
      { ...deep(tab.start[0]!, -slit, -behind), bulge: 1 },
      deep(tab.start[0]!, 0, -behind),
      ...free,
      { ...deep(tab.end[0]!, 0, -behind), bulge: 1 },
      deep(tab.end[0]!, slit, -behind),
      deep(tab.end[0]!, slit, tab.setbackMm),
    ];
  });
}
