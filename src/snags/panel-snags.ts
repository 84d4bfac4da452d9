import type { PanelFinding } from '#panels';
import { findingSnag } from './car-snags.ts';
import type { Snag } from './snag.ts';

/** A finding about a panel as an open point: one for each corner, edge, window, hole, line or part that it is about. */
export function panelSnag(finding: PanelFinding): Snag {
  const { panel, at, line, part, code } = finding;
  const { line: _line, part: _part, ...rest } = findingSnag({ ...finding, question: 'cut' });
  const about = [panel, at, line ?? part].filter((id) => id !== undefined).join('-');
  return {
    ...rest,
    id: `${about}-${code}`.replaceAll(/[\s.:"]+/g, '-'),
    panel,
    ...(line === undefined ? {} : { line }),
    ...(part === undefined ? {} : { part }),
  };
}
