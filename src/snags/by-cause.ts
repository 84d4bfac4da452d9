import type { Snag } from './snag.ts';

/** One cause as it is read: its worst point, and what else comes of it. */
export interface Cause {
  readonly lead: Snag;
  /** Worst first, as they came. */
  readonly more: readonly Snag[];
  /** `same cause`: one change may clear them together. `alike`: the same advice about several things. */
  readonly how: 'same cause' | 'alike';
}

/** Too near as drawn or at worst: the way of the line, or how well it is known, is what all of them hang on. */
const ofRoom: ReadonlySet<string> = new Set(['keep-off', 'keep-off-at-worst', 'near-port']);

/**
 * Open points by what causes them, in the order they come. Each point is in exactly one cause: none is left out, none stands twice.
 *
 * @param snags - worst first
 */
export function byCause(snags: readonly Snag[]): Cause[] {
  const heads = snags.map((_, i) => i);
  const headOf = (i: number): number => (heads[i] === i ? i : (heads[i] = headOf(heads[i]!)));
  const first = new Map<string, number>();
  for (const [i, snag] of snags.entries())
    for (const key of causeKeys(snag)) {
      const other = first.get(key);
      if (other === undefined) first.set(key, i);
      else join(heads, headOf(i), headOf(other));
    }
  const causes = new Map<number, Snag[]>();
  for (const [i, snag] of snags.entries()) {
    const head = headOf(i);
    causes.set(head, [...(causes.get(head) ?? []), snag]);
  }
  return [...causes.values()].map(([lead, ...more]) => ({
    lead: lead!,
    more,
    how: lead!.level === 'note' ? 'alike' : 'same cause',
  }));
}

/** The one that came first, which is worse, stays the head. */
function join(heads: number[], a: number, b: number): void {
  heads[Math.max(a, b)] = Math.min(a, b);
}

/** Points that share one of these have one cause. */
function causeKeys(snag: Snag): readonly string[] {
  const { question, kind, level, line, panel, lever, part, circuit } = snag;
  // Advice is given thing by thing; it is read once.
  if (level === 'note') return [`note ${question} ${kind}`];
  if (ofRoom.has(kind) && line !== undefined) return [`room ${line}`];
  if (question === 'flow')
    return [`flow ${circuit ?? ''} ${kind}`, ...(line === undefined ? [] : [`flow ${circuit ?? ''} line ${line}`])];
  if (lever !== undefined) return [`${question} lever ${lever}`];
  if (panel !== undefined) return [`${question} panel ${panel}`];
  const about = line ?? part;
  if (about === undefined) return [`alone ${snag.id}`];
  // What no tool reaches and what cooks hang on where the thing sits.
  return question === 'off' || question === 'cook' ? [`${question} ${about}`] : [`${question} ${kind} ${about}`];
}
