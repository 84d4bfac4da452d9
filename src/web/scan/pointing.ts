import type { TriangleMesh, Vec } from '#geometry';
import { signal } from '../bench/signal.ts';

/** A place of a surface that was pointed at, in the axes of what is drawn [mm]. */
export interface Pointed {
  /** The part that it is on; null for a scan that is not on the car yet. */
  readonly part: string | null;
  readonly atMm: Vec;
  /** Out of the surface. */
  readonly normal: Vec;
  /** From there to whoever looks. */
  readonly towards: Vec;
  readonly mesh: TriangleMesh;
  readonly triangle: number;
}

/** Set while a place is being pointed at: the next click on a surface goes there instead of opening the part. */
export const pointing = signal<((at: Pointed) => void) | null>(null);
pointing.watch(() => {
  if (pointing.get() === null) delete document.documentElement.dataset['pointing'];
  else document.documentElement.dataset['pointing'] = 'true';
});

/** A scan that lies on the table: seen by itself until it is placed. */
export interface OnTable {
  readonly file: string;
  readonly mesh: TriangleMesh;
  readonly minMm: Vec;
  readonly maxMm: Vec;
  /** Points that were pointed at, in its own axes. */
  readonly picks: readonly { readonly label: string; readonly atMm: Vec }[];
  /** Where it would stand on the car; null: seen by itself, in its own axes. */
  readonly placed: { readonly turnDeg: Vec; readonly atMm: Vec } | null;
}

export const table = signal<OnTable | null>(null);
