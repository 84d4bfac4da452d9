import type { Panel, PanelWindow } from '#car';
import { type Outline, outlinePoints, straightOutline, type Point2, type Vec } from '#geometry';
import { mm, type PanelFinding, placeOf } from './finding.ts';
import type { CutOut, FoldLine, MeshCut } from './flat-pattern.ts';
import type { LaidEdge, PlacedFixing, PlacedHole } from './layout.ts';
import { meshCut } from './mesh/mesh-cut.ts';
import type { PanelSheet } from './panel-sheet.ts';
import { windowField } from './windows/window-field.ts';
import { type PanelRow, withoutRows } from './windows/panel-row.ts';
import { clearOf, specOf } from './windows/window-asked.ts';
import type { WindowField } from './windows/window-spec.ts';

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
  /** Openings that it has of itself. */
  readonly cutOuts?: readonly CutOut[];
  readonly inCar: (at: Point2) => Vec;
  /** Rows that go on over several panels, as they fall on this one; absent: none has been laid yet. */
  readonly rows?: readonly PanelRow[];
}

export interface PanelWindows {
  readonly fields: readonly WindowField[];
  readonly meshes: readonly MeshCut[];
  readonly findings: readonly PanelFinding[];
}

/** Every window of a panel, one after the other: each keeps clear of fixings, holes, folds and the windows before it. */
export function panelWindows(room: WindowRoom): PanelWindows {
  const fields: WindowField[] = [];
  const findings: PanelFinding[] = [];
  const meshes: MeshCut[] = [];
  const put = (field: WindowField, window: PanelWindow, turn: number): void => {
    fields.push(field);
    meshes.push(...[meshCut(field, window, turn)].flatMap((cut) => cut ?? []));
  };
  for (const window of withoutRows(room.panel).windows ?? []) {
    const clear = [
      ...clearOf(room),
      ...(room.cutOuts ?? []).map(({ name, outline }) => ({ name, shape: outline })),
      ...fields.flatMap((field) => field.openings.map(({ name, outline }) => ({ name, shape: outline }))),
    ];
    const spec = specOf(room, window);
    const answer = windowField(room.web, clear, spec);
    const { from, to } = spec.along;
    if (answer.ok) put(answer.field, window, Math.atan2(to[1] - from[1], to[0] - from[0]));
    else findings.push(noRoom(room, window, answer.why, answer.most));
  }
  for (const { panel, of, window, field, turn = 0, why } of room.rows ?? []) {
    if (panel !== room.panel.id) continue;
    if (field !== undefined) put(field, window, turn);
    else if (why !== undefined)
      findings.push(noRoom(room, window, of === panel ? why : `${why} (a row of ${of})`, undefined));
  }
  if (room.panel.fireSide !== undefined) findings.push(...fields.map((field) => letsFireThrough(room, field)));
  return { fields, meshes, findings };
}

/** Mesh stops no flame: a window in a panel that parts a fire from people is an opening whichever way its air goes. */
const letsFireThrough = ({ panel, inCar }: WindowRoom, { id, openings, freeMm2 }: WindowField): PanelFinding => ({
  code: 'panel-fire-window',
  level: 'stop',
  panel: panel.id,
  at: id,
  text: `${panel.id} ${id}: a window in a panel that parts a fire from people`,
  value: Number((freeMm2 / 100).toFixed(1)),
  limit: 0,
  unit: 'cm2',
  source: 'builders-reports',
  place: placeOf(inCar(openings[0]!.outline[0]!.at)),
  cures: [
    "no window there: take the air in or out elsewhere, by a duct if it must be; the event's rules and its inspectors decide",
  ],
});

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
    ? straightOutline(corners.flatMap(({ at }, k) => [at, ...(edges[k]?.curve ?? []).slice(1, -1)]))
    : outline;
}
