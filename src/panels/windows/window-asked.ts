import { holeBody } from '../holes/hole-body.ts';
import type { PanelWindow } from '#car';
import type { FoldLine } from '../flat-pattern.ts';
import type { LaidEdge, PlacedFixing, PlacedHole } from '../layout.ts';
import { meshOpenShare } from '../mesh/open-share.ts';
import type { PanelSheet } from '../panel-sheet.ts';
import { clearOfFoldMm } from './window-rules.ts';
import type { KeepClear, WindowSpec } from './window-spec.ts';

/** What stands on a flat that windows keep clear of. */
interface Standing {
  readonly sheet: PanelSheet;
  readonly fixings: readonly PlacedFixing[];
  readonly holes: readonly PlacedHole[];
  readonly folds: readonly FoldLine[];
}

/** Everything on a flat that an opening keeps clear of. */
export function clearOf({ sheet, fixings, holes, folds }: Standing): readonly KeepClear[] {
  return [
    ...fixings.map(({ at, holeMm, slotMm }) => ({ name: 'a fixing', shape: { at, radiusMm: (slotMm ?? holeMm) / 2 } })),
    ...holes.map((hole) => ({
      name: hole.id,
      shape:
        hole.sizeMm === undefined && hole.longMm === undefined
          ? { at: hole.at, radiusMm: Math.max(hole.diameterMm, hole.seatMm ?? 0) / 2 }
          : holeBody(hole).outline,
    })),
    ...folds.map(({ from, to, name, radiusMm, allowanceMm }) => ({
      name: `the bend ${name}`,
      shape: { from, to },
      clearMm: clearOfFoldMm(sheet.thicknessMm, radiusMm) + allowanceMm / 2,
    })),
  ];
}

/** The car's words in the flat's axes; measured from the first corner that the window's edge names. */
export function specOf(
  { edges, sheet }: { readonly edges: readonly LaidEdge[]; readonly sheet: PanelSheet },
  window: PanelWindow,
): WindowSpec {
  const { along, freeCm2, outlineMm, mesh } = window;
  const named = along && edges.find(({ from, to }) => [from, to].every((id) => id === along.from || id === along.to));
  const edge = named ?? edges.reduce((a, b) => (b.lengthMm > a.lengthMm + 1e-6 ? b : a));
  const runs = named === undefined || named.from === along!.from;
  const own = Object.fromEntries(
    (
      [
        'ends',
        'count',
        'rows',
        'sizeMm',
        'centreAlongMm',
        'centreAcrossMm',
        'webMm',
        'edgeMm',
        'cornerDrillMm',
      ] as const
    ).flatMap((key) => (window[key] === undefined ? [] : [[key, window[key]]])),
  );
  return {
    ...own,
    id: window.id,
    shape: window.shape,
    thicknessMm: sheet.thicknessMm,
    along: runs ? { from: edge.line[0], to: edge.line[1] } : { from: edge.line[1], to: edge.line[0] },
    ...(freeCm2 === undefined ? {} : { freeMm2: freeCm2 * 100 }),
    ...(mesh === undefined ? {} : { meshShare: meshOpenShare(mesh) }),
    ...(outlineMm === undefined
      ? {}
      : {
          outline: outlineMm.map(([x, y, bulge]) =>
            bulge === undefined ? { at: [x, y] as const } : { at: [x, y] as const, bulge },
          ),
        }),
  };
}
