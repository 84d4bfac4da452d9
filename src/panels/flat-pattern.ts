import type { Outline, Point2 } from '#geometry';

/** What is done where: one layer of a drawing to each. */
export const OPERATIONS = ['cut', 'drill', 'fold-up', 'fold-down', 'mark', 'words'] as const;
export type Operation = (typeof OPERATIONS)[number];

/** A round hole: drilled on its own, or at the corner of an opening before it is sawn out. */
export interface DrilledHole {
  readonly at: Point2;
  readonly diameterMm: number;
  /** What it is for, in words, such as "rivnut M5", "corner of W1", "O1". */
  readonly for: string;
  /** Part of an opening's own corner: it is drilled first and its rim runs into the cut. */
  readonly corner?: boolean;
}

/** A slot: a round hole drawn out to `longMm` over all along `turnDeg` (from x towards y). */
export interface SlottedHole {
  readonly at: Point2;
  readonly wideMm: number;
  readonly longMm: number;
  readonly turnDeg: number;
  readonly for: string;
}

/** A fold, seen on the outside face: its mid line, and where the bend begins and ends on either side of it. */
export interface FoldLine {
  readonly from: Point2;
  readonly to: Point2;
  /** `up` is towards whoever looks at the outside face. */
  readonly way: 'up' | 'down';
  /** Angle bent through [deg]. */
  readonly turnDeg: number;
  /** Inside radius [mm]. */
  readonly radiusMm: number;
  /** Flat length that goes into the bend [mm]: half of it lies either side of the line. */
  readonly allowanceMm: number;
  readonly name: string;
}

/** A cut along a line, open at one end; the other ends in a hole. */
export interface FlatSlit {
  readonly from: Point2;
  readonly to: Point2;
  readonly name: string;
}

/** An opening that is cut out. */
export interface CutOut {
  readonly outline: Outline;
  readonly name: string;
}

/** What to cut and to rivet for the mesh behind a field of windows: a row of the cut list. */
export interface MeshCut {
  readonly window: string;
  readonly mesh: string;
  /** Along the edge that the window follows, and across [mm]. */
  readonly cutMm: readonly [number, number];
  /** Strip that frames it: width, and length all round along its middle [mm]. */
  readonly frameMm: number;
  readonly frameLongMm: number;
  /** Through frame, mesh and panel, in the middle of the frame. */
  readonly fixings: { readonly count: number; readonly kind: string; readonly size: string; readonly holeMm: number };
  /** What it leaves open of the windows [mm2]. */
  readonly freeMm2: number;
}

/** What closes a hole or an edge: a row of the list of seals. */
export interface SealRow {
  /** What goes through, or the edge. */
  readonly at: string;
  readonly words: string;
  /** Strip or bead that it takes [mm]; absent: a piece of its own. */
  readonly longMm?: number;
}

/**
 * A panel laid flat, seen on its outside face [mm]. x runs along its first edge from its first corner, y into the panel; every
 * number can be marked out from those two straight edges.
 */
export interface FlatPattern {
  readonly panel: string;
  /** Which piece of a split panel it is; absent: it is whole. */
  readonly piece?: { readonly number: number; readonly of: number };
  readonly name: string;
  readonly sheet: string;
  readonly thicknessMm: number;
  /** Way of the grain on the flat [deg from x], where it matters. */
  readonly grainDeg?: number;
  readonly outline: Outline;
  readonly cutOuts: readonly CutOut[];
  readonly holes: readonly DrilledHole[];
  readonly slots: readonly SlottedHole[];
  readonly folds: readonly FoldLine[];
  /** Reliefs of a twist; absent: none. */
  readonly slits?: readonly FlatSlit[];
  /** Mesh that goes behind its windows, each with its frame. */
  readonly meshes: readonly MeshCut[];
  readonly seals: readonly SealRow[];
  /** Straight marks to scribe: the measured edge where the sheet goes on beyond it. */
  readonly marks: readonly { readonly from: Point2; readonly to: Point2; readonly name: string }[];
  readonly words: readonly {
    readonly at: Point2;
    readonly text: string;
    readonly heightMm: number;
    readonly turnDeg: number;
  }[];
  /** Places of the measured corners on the flat, in their order, by id. */
  readonly corners: readonly { readonly id: string; readonly at: Point2 }[];
}
