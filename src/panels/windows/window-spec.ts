import type { Outline, Point2 } from '#geometry';
import type { DrilledHole } from '../flat-pattern.ts';
import type { DrillRow } from './drills.ts';

/** Shapes of one opening. */
export type WindowShape = 'trapezoid' | 'slot' | 'round' | 'hexagon' | 'own';

/** How the ends of a field stand. */
export type WindowEnds = 'leaning' | 'square';

/** A window or a field of windows, as asked for: plain values in the panel's flat axes. */
export interface WindowSpec {
  readonly id: string;
  readonly shape: WindowShape;
  /** Sheet [mm]: the usual rules are multiples of it. */
  readonly thicknessMm: number;
  /** Edge that it is measured from and follows; the panel lies to its left, or it is taken the other way round. */
  readonly along: { readonly from: Point2; readonly to: Point2 };
  /** Ends of the field: with the panel's own, or square to the edge; absent: trapezoids lean, slots are square, the others as more fit. */
  readonly ends?: WindowEnds;
  readonly count?: number;
  readonly rows?: number;
  /** Free area wanted, mesh counted [mm2]. */
  readonly freeMm2?: number;
  /** Size of the whole field along and across [mm]. */
  readonly sizeMm?: readonly [along: number, across: number];
  readonly centreAlongMm?: number;
  readonly centreAcrossMm?: number;
  readonly webMm?: number;
  readonly edgeMm?: number;
  readonly cornerDrillMm?: number;
  /** Outline of one opening of shape own, from its middle. */
  readonly outline?: Outline;
  /** Share of an opening that its mesh leaves open; 1 without mesh. */
  readonly meshShare?: number;
  /** Drills and hole saws at hand; absent: the usual ones. */
  readonly drills?: readonly DrillRow[];
}

/** Something on the flat that openings keep clear of. */
export interface KeepClear {
  readonly name: string;
  readonly shape:
    | Outline
    | { readonly from: Point2; readonly to: Point2 }
    | { readonly at: Point2; readonly radiusMm: number };
  /** From its rim or line to the rim of an opening [mm]; absent: the field's edge distance. */
  readonly clearMm?: number;
}

/** One opening: what is cut, and the holes that are drilled first at its corners, tangent to both sides. */
export interface Opening {
  readonly name: string;
  readonly outline: Outline;
  readonly corners: readonly DrilledHole[];
  readonly areaMm2: number;
}

/** A field of openings worked out. */
export interface WindowField {
  readonly id: string;
  readonly openings: readonly Opening[];
  /** All openings together [mm2], and what the mesh leaves of it. */
  readonly openMm2: number;
  readonly freeMm2: number;
  /** Least metal between two openings, and from an opening to the outline or something to keep clear of [mm]; as they are. */
  readonly webMm?: number;
  readonly edgeMm: number;
  /** Diameter at the corners, or of the round openings [mm]. */
  readonly drillMm: number;
  /** Most openings in a row, and rows. */
  readonly count: number;
  readonly rows: number;
  /** Middle of the field: along its edge and in from it [mm]. */
  readonly centreMm: readonly [along: number, across: number];
  /** Size of the field along and across its middle [mm]. */
  readonly sizeMm: readonly [along: number, across: number];
  /** What the tool chose that the builder may want otherwise, in words. */
  readonly notes: readonly string[];
}

/** A field, or why there is none; with the most that fits where that is known. */
export type WindowAnswer =
  | { readonly ok: true; readonly field: WindowField }
  | { readonly ok: false; readonly why: string; readonly most?: WindowField };
