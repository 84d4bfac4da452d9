import type { Finding } from '#sources';

/** A finding of this room, with what it is about. */
export interface AccessFinding extends Finding {
  readonly part?: string;
  readonly line?: string;
  readonly panel?: string;
  /** A fastener of that part. */
  readonly fastener?: string;
  /** What would cure it, worked out where it can be. */
  readonly cures: readonly string[];
  /** What its number rests on, for whoever opens it. */
  readonly inputs?: readonly { readonly name: string; readonly value: string }[];
}
