import type { Finding } from '#sources';

/** A finding of this room, with what it is about. */
export interface HeatFinding extends Finding {
  /** The case it was found in; absent: it holds in all. */
  readonly case?: string;
  readonly line?: string;
  readonly part?: string;
  readonly panel?: string;
  /** A lever, and its cable as "lever-cable". */
  readonly lever?: string;
  readonly cable?: string;
  /** A closed space whose air is worked out. */
  readonly bay?: string;
  /** An opening, as "panel.window" or as "bay.opening". */
  readonly opening?: string;
  readonly cures: readonly string[];
  /** What its number rests on, for whoever opens it. */
  readonly inputs?: readonly { readonly name: string; readonly value: string }[];
}
