import type { Vec } from '#geometry';
import type { Finding } from '#sources';

/** A finding of this room, with what it is about. */
export interface PanelFinding extends Finding {
  readonly panel: string;
  /** The corner, edge ("A-B"), tape, window or hole of the panel that it is about. */
  readonly at?: string;
  readonly line?: string;
  readonly part?: string;
  readonly cures: readonly string[];
  /** What its number rests on, for whoever opens it. */
  readonly inputs?: readonly { readonly name: string; readonly value: string }[];
}

/** A length as findings print it: tenths of a millimetre, no false digits. */
export const mm = (value: number): string => `${Number(value.toFixed(Math.abs(value) < 10 ? 1 : 0))} mm`;

/** A place in car axes as findings carry it: to a tenth of a millimetre. */
export const placeOf = (at: Vec): Vec => [
  Math.round(at[0] * 10) / 10,
  Math.round(at[1] * 10) / 10,
  Math.round(at[2] * 10) / 10,
];
