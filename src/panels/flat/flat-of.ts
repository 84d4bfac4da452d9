import type { Panel } from '#car';
import type { Point2, Vec } from '#geometry';
import type { DrilledHole, FlatPattern, FlatSlit, FoldLine, MeshCut } from '../flat-pattern.ts';
import { holeCuts } from '../holes/hole-cuts.ts';
import type { LaidCorner, LaidEdge, PanelLayout, PlacedFixing, PlacedHole } from '../layout.ts';
import type { PanelSheet } from '../panel-sheet.ts';
import type { WindowField } from '../windows/window-spec.ts';
import { edgeMarks } from './edge-marks.ts';
import { sealRows } from '../holes/seal-rows.ts';
import type { CornerCut } from './strip-ends.ts';
import { slotOutline } from '../slot-outline.ts';
import { flatWords } from './words.ts';

/** What a flat is drawn from. */
interface Drawn {
  readonly panel: Panel;
  readonly sheet: PanelSheet;
  readonly piece: PanelLayout['piece'];
  readonly edges: readonly LaidEdge[];
  readonly cuts: readonly CornerCut[];
  readonly corners: readonly LaidCorner[];
  readonly fixings: readonly PlacedFixing[];
  readonly holes: readonly PlacedHole[];
  readonly folds: readonly FoldLine[];
  readonly slits: readonly FlatSlit[];
  readonly stops: readonly DrilledHole[];
  readonly windows: readonly WindowField[];
  readonly meshes: readonly MeshCut[];
  readonly outline: FlatPattern['outline'];
  /** Openings that it has of itself. */
  readonly cutOuts: FlatPattern['cutOuts'];
  readonly inCar: (at: Point2) => Vec;
}

/** The drawing of a panel laid flat. */
export function flatOf(of: Drawn): FlatPattern {
  const { panel, sheet, piece } = of;
  const made = holeCuts(of.holes, of.fixings, sheet.thicknessMm);
  const openings = of.windows.flatMap((field) => field.openings);
  const title = piece === undefined ? panel.id : `${panel.id}, piece ${piece.number} of ${piece.of}`;
  return {
    panel: panel.id,
    ...(piece === undefined ? {} : { piece }),
    name: panel.name ?? panel.id,
    sheet: sheet.id,
    thicknessMm: sheet.thicknessMm,
    ...(panel.grain === undefined ? {} : { grainDeg: panel.grain === 'along' ? 0 : 90 }),
    outline: of.outline,
    cutOuts: [...of.cutOuts, ...made.cutOuts, ...openings.map(({ outline, name }) => ({ outline, name }))],
    // In the order of work: corners of openings are drilled before anything is sawn, fixings when the panel fits.
    holes: [
      ...of.stops,
      ...openings.flatMap(({ corners }) => corners),
      ...made.holes.filter(({ corner }) => corner === true),
      ...of.cuts.flatMap(({ at, reliefMm }) =>
        reliefMm === undefined ? [] : [{ at, diameterMm: reliefMm, for: 'relief', corner: true }],
      ),
      ...made.holes.filter(({ corner }) => corner !== true),
    ],
    slots: made.slots,
    folds: of.folds,
    ...(of.slits.length === 0 ? {} : { slits: of.slits }),
    meshes: of.meshes,
    seals: sealRows(of.holes, of.edges, panel.fireSide),
    marks: edgeMarks(of.edges),
    words: flatWords(panel, of.edges, title, of.inCar, [
      ...of.cutOuts.map(({ outline }) => outline),
      ...of.slits.flatMap(alongSlit),
      ...made.cutOuts.map(({ outline }) => outline),
      ...openings.map(({ outline }) => outline),
      ...made.slots.map(slotOutline),
      ...made.holes.map(({ at, diameterMm }) =>
        slotOutline({ at, wideMm: diameterMm, longMm: diameterMm, turnDeg: 0, for: '' }),
      ),
    ]),
    corners: of.corners.map(({ id, flat: at }) => ({ id, at })),
  };
}

/** Every so many millimetres of a slit words keep off a spot. */
const SPOT_MM = 10;

function alongSlit({ from, to }: FlatSlit): FlatPattern['outline'][] {
  const n = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / SPOT_MM));
  return Array.from({ length: n + 1 }, (_, k) =>
    slotOutline({
      at: [from[0] + ((to[0] - from[0]) * k) / n, from[1] + ((to[1] - from[1]) * k) / n],
      wideMm: SPOT_MM,
      longMm: SPOT_MM,
      turnDeg: 0,
      for: '',
    }),
  );
}
