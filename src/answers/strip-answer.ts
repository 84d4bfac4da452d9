import type { Coming, StripAim, StripStep } from '#access';

/** One thing undone in a step. */
export interface StripUndo {
  readonly id: string;
  readonly words: string;
  /** Of a fastener, what it is and which tool it takes, as one and as several: "M6 nut, socket 10 mm", "M6 nuts, socket 10 mm". */
  readonly is?: { readonly one: string; readonly more: string };
  readonly minutes: number;
  /** False: no straight way of a hand was found to it. */
  readonly isReached: boolean;
  /** Where no tool goes on plainly when its turn comes; one that has to be made for it was weighed as 5 min more, not among the minutes told. */
  readonly tool?: { readonly goes: 'tight' | 'none'; readonly words: string };
}

/** One joint opened in a step: what runs, what closes it. */
export interface StripOpen {
  readonly line: string;
  readonly port: string;
  readonly heightMm: number;
  readonly fluid: string | null;
  readonly litres: number;
  /** The vessel that empties through it. */
  readonly vessel: string | null;
  readonly caps: readonly string[];
  readonly closeWith: string | null;
}

/** One step of a strip-down. */
export interface StripOfStep {
  readonly number: number;
  readonly kind: StripStep['kind'];
  /** What is taken hold of, and what comes with it. */
  readonly what: string;
  readonly name: string;
  readonly along: readonly string[];
  readonly words: string;
  readonly undo: readonly StripUndo[];
  /** Undone on the bench. */
  readonly onBench: readonly StripUndo[];
  readonly opens: readonly StripOpen[];
  /** Runs out of the part itself when it comes off [L]. */
  readonly spillsL: number;
  readonly minutes: number;
  readonly coming: Coming;
  readonly lift: StripStep['lift'] | null;
}

/** A cap or plug to have ready. */
export interface StripCap {
  readonly id: string;
  readonly name: string;
  readonly qty: number;
  readonly inBox: number;
}

/** A break that names this job, and whether it is done in it. */
export interface StripBreak {
  readonly name: string;
  readonly minutes: number;
  readonly jobMinutes: number;
  readonly fits: boolean;
}

/** What comes off for one part, panel or line; in order, with minutes, litres and caps. */
export interface StripOf {
  readonly target: string;
  readonly name: string;
  readonly aim: StripAim;
  /** `none`: no way was found; that does not say that there is none. */
  readonly found: 'found' | 'none' | 'stays-on' | 'stopped';
  /** The least among the ways out that were found; false: a cheaper one may be left. */
  readonly isProved: boolean;
  /** Where it is not proved: what a cheaper plan could win at most of taking off, litres and opened joints weighed in as minutes [min]. */
  readonly couldWinMin: number;
  readonly steps: readonly StripOfStep[];
  /** One alone: off, on again, both. */
  readonly minutesOff: number;
  readonly minutesOn: number;
  readonly minutes: number;
  readonly crew: number;
  /** Off and on again with that crew. */
  readonly crewMinutes: number;
  readonly litres: number;
  /** Parts on opened joints that hold something too, how much of it nobody stated: not among the litres. */
  readonly uncounted: readonly string[];
  /** Vessels that run out of an opened joint: drained first, this much. */
  readonly drainFirst: readonly {
    readonly part: string;
    readonly name: string;
    readonly litres: number;
    readonly by: string;
  }[];
  readonly caps: readonly StripCap[];
  /** In words: ends for which no cap is listed. */
  readonly closeWith: readonly string[];
  /** The steps' things in the order in which they go on again. */
  readonly fittingOrder: readonly string[];
  /** The same in words. */
  readonly onAgain: readonly string[];
  readonly fitBefore: readonly { readonly first: string; readonly second: string; readonly words: string }[];
  readonly breaks: readonly StripBreak[];
  /** What the straightest ways out meet, where none was found. */
  readonly blockedBy: readonly string[];
  readonly cautions: readonly string[];
  /** Where they were asked for: what would win most first. */
  readonly wins: readonly StripWin[];
}

/** What another way of fixing would win, the job worked out again with it. */
export interface StripWin {
  readonly words: string;
  /** Off and on again, one alone, then with the crew [min]. */
  readonly minutes: number;
  readonly crewMinutes: number;
  readonly savedMin: number;
}

export interface StripWish {
  readonly aim?: StripAim;
  readonly crew?: number;
  /** Also what a quarter-turn, a dry-break or another panel split would win. */
  readonly wins?: boolean;
  readonly watch?: (done: number, total: number) => boolean;
}
