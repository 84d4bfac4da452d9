import type { Vec } from '#geometry';

/** How a car stands to a rule as its builder entered it; never more than that. */
export type RuleVerdict = 'meets the entered rule' | 'does not meet' | 'not measured: look';

/** What was measured at one thing that a clause is about. */
export interface RuleEvidence {
  readonly line?: string;
  readonly part?: string;
  readonly panel?: string;
  readonly verdict: RuleVerdict;
  /** The number, in the unit of the measure; null where there is none. */
  readonly value: number | null;
  readonly unit: string;
  /** What it was held against, in words: "at least 76 mm". */
  readonly asked: string;
  /** In words: what was measured and where it comes from. */
  readonly text: string;
  readonly atMm?: Vec;
}

/** One clause on the car. */
export interface ClauseAnswer {
  readonly clause: string;
  readonly text: string;
  readonly about: string;
  /** The worst of its evidence; nothing to look at: it meets it, and says so. */
  readonly verdict: RuleVerdict;
  readonly evidence: readonly RuleEvidence[];
  readonly isPhotoWanted: boolean;
}

export interface PackAnswer {
  readonly id: string;
  readonly name: string;
  readonly year: number;
  readonly clauses: readonly ClauseAnswer[];
}

/** Two clauses that ask different things of the same. */
export interface RuleConflict {
  readonly a: { readonly pack: string; readonly clause: string };
  readonly b: { readonly pack: string; readonly clause: string };
  /** No car keeps both; else the stricter one covers the other. */
  readonly isContradiction: boolean;
  readonly text: string;
}

/** The car against every rule pack in its file. */
export interface RulesAnswer {
  readonly packs: readonly PackAnswer[];
  readonly conflicts: readonly RuleConflict[];
}
