import type { Panel, PanelEdge, PanelHole } from '#car';
import type { Outline, Point2, Vec } from '#geometry';
import type { TapeCheck } from './corners/balanced-corners.ts';
import type { PanelFinding } from './finding.ts';
import type { FlatPattern } from './flat-pattern.ts';
import type { LaidStrip } from './flat/strip.ts';
import type { MirrorCheck } from './mirror/mirror-check.ts';
import type { PanelSheet } from './panel-sheet.ts';
import type { CreaseBend, Facet } from './surface/facets.ts';
import type { SurfaceShape } from './surface/surface-shape.ts';
import type { WindowField } from './windows/window-spec.ts';

/** A corner of a panel: as measured, as balanced with the tapes, as it lies on the sheet. */
export interface LaidCorner {
  readonly id: string;
  readonly measured?: Vec;
  readonly knownToMm: number;
  readonly at: Vec;
  /** How far `at` stands out of the sheet as laid out, + outwards [mm]. */
  readonly outMm: number;
  readonly flat: Point2;
}

/** A side of a panel, in ring order: counter-clockwise seen on the outside face. */
export interface LaidEdge {
  /** "A-B", in ring order. */
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly spec?: PanelEdge;
  /** Measured edge on the drawing: the mould line of a flange. */
  readonly line: readonly [Point2, Point2];
  readonly lengthMm: number;
  readonly facet: number;
  /** How far the sheet itself goes beyond the measured edge, square to it: + an overlap, - set back for a bend [mm]. */
  readonly reachMm: number;
  /** What is folded or stepped beyond it, or its tabs. */
  readonly strip?: LaidStrip;
  readonly tabs?: readonly LaidStrip[];
  /** Points of a curved edge on the drawing, ends included. */
  readonly curve?: readonly Point2[];
}

/** A fixing, placed. */
export interface PlacedFixing {
  readonly edge: string;
  readonly kind: NonNullable<PanelEdge['fixing']>['kind'];
  readonly size: string;
  readonly at: Point2;
  readonly holeMm: number;
  /** Slot along the edge, over all [mm]; absent: round. */
  readonly slotMm?: number;
  readonly turnDeg: number;
  readonly into?: string;
}

/** Something that goes through a panel. */
export interface PlacedHole {
  readonly id: string;
  readonly for: string;
  readonly at: Point2;
  readonly diameterMm: number;
  /** Drawn out to this over all, along `turnDeg` [mm]. */
  readonly longMm?: number;
  readonly turnDeg?: number;
  readonly sizeMm?: readonly [number, number];
  readonly cornerDrillMm?: number;
  readonly fitted?: NonNullable<PanelHole['fitted']>;
  readonly line?: string;
  /** What bears on the sheet round it: a hexagon across its corners, a lip, a ring [mm]. */
  readonly seatMm?: number;
  /** What closes it round what goes through, in words, for the list of seals. */
  readonly seal?: string;
}

/** A panel, or a piece of one that is split, laid out: its flat, how the flat stands on the car, and what is wrong with it. */
export interface PanelLayout {
  readonly panel: Panel;
  readonly sheet: PanelSheet;
  /** Which piece of a split panel this is; absent: it is whole. */
  readonly piece?: { readonly number: number; readonly of: number };
  /** One; none where it cannot be laid out (the findings say why). */
  readonly flats: readonly FlatPattern[];
  readonly facets: readonly Facet[];
  readonly creases: readonly CreaseBend[];
  readonly edges: readonly LaidEdge[];
  /** In the order of the car file. */
  readonly corners: readonly LaidCorner[];
  readonly tapes: readonly TapeCheck[];
  /** Against the panel that it is meant as the mirror of. */
  readonly mirror?: MirrorCheck;
  readonly surface?: SurfaceShape;
  readonly fixings: readonly PlacedFixing[];
  readonly holes: readonly PlacedHole[];
  readonly windows: readonly WindowField[];
  /** The sheet inside its strips, on the flat: what windows are laid into; absent where it is not laid out from corners. */
  readonly web?: Outline;
  readonly findings: readonly PanelFinding[];
}
