import type { Finding } from '#sources';

/** A finding of this room, with what it is about. */
export interface FlowFinding extends Finding {
  readonly circuit: string;
  /** The case it was found in; absent: it holds in all. */
  readonly case?: string;
  readonly line?: string;
  readonly part?: string;
  /** Each worked out on the changed circuit, with what it gains; the one that gains most first. */
  readonly cures: readonly string[];
  /** What may help but is not worked out, with the reason. */
  readonly advice?: readonly string[];
  /** What its number rests on, for whoever opens it. */
  readonly inputs?: readonly { readonly name: string; readonly value: string }[];
}

/** Small numbers below zero round to "-0.00", which nobody writes. */
const plain = (words: string): string => words.replaceAll(/(?<=^|[\s(])-(0(?:\.0+)?)(?![\d.]*\d)/gu, '$1');

/** The finding as it is told: numbers that round to nothing without a sign. */
export const toldPlainly = (finding: FlowFinding): FlowFinding => ({
  ...finding,
  text: plain(finding.text),
  cures: finding.cures.map(plain),
  ...(finding.advice === undefined ? {} : { advice: finding.advice.map(plain) }),
});
