import type { Car, Line } from '#car';
import type { FlowAnswer } from '#flow';
import type { TriangleMesh } from '#geometry';
import type { Way } from '#lines';
import type { PanelLayout } from '#panels';
import type { Snag } from '#snags';
import type { Catalogue } from '#standards';
import type { Comparison, Order } from '#stock';
import type { PagePaper } from '../paper-sizes.ts';
import type { DueRow, OffNut, OffPlan, RulePackSheet, SpareRow } from './handed-over.ts';

/** A line with the way that its card shows. */
export interface BookLine {
  readonly line: Line;
  /** Null where nothing was worked out. */
  readonly way: Way | null;
  /** False: the way is the least bad one that was found, and is not to be made. */
  readonly isTaken: boolean;
}

/** All that the book is made of: a car and what was worked out of it. */
export interface BookInput {
  readonly car: Car;
  readonly shelf: Catalogue;
  readonly meshes: ReadonlyMap<string, TriangleMesh>;
  /** Every line of the car, in its order. */
  readonly lines: readonly BookLine[];
  readonly snags: readonly Snag[];
  readonly order: Order;
  readonly flow: FlowAnswer;
  readonly panels: readonly PanelLayout[];
  /** Strip-downs that are asked for often, each its sheet. */
  readonly offPlans?: readonly OffPlan[];
  /** Nuts that are no plain yes. */
  readonly nuts?: readonly OffNut[];
  readonly rulePacks?: readonly RulePackSheet[];
  /** What is due on a day, and what to carry. */
  readonly lifing?: { readonly day: string; readonly due: readonly DueRow[]; readonly spares: readonly SpareRow[] };
  /** What the change from an earlier car costs. */
  readonly against?: { readonly name: string; readonly comparison: Comparison };
}

export interface BookWish {
  readonly paper: PagePaper;
  readonly inches?: boolean;
  /** Panels at full size too, in tiles. */
  readonly fullSize?: boolean;
}
