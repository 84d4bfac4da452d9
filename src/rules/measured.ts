import type { RulePack } from '#car';
import type { Vec } from '#geometry';

export type Clause = RulePack['clauses'][number];

/** A number or a word found at one thing; neither: it was not measured. */
export interface Measured {
  readonly value?: number;
  readonly word?: string;
  readonly text: string;
  readonly atMm?: Vec;
  /** A value is only known to be at least this: it stands for "more than". */
  readonly isAtLeast?: boolean;
}

export const notMeasured = (text: string): Measured => ({ text });

const units: Partial<Readonly<Record<Clause['measure'], string>>> = {
  'gap-mm': 'mm',
  'clamp-pitch-mm': 'mm',
  'length-mm': 'mm',
  'height-mm': 'mm',
  'wall-mm': 'mm',
  'bore-mm': 'mm',
  'hole-clearance-mm': 'mm',
  'volume-l': 'L',
  'temperature-c': 'degC',
};

/** Unit of a measure; a share or a word has none. */
export const unitOf = (measure: Clause['measure']): string => units[measure] ?? '';
