import type { RulePack } from '#car';
import { askedWords } from './judged.ts';
import type { Clause } from './measured.ts';
import type { RuleConflict } from './rule-answer.ts';

/**
 * Clauses that measure the same of the same and ask differently: no number keeps both (contradiction), or one is stricter and covers
 * the other.
 */
export function conflictsOf(packs: readonly RulePack[]): readonly RuleConflict[] {
  const all = packs.flatMap(({ id, clauses }) => clauses.map((clause) => ({ pack: id, clause })));
  const found: RuleConflict[] = [];
  all.forEach((a, n) => {
    for (const b of all.slice(n + 1)) {
      const isContradiction = conflict(a.clause, b.clause);
      if (isContradiction === null) continue;
      found.push({
        a: { pack: a.pack, clause: a.clause.clause },
        b: { pack: b.pack, clause: b.clause.clause },
        isContradiction,
        text: `${a.pack} ${a.clause.clause} asks ${askedWords(a.clause)}, ${b.pack} ${b.clause.clause} ${askedWords(b.clause)}: ${
          isContradiction ? 'nothing keeps both' : 'the stricter of the two covers the other'
        }`,
      });
    }
  });
  return found;
}

/** True: a contradiction; false: they differ; null: they agree or are not about the same. */
function conflict(a: Clause, b: Clause): boolean | null {
  if (a.measure !== b.measure || a.measure === 'by-eye' || a.about !== b.about || a.to !== b.to) return null;
  if (!shares(a.duties, b.duties) || !shares(a.parts, b.parts)) return null;
  if (a.is !== undefined && b.is !== undefined) return differs(a, b);
  const low = Math.max(a.least ?? -Infinity, b.least ?? -Infinity);
  const high = Math.min(a.most ?? Infinity, b.most ?? Infinity);
  if (low > high) return true;
  return a.least !== b.least || a.most !== b.most ? false : null;
}

/** Two states can both be reached, the further one last; of other words only one holds. */
const differs = (a: Clause, b: Clause): boolean | null =>
  a.is!.toLowerCase() === b.is!.toLowerCase() ? null : a.measure !== 'state';

const shares = (a: readonly string[] | undefined, b: readonly string[] | undefined): boolean =>
  a === undefined || b === undefined || a.some((word) => b.includes(word));
