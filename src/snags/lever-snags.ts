import type { LeverFinding } from '#levers';
import { findingSnag } from './car-snags.ts';
import type { Snag } from './snag.ts';

/** A finding about a lever as an open point; one for each rod, cable or cylinder and each thing it is too near to. */
export function leverSnag(finding: LeverFinding): Snag {
  const { lever, link, part, code } = finding;
  const { part: _, ...rest } = findingSnag({ ...finding, question: code.startsWith('bracket') ? 'cut' : 'fit' });
  const about = [lever, link, part].filter((id) => id !== undefined).join('-');
  return {
    ...rest,
    id: `${about}-${code}`.replaceAll(/[\s.:"]+/g, '-'),
    lever,
    ...(part === undefined ? {} : { part }),
  };
}
