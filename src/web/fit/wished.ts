import { lineInSize } from '#answers';
import type { Edit, Line } from '#car';
import type { Catalogue } from '#standards';

/** A change that is tried on a line. */
export interface Wished {
  readonly edits: readonly Edit[];
  /** Lines that are worked out with it. */
  readonly anew: readonly string[];
}

/** Another size is another hose with other ends: its way is worked out with it. Swapped ports are judged first. */
export function wished(shelf: Catalogue, line: Line, dash: string, swap: string): Wished {
  if (dash !== '') {
    const sized = lineInSize(shelf, line, Number(dash));
    return 'fault' in sized ? { edits: [], anew: [] } : { edits: sized.edits, anew: [line.id] };
  }
  const [a, b] = swap.split(' ');
  return { edits: a !== undefined && b !== undefined ? [{ do: 'swap-ports', a, b }] : [], anew: [] };
}
