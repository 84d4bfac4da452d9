/** Something that a tool is put on: a fastener of a part, or the joint of a line at one of its ports. */
export type Nut =
  | { readonly kind: 'fastener'; readonly part: string; readonly fastener: string }
  | { readonly kind: 'joint'; readonly line: string; readonly port: string };

/** What a tool meets at one nut. */
export interface NutReach {
  /** With everything in place. */
  readonly reach: 'yes' | 'tight' | 'no';
  /**
   * Sets of parts, panels and lines (by id): with any one set off, a tool goes on. Least sets first; an empty set: nothing need come
   * off. No set at all: nothing that was tried lets a tool on.
   */
  readonly clearedBy: readonly (readonly string[])[];
  /** The tool in words. */
  readonly tool?: string;
}

/** Says of every nut what must be off for a tool to go on; absent: it was not looked at, and a tool is taken to reach it. */
export type ToolReach = (nut: Nut) => NutReach | undefined;
