import type { FlatPattern } from '../flat-pattern.ts';
import type { LaidEdge } from '../layout.ts';

/** Less than this beyond it the sheet ends on its measured edge [mm]. */
const ON_EDGE_MM = 0.5;

/** The measured edge is scribed where an overlap, a joggle or tabs go on beyond it: there the panel is laid to what was measured. */
export const edgeMarks = (edges: readonly LaidEdge[]): FlatPattern['marks'] =>
  edges
    .filter(({ reachMm, strip, tabs, curve }) => {
      if (curve !== undefined) return false;
      return reachMm > ON_EDGE_MM || strip?.kind === 'joggle' || tabs !== undefined;
    })
    .map(({ id, line: [from, to] }) => ({ from, to, name: `measured edge ${id}` }));
