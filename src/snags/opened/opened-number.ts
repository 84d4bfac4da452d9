/** One thing that a number is made of. */
export interface OpenedInput {
  readonly name: string;
  /** With its unit. */
  readonly value: string;
  /** Where it comes from. */
  readonly from?: string;
}

/** The rule that a number is held against. */
export interface OpenedRule {
  readonly text: string;
  /** Who set it. */
  readonly whose: string;
  /** How it is known. */
  readonly known: string;
}

/** What a room that finds something can say of its number; the rest is told from the snag itself. */
export interface Opens {
  /** In plain text, with what it is held against. */
  readonly equation: string;
  readonly inputs: readonly OpenedInput[];
  /** For what it holds, and how well. */
  readonly range: string;
  /** Ids of the formulas that it is worked out with. */
  readonly formulas?: readonly string[];
  readonly rule?: OpenedRule;
}

/** The number of a snag opened up. */
export interface OpenedNumber extends Required<Opens> {}
