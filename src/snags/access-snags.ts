import type { AccessFinding } from '#access';
import { findingSnag } from './car-snags.ts';
import type { Snag } from './snag.ts';

/** What reach and strip-down leave open, as a snag: of the question what comes off. */
export function accessSnag(finding: AccessFinding): Snag {
  const { panel, fastener, place } = finding;
  const snag = findingSnag({ ...finding, question: 'off' });
  const about = [finding.line ?? finding.part ?? panel ?? 'car', fastener, finding.code].filter(
    (word) => word !== undefined,
  );
  // A line may have the same point open at either end: its place tells them apart.
  const where = finding.line === undefined || place === undefined ? [] : place.map((mm) => mm.toFixed(0));
  return {
    ...snag,
    id: [...about, ...where].join('-').replaceAll(/[\s.:"]+/g, '-'),
    ...(panel === undefined ? {} : { panel }),
  };
}
