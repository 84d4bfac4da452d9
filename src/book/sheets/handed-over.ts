// What is read on the sheets of strip-down, rules and lives: plain values, made of the answers of those rooms.

/** One step of a strip-down as it is read by who does it. */
export interface OffStep {
  /** What comes off, with what hangs on it. */
  readonly what: string;
  /** What is undone and with which tools, which way it comes out, who lifts. */
  readonly how: string;
  /** Litres, caps and plugs; empty where it stays dry. */
  readonly drips: string;
  readonly minutes: number;
}

/** What must come off to get at something, in order. */
export interface OffPlan {
  readonly id: string;
  /** "Turbo: taken off and put back". */
  readonly title: string;
  /** What is worth knowing first: drain this, no way found for that. */
  readonly about: readonly string[];
  readonly steps: readonly OffStep[];
  readonly minutesOff: number;
  readonly minutesOn: number;
  readonly crew?: number;
  /** Closers to have at hand, with how many. */
  readonly caps: readonly string[];
  /** Orders that were found one way only: "manifold before tank". */
  readonly onAgain: readonly string[];
  /** What quarter-turns, dry-breaks or another split would win, the most first. */
  readonly wins: readonly string[];
  readonly lines: readonly string[];
}

/** A nut with the tool that goes on it, where that is no plain yes. */
export interface OffNut {
  readonly id: string;
  /** `yes`: told for its mark alone. */
  readonly verdict: 'yes' | 'tight' | 'no';
  readonly tool: string;
  readonly freeDeg: number;
  readonly needDeg: number;
  readonly why: string;
  /** What would let a tool on. */
  readonly cure?: string;
  /** Its witness mark is not seen from outside. */
  readonly isMarkHidden?: boolean;
  readonly line?: string;
}

/** A clause as the builder entered it, with what the car shows for it. */
export interface RuleClause {
  readonly clause: string;
  readonly text: string;
  /** `look`: nothing of it is measured, someone looks. */
  readonly verdict: 'meets' | 'does not meet' | 'look';
  /** Number, place, line. */
  readonly evidence: readonly string[];
  readonly wantsPhoto: boolean;
  readonly lines: readonly string[];
}

export interface RulePackSheet {
  readonly id: string;
  readonly name: string;
  readonly year: number;
  readonly clauses: readonly RuleClause[];
  /** Clauses of other packs that ask otherwise. */
  readonly conflicts: readonly string[];
}

/** Something with a life: a hose, a seal, a part. */
export interface DueRow {
  readonly id: string;
  readonly what: string;
  readonly isDue: boolean;
  /** "made 2024-02, stands 5 years; 40 of 60 runs". */
  readonly stands: string;
  /** When, or what is left. */
  readonly when: string;
  /** Where the life comes from. */
  readonly source: string;
  readonly lines: readonly string[];
}

/** A spare for a weekend, most needed first. */
export interface SpareRow {
  readonly what: string;
  readonly qty: number;
  /** `m`: by the metre. */
  readonly unit: 'm' | 'each';
  readonly servesLines: readonly string[];
  readonly why: string;
  readonly inBox: number;
}
