import type { Network, NetworkBranch } from '../network.ts';
import { pipe } from './plain-laws.ts';
import { seeded } from './seeded.ts';

/**
 * A near-planar network: streets in a square grid, one in six left out, some cut across, a tank at two corners and water
 * taken at one node in four; as many pipes as asked for, to a few in a hundred.
 */
export function streetNetwork(pipes: number, seed: number): Network {
  const by = seeded(seed);
  const side = Math.max(2, Math.round(Math.sqrt(pipes / 1.75)));
  const branches: NetworkBranch[] = [];
  const join = (i: number, j: number): void => {
    const law = pipe(by.scale(0.01, 0.05), by.between(0.5, 5), by.scale(1e-3, 1e-1));
    branches.push({ id: `b${branches.length}`, from: `n${i}`, to: `n${j}`, law });
  };
  for (let y = 0; y < side; y++) {
    for (let x = 0; x < side; x++) {
      const n = y * side + x;
      // The first row and all columns stay whole, so that every node is reached.
      if (x + 1 < side && (y === 0 || !by.isLucky(0.35))) join(n, n + 1);
      if (y + 1 < side) join(n, n + side);
      if (x + 1 < side && y + 1 < side && by.isLucky(0.12)) join(n, n + side + 1);
    }
  }
  const nodes = Array.from({ length: side * side }, (_, n) => {
    const fixed = n === 0 ? 3e5 : n === side * side - 1 ? 2.5e5 : undefined;
    const taken = by.isLucky(0.25) ? -by.scale(1e-6, 1e-4) : undefined;
    if (fixed !== undefined) return { id: `n${n}`, fixedPa: fixed };
    return taken === undefined ? { id: `n${n}` } : { id: `n${n}`, inflowM3S: taken };
  });
  return { nodes, branches };
}
