import type { Comparison } from '#stock';
import { inchText, usText } from '#units';
import type { BookInput } from './book-input.ts';

/** A sentence in inches, psi and gallons. */
export const told = (text: string): string => usText(inchText(text));

const inInches = (comparison: Comparison): Comparison => ({
  ...comparison,
  lines: comparison.lines.map((row) => ({ ...row, why: told(row.why), steps: row.steps.map(told) })),
  buy: comparison.buy.map((row) => ({ ...row, usedIn: row.usedIn.map(told) })),
  surplus: comparison.surplus.map((row) => ({ ...row, from: row.from.map(told) })),
  fitsElsewhere: comparison.fitsElsewhere.map((fit) => ({ ...fit, why: told(fit.why) })),
});

/** The sentences that other rooms hand to the book, in US units; the builder's own words of a rule stay as they were entered. */
export const usInput = (input: BookInput): BookInput => ({
  ...input,
  snags: input.snags.map((snag) => ({
    ...snag,
    text: told(snag.text),
    source: told(snag.source),
    cures: snag.cures.map(told),
  })),
  panels: input.panels.map((layout) => ({
    ...layout,
    findings: layout.findings.map((finding) => ({ ...finding, text: told(finding.text) })),
  })),
  ...(input.against === undefined
    ? {}
    : { against: { ...input.against, comparison: inInches(input.against.comparison) } }),
  ...(input.offPlans === undefined
    ? {}
    : {
        offPlans: input.offPlans.map((plan) => ({
          ...plan,
          about: plan.about.map(told),
          steps: plan.steps.map((step) => ({ ...step, drips: told(step.drips) })),
        })),
      }),
  ...(input.rulePacks === undefined
    ? {}
    : {
        rulePacks: input.rulePacks.map((pack) => ({
          ...pack,
          clauses: pack.clauses.map((clause) => ({ ...clause, evidence: clause.evidence.map(told) })),
        })),
      }),
});
