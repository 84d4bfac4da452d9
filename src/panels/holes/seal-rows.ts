import type { Panel } from '#car';
import type { SealRow } from '../flat-pattern.ts';
import type { LaidEdge, PlacedHole } from '../layout.ts';

/** What closes the holes and sealed edges of a panel: the list of seals, by what goes through and by edge. */
export const sealRows = (
  holes: readonly PlacedHole[],
  edges: readonly LaidEdge[],
  fireSide: Panel['fireSide'],
): readonly SealRow[] => [
  ...holes
    .flatMap(holeSeal)
    .map((row) =>
      fireSide === undefined ? row : { ...row, words: `${row.words}; fire sealant on the ${fireSide} face` },
    ),
  ...edges
    .filter(({ spec }) => spec?.sealed === true)
    .map(({ id, lengthMm }) => ({ at: id, words: 'sealed along its length', longMm: lengthMm })),
];

function holeSeal(hole: PlacedHole): SealRow[] {
  const { for: at, fitted, seal } = hole;
  if (seal !== undefined) return [{ at, words: seal }];
  switch (fitted) {
    case 'grommet':
      return [{ at, words: `grommet for a hole of ${Number(hole.diameterMm.toFixed(1))} mm` }];
    case 'bulkhead-fitting':
      return [{ at, words: 'seal under the bulkhead fitting' }];
    case 'ring':
      return [{ at, words: 'stand-off ring on spacers' }];
    case 'plain':
      return [{ at, words: 'edge strip round it', longMm: rimMm(hole) }];
    default:
      return [];
  }
}

function rimMm({ diameterMm, longMm = diameterMm, sizeMm }: PlacedHole): number {
  return sizeMm === undefined ? Math.PI * diameterMm + 2 * (longMm - diameterMm) : 2 * (sizeMm[0] + sizeMm[1]);
}
