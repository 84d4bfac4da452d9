import type { Panel, PanelWindow } from '#car';
import { type Outline, outlinePoints, straightOutline, type Point2, type Vec } from '#geometry';
import { mm, type PanelFinding, placeOf } from './finding.ts';
import type { FoldLine } from './flat-pattern.ts';
import type { LaidEdge, PlacedFixing, PlacedHole } from './layout.ts';
import { meshOpenShare } from './mesh/open-share.ts';
import type { PanelSheet } from './panel-sheet.ts';
import { windowField } from './windows/window-field.ts';
import { clearOfFoldMm } from './windows/window-rules.ts';
import { type PanelRow, withoutRows } from './windows/row-windows.ts';
import type { KeepClear, WindowField, WindowSpec } from './windows/window-spec.ts';

/** What windows are laid into, on the flat. */
export interface WindowRoom {
  readonly panel: Panel;
  readonly sheet: PanelSheet;
  /** The sheet without what is folded up from it. */
  readonly web: Outline;
  readonly edges: readonly LaidEdge[];
  readonly fixings: readonly PlacedFixing[];
  readonly holes: readonly PlacedHole[];
  readonly folds: readonly FoldLine[];
  readonly inCar: (at: Point2) => Vec;
  /** Rows that go on over several panels, as they fall on this one; absent: none has been laid yet. */
  readonly rows?: readonly PanelRow[];
}

export interface PanelWindows {
  readonly fields: readonly WindowField[];
  readonly findings: readonly PanelFinding[];
}

/** Every window of a panel, one after the other: each keeps clear of fixings, holes, folds and the windows before it. */
export function panelWindows(room: WindowRoom): PanelWindows {
  const fields: WindowField[] = [];
  const findings: PanelFinding[] = [];
  for (const window of withoutRows(room.panel).windows ?? []) {
    const clear = [
      ...clearOf(room),
      ...fields.flatMap((field) => field.openings.map(({ name, outline }) => ({ name, shape: outline }))),
    ];
    const answer = windowField(room.web, clear, specOf(room, window));
    if (answer.ok) fields.push(answer.field);
    else findings.push(noRoom(room, window, answer.why, answer.most));
  }
  for (const { panel, of, window, field, why } of room.rows ?? []) {
    if (panel !== room.panel.id) continue;
    if (field !== undefined) fields.push(field);
    else if (why !== undefined)
      findings.push(noRoom(room, window, of === panel ? why : `${why} (a row of ${of})`, undefined));
  }
  return { fields, findings };
}

export function clearOf({
  sheet,
  fixings,
  holes,
  folds,
}: Pick<WindowRoom, 'sheet' | 'fixings' | 'holes' | 'folds'>): readonly KeepClear[] {
  return [
    ...fixings.map(({ at, holeMm, slotMm }) => ({ name: 'a fixing', shape: { at, radiusMm: (slotMm ?? holeMm) / 2 } })),
    ...holes.map((hole) => ({
      name: hole.id,
      shape: {
        at: hole.at,
        radiusMm:
          hole.sizeMm === undefined ? Math.max(hole.longMm ?? 0, hole.diameterMm) / 2 : Math.hypot(...hole.sizeMm) / 2,
      },
    })),
    ...folds.map(({ from, to, name, radiusMm, allowanceMm }) => ({
      name: `the bend ${name}`,
      shape: { from, to },
      clearMm: clearOfFoldMm(sheet.thicknessMm, radiusMm) + allowanceMm / 2,
    })),
  ];
}

/** The car's words in the flat's axes; measured from the first corner that the window's edge names. */
export function specOf({ edges, sheet }: Pick<WindowRoom, 'edges' | 'sheet'>, window: PanelWindow): WindowSpec {
  const { along, freeCm2, outlineMm, mesh } = window;
  const named = along && edges.find(({ from, to }) => [from, to].every((id) => id === along.from || id === along.to));
  const edge = named ?? edges.reduce((a, b) => (b.lengthMm > a.lengthMm + 1e-6 ? b : a));
  const runs = named === undefined || named.from === along!.from;
  const own = Object.fromEntries(
    (
      ['count', 'rows', 'sizeMm', 'centreAlongMm', 'centreAcrossMm', 'webMm', 'edgeMm', 'cornerDrillMm'] as const
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

function noRoom(
  { panel, web, inCar }: WindowRoom,
  window: PanelWindow,
  why: string,
  most: WindowField | undefined,
): PanelFinding {
  const points = outlinePoints(web, 1);
  const middle = points.reduce<Point2>((m, p) => [m[0] + p[0] / points.length, m[1] + p[1] / points.length], [0, 0]);
  return {
    code: 'panel-window-no-room',
    level: 'stop',
    panel: panel.id,
    at: window.id,
    text: `${panel.id}: ${why}`,
    source: 'geometry',
    place: placeOf(inCar(middle)),
    cures:
      most === undefined
        ? ['a smaller window, or another place for it']
        : [`${most.sizeMm.map((side) => mm(side)).join(' by ')} fits there`],
  };
}

/** The sheet inside its strips, on the flat: its own outline where nothing is folded up from it. */
export function webOutline(
  edges: readonly LaidEdge[],
  corners: readonly { readonly at: Point2 }[],
  outline: Outline,
): Outline {
  return edges.some(({ strip, tabs }) => strip !== undefined || tabs !== undefined)
    ? straightOutline(corners.map(({ at }) => at))
    : outline;
}
