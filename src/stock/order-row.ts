import type { PartFacts, PartKind } from './part-index.ts';

/** One row of the order: a part, or a hose or tube by the metre. */
export interface OrderRow extends Omit<PartFacts, 'unknown'> {
  readonly id: string;
  readonly kind: PartKind;
  /** What the planned lines need; metres for hose and tube, losses counted. */
  readonly qty: number;
  readonly unit: 'each' | 'm';
  /** "O1 at tank.out"; "(2)" behind it where one place takes more than one. */
  readonly usedIn: readonly string[];
  /** Taken from the shelf. */
  readonly inBox: number;
  readonly toBuy: number;
  /** Carried against need, not built in. */
  readonly spare?: boolean;
}
