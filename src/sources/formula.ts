import type { Known, SourceId } from './bibliography.ts';

/** One input of a formula: its unit, and the range it is good for. */
export interface FormulaInput {
  readonly name: string;
  readonly unit: string;
  readonly range?: readonly [min: number, max: number];
  readonly text: string;
}

/** A formula that the tool uses, as a row that can be listed, opened and worked by hand. */
export interface Formula {
  readonly id: string;
  readonly title: string;
  /** The equation in plain text. */
  readonly equation: string;
  readonly inputs: readonly FormulaInput[];
  readonly result: { readonly unit: string; readonly text: string };
  readonly source: SourceId;
  readonly known: Known;
  readonly example: {
    readonly given: Readonly<Record<string, number>>;
    readonly gives: number;
    readonly digits: number;
  };
  /** The value for inputs given by name; `workFormula` checks them first. */
  readonly evaluate: (given: Readonly<Record<string, number>>) => number;
}
