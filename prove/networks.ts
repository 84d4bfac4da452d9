import { faultyNetwork, soundNetwork } from '../src/flow/network/planted/random-network.ts';
import { solveNetwork } from '../src/flow/network/solve-network.ts';

const title = 'random networks of 1 to 200 branches: settled, or refused for the fault that was put into them';
const SEEDS = 10_000;
/** Seeds of the faulty ones among them: one in five. */
const FAULTY_EVERY = 5;
const BALANCE_SHARE = 1e-9;

async function run(
  watch: (done: number, total: number) => boolean,
): Promise<{ passed: number; failed: number; lines: string[] }> {
  let passed = 0;
  let failed = 0;
  let most = 0;
  let worst = 0;
  const iterations: number[] = [];
  const kinds = new Map<string, number>();
  const lines: string[] = [];
  const fail = (words: string): void => {
    failed++;
    lines.push(`FAILED: ${words}`);
  };
  for (let seed = 1; seed <= SEEDS; seed++) {
    if (seed % FAULTY_EVERY === 0) {
      const { network, fault } = faultyNetwork(seed / FAULTY_EVERY);
      const answer = solveNetwork(network);
      if (answer.ok) fail(`seed ${seed}: settled in spite of ${fault!.kind} at "${fault!.where}"`);
      else if (answer.kind !== fault!.kind || !answer.where.includes(fault!.where)) fail(`seed ${seed}: ${answer.why}`);
      else {
        passed++;
        kinds.set(answer.kind, (kinds.get(answer.kind) ?? 0) + 1);
      }
    } else {
      const network = soundNetwork(seed);
      const answer = solveNetwork(network);
      const largest = answer.ok ? answer.flowM3S.reduce((a, q) => Math.max(a, Math.abs(q)), 0) : 0;
      if (!answer.ok) fail(`seed ${seed}, ${network.branches.length} branches: ${answer.why}`);
      else if (!(answer.imbalanceM3S <= BALANCE_SHARE * largest))
        fail(`seed ${seed}: off by ${answer.imbalanceM3S} m3/s`);
      else if (![...answer.flowM3S, ...answer.pressurePa].every(Number.isFinite)) fail(`seed ${seed}: no number`);
      else {
        passed++;
        iterations.push(answer.iterations);
        most = Math.max(most, network.branches.length);
        if (largest > 0) worst = Math.max(worst, answer.imbalanceM3S / largest);
      }
    }
    watch(seed, SEEDS);
  }
  iterations.sort((a, b) => a - b);
  const at = (share: number): number => iterations[Math.floor(share * (iterations.length - 1))] ?? 0;
  lines.push(
    `${iterations.length} settled, up to ${most} branches; steps: median ${at(0.5)}, 99 % ${at(0.99)}, most ${at(1)}`,
  );
  lines.push(`worst balance ${worst.toExponential(1)} of the largest flow`);
  lines.push(`refused: ${[...kinds].map(([kind, count]) => `${kind} ${count}`).join(', ')}`);
  return { passed, failed, lines };
}

export default { title, run };
