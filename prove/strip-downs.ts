import { latticeAssembly } from '../src/access/planted/lattice-assembly.ts';
import { latticeProblem, leastByTrying } from '../src/access/planted/lattice-strip.ts';
import { leastStrip } from '../src/access/strip-down/least-strip.ts';

const title = 'least strip-down of seeded assemblies of 4 to 8 parts: what brute force over every set of parts finds';
const SEEDS = 3000;

async function run(
  watch: (done: number, total: number) => boolean,
): Promise<{ passed: number; failed: number; lines: string[] }> {
  let passed = 0;
  let notProved = 0;
  const lines: string[] = [];
  for (let seed = 0; seed < SEEDS; seed++) {
    const count = 4 + (seed % 5);
    const lattice = latticeAssembly(seed, count, count > 6 ? seed % 2 : seed % 4);
    for (const either of [false, true]) {
      const answer = leastStrip(latticeProblem(lattice, either));
      const least = lattice.parts[lattice.goal]!.staysOn ? Infinity : leastByTrying(lattice, either);
      const cost = answer.kind === 'found' ? answer.cost : Infinity;
      const isTrue = answer.kind === 'found' && !answer.isProved && answer.atLeast! <= least + 1e-6 && cost >= least;
      if (cost === least || Math.abs(cost - least) < 1e-6) passed++;
      else if (isTrue) notProved++;
      else lines.push(`FAILED: seed ${seed}${either ? ', either' : ''}: ${cost}, brute force ${least}`);
    }
    watch(seed + 1, SEEDS);
  }
  const failed = lines.length;
  lines.push(`${notProved} told as not proved, and dearer than the least`);
  return { passed, failed, lines };
}

export default { title, run };
