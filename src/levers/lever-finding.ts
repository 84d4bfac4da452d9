import type { Finding } from '#sources';

/** A finding of this room, with what it is about. */
export interface LeverFinding extends Finding {
  readonly lever: string;
  /** The rod, cable or cylinder it is about. */
  readonly link?: string;
  readonly part?: string;
  /** What would cure it, worked out where it can be. */
  readonly cures: readonly string[];
  /** What its number rests on, for whoever opens it. */
  readonly inputs?: readonly { readonly name: string; readonly value: string }[];
}
