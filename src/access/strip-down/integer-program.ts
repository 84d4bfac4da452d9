import loadHighs from 'highs';

// Its types are written as for CommonJS; what Node imports is the function itself.
const highs = await (loadHighs as unknown as typeof loadHighs.default)();

/** A column's number with its factor. */
export type Term = readonly [column: number, factor: number];

/** A row that no answer that is wanted breaks: its terms sum to this at least. */
export interface Cut {
  readonly least: number;
  readonly terms: readonly Term[];
}

/** The least of an integer program, or how far it is known. */
export type IntegerAnswer = {
  /** Steps of the simplex method that were made. */
  readonly steps: number;
} & (
  | { readonly kind: 'found'; readonly cost: number; readonly values: Float64Array }
  | { readonly kind: 'none' }
  /** Given up; no answer costs less than `atLeast`. */
  | { readonly kind: 'cut short'; readonly atLeast: number }
);

/**
 * A program of columns between 0 and 1, some of them whole, whose cost is to be least among those that meet all rows. Solved by branch and cut
 * (HiGHS): the same rows in the same order give the same answer.
 */
export class IntegerProgram {
  private readonly costs: number[] = [];
  private readonly lowers: number[] = [];
  private readonly whole: number[] = [];
  private readonly rowLowers: number[] = [];
  private readonly rowUppers: number[] = [];
  private readonly starts: number[] = [0];
  private readonly indices: number[] = [];
  private readonly values: number[] = [];

  /** @returns the number of a new column */
  column(cost: number, { isWhole = false, isOne = false } = {}): number {
    this.lowers.push(isOne ? 1 : 0);
    this.whole.push(isWhole ? 1 : 0);
    return this.costs.push(cost) - 1;
  }

  addCost(column: number, more: number): void {
    this.costs[column]! += more;
  }

  /** Sum of the terms at least this. */
  atLeast(least: number, terms: readonly Term[]): void {
    this.row(least, highs.infinity, terms);
  }

  /** Sum of the terms just this. */
  equal(value: number, terms: readonly Term[]): void {
    this.row(value, value, terms);
  }

  private row(lower: number, upper: number, terms: readonly Term[]): void {
    const factors = new Map<number, number>();
    for (const [column, factor] of terms) factors.set(column, (factors.get(column) ?? 0) + factor);
    for (const [column, factor] of factors) {
      this.indices.push(column);
      this.values.push(factor);
    }
    this.rowLowers.push(lower);
    this.rowUppers.push(upper);
    this.starts.push(this.indices.length);
  }

  /**
   * @param below - only what costs less is looked for
   * @param most - steps of the simplex method after which it is given up
   * @param isRelaxed - no column need be whole
   */
  least(below: number, most: number, isRelaxed = false): IntegerAnswer {
    const [numCols, numRows] = [this.costs.length, this.rowLowers.length + 1];
    const priced = this.costs.flatMap((cost, column) => (cost === 0 ? [] : [column]));
    return highs.withModel(
      {
        numCols,
        numRows,
        sense: highs.constants.objectiveSense.minimize,
        offset: 0,
        colCost: this.costs,
        colLower: this.lowers,
        colUpper: this.costs.map(() => 1),
        rowLower: [...this.rowLowers, -highs.infinity],
        rowUpper: [...this.rowUppers, below],
        matrix: {
          format: 'csr',
          numRows,
          numCols,
          starts: [...this.starts, this.indices.length + priced.length],
          indices: [...this.indices, ...priced],
          values: [...this.values, ...priced.map((column) => this.costs[column]!)],
        },
        integrality: this.whole.map((one) => (one === 1 && !isRelaxed ? 1 : 0)),
      },
      (model): IntegerAnswer => {
        // Good plans are known beforehand: time goes into the proof.
        model.options.set({
          output_flag: false,
          mip_rel_gap: 0,
          mip_heuristic_effort: 0,
          mip_detect_symmetry: false,
        });
        model.run({
          [highs.constants.callbackType.mipInterrupt]: (event) => {
            if (Number(event.data.mip_total_lp_iterations ?? 0) > most) event.interrupt();
          },
        });
        const { optimal, infeasible } = highs.constants.modelStatus;
        const status = model.getModelStatus();
        const steps = Number(model.info.get('simplex_iteration_count'));
        if (status === infeasible) return { kind: 'none', steps };
        if (status !== optimal) return { kind: 'cut short', steps, atLeast: Number(model.info.get('mip_dual_bound')) };
        return { kind: 'found', steps, cost: model.getObjectiveValue(), values: model.getSolution().colValue };
      },
    );
  }
}
