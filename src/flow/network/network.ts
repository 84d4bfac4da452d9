import type { LossLaw } from './loss-law.ts';

/** A place where branches meet. With neither `fixedPa` nor `inflowM3S`, what flows in flows out again. */
export interface NetworkNode {
  readonly id: string;
  /** The pressure held here whatever flows: the free surface of a tank, the open air. */
  readonly fixedPa?: number;
  /** What is let in from outside the net; negative: taken out. */
  readonly inflowM3S?: number;
  /** Above any one level; stated at all nodes of a net or at none. */
  readonly heightM?: number;
}

/** One element between two nodes; flow is positive from `from` to `to`. */
export interface NetworkBranch {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly law: LossLaw;
  /** A rise in pressure from `from` to `to` that does not depend on flow. */
  readonly headPa?: number;
}

/** Nodes and branches: any loops, parallel branches, several parts that do not hang together. */
export interface Network {
  readonly nodes: readonly NetworkNode[];
  readonly branches: readonly NetworkBranch[];
  /** What stands between nodes of different height. */
  readonly densityKgM3?: number;
}

/**
 * Why a network has no answer:
 * - `input`: a number, name or end that cannot be;
 * - `alone`: a node that no branch reaches;
 * - `unbalanced`: a part without any fixed pressure, whose inflows do not add up to nothing;
 * - `falls`: an element whose loss does not rise with flow;
 * - `not-a-number`: an element whose law gives no number;
 * - `unbounded`: flow would grow without end, since some loss stays below what drives it;
 * - `unsettled`: the counted effort is used up.
 */
export type RefusalKind = 'input' | 'alone' | 'unbalanced' | 'falls' | 'not-a-number' | 'unbounded' | 'unsettled';

/** The network is refused: one clear line, and the ids of the nodes or branches that it is about. */
export interface RefusedNetwork {
  readonly ok: false;
  readonly kind: RefusalKind;
  readonly why: string;
  readonly where: readonly string[];
}

export function refusal(kind: RefusalKind, why: string, where: readonly string[]): RefusedNetwork {
  return { ok: false, kind, why, where };
}

const MOST_NAMES = 5;

/** `a, b, c and 4 more`. */
export function someNames(names: readonly string[]): string {
  if (names.length <= MOST_NAMES + 1) return names.join(', ');
  return `${names.slice(0, MOST_NAMES).join(', ')} and ${names.length - MOST_NAMES} more`;
}
