import type { SourceId } from '#sources';

/** Length to take off the overall length for one straight end [in], as the naval manual prints it. */
export interface CutFactorRow {
  readonly end: 'ptfe-flared-straight' | 'rubber-end';
  readonly dash: number;
  readonly factorIn: number;
  readonly source: SourceId;
}

export const cutFactors = [
  { end: 'ptfe-flared-straight', dash: 3, factorIn: 0.7, source: 'navy-14018' },
  { end: 'ptfe-flared-straight', dash: 4, factorIn: 0.74, source: 'navy-14018' },
  { end: 'ptfe-flared-straight', dash: 5, factorIn: 0.77, source: 'navy-14018' },
  { end: 'ptfe-flared-straight', dash: 6, factorIn: 0.81, source: 'navy-14018' },
  { end: 'ptfe-flared-straight', dash: 8, factorIn: 0.93, source: 'navy-14018' },
  { end: 'ptfe-flared-straight', dash: 10, factorIn: 1.05, source: 'navy-14018' },
  { end: 'ptfe-flared-straight', dash: 12, factorIn: 1.13, source: 'navy-14018' },
  { end: 'ptfe-flared-straight', dash: 16, factorIn: 1.3, source: 'navy-14018' },
  { end: 'ptfe-flared-straight', dash: 20, factorIn: 1.44, source: 'navy-14018' },
  { end: 'ptfe-flared-straight', dash: 24, factorIn: 1.66, source: 'navy-14018' },
  { end: 'rubber-end', dash: 3, factorIn: 0.6, source: 'navy-14018' },
  { end: 'rubber-end', dash: 4, factorIn: 0.6, source: 'navy-14018' },
  { end: 'rubber-end', dash: 5, factorIn: 0.7, source: 'navy-14018' },
  { end: 'rubber-end', dash: 6, factorIn: 0.77, source: 'navy-14018' },
  { end: 'rubber-end', dash: 8, factorIn: 0.94, source: 'navy-14018' },
  { end: 'rubber-end', dash: 10, factorIn: 1, source: 'navy-14018' },
  { end: 'rubber-end', dash: 12, factorIn: 1, source: 'navy-14018' },
  { end: 'rubber-end', dash: 16, factorIn: 0.94, source: 'navy-14018' },
  { end: 'rubber-end', dash: 20, factorIn: 0.99, source: 'navy-14018' },
  { end: 'rubber-end', dash: 24, factorIn: 1.09, source: 'navy-14018' },
  { end: 'rubber-end', dash: 32, factorIn: 1.24, source: 'navy-14018' },
] as const satisfies readonly CutFactorRow[];

/** The naval manual's factor for one end and size [in], undefined where its table has none. */
export const cutFactorIn = (end: CutFactorRow['end'], dash: number): number | undefined =>
  cutFactors.find((r) => r.end === end && r.dash === dash)?.factorIn;
