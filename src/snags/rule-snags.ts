import type { RuleFinding } from '#rules';
import { findingSnag } from './car-snags.ts';
import type { Snag } from './snag.ts';

/** A clause that is not met, or packs that differ, as a snag. */
export function ruleSnag(finding: RuleFinding): Snag {
  const { panel, pack, clause, line, part } = finding;
  const about = [line ?? panel ?? part ?? 'car', finding.code, pack, clause];
  return {
    ...findingSnag({ ...finding, question: 'fit' }),
    id: about.join('-').replaceAll(/[\s.:"/]+/g, '-'),
    ...(panel === undefined ? {} : { panel }),
  };
}
