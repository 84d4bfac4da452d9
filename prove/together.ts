import { planCar, wayAlone } from '#answers';
import { jointBay } from '../src/lines/planted/joint-bay.ts';
import { linePairFaults } from '../src/lines/planted/line-pair-faults.ts';
import { faultsInBay, worldOfBay } from '../src/lines/planted/solved-bay.ts';

const title = 'thirty lines planned together, planted together without conflict';
const SEEDS = [1, 2] as const;
const LINES = 30;
const THINGS = 12;
const MOST_COST = 1.05;

const cpuMs = (): number => process.cpuUsage().user / 1000;

async function run(
  watch: (done: number, total: number) => boolean,
): Promise<{ passed: number; failed: number; lines: string[] }> {
  let passed = 0;
  let failed = 0;
  const lines: string[] = [];
  const judge = (ok: boolean, words: string): void => {
    if (ok) passed++;
    else failed++;
    lines.push(`${ok ? 'ok' : 'FAILED'}: ${words}`);
  };
  for (const [n, seed] of SEEDS.entries()) {
    const bay = jointBay(LINES, THINGS, seed);
    const world = worldOfBay(bay);
    const alone = new Map(world.car.lines.map((line) => [line.id, wayAlone(world, line)]));
    const from = cpuMs();
    const planned = planCar(worldOfBay(bay));
    const ms = cpuMs() - from;
    const taken = planned.lines.filter((line) => line.taken !== null);
    const refused = planned.lines.filter((line) => line.taken === null && alone.get(line.line)!.feasible);
    const touching = linePairFaults(new Map(taken.map((line) => [line.line, line.taken!.bodies])), 3);
    const faults = taken.flatMap((line) => faultsInBay(bay, line.taken!).map((fault) => `${line.line}: ${fault}`));
    const both = taken.filter((line) => alone.get(line.line)!.feasible);
    const ratio =
      both.reduce((sum, line) => sum + line.taken!.cost, 0) /
      both.reduce((sum, line) => sum + alone.get(line.line)!.cost, 0);
    judge(
      refused.length === 0,
      `seed ${seed}: ${taken.length} of ${LINES} taken in ${(ms / 1000).toFixed(1)} s of CPU, ${planned.takenUp} taken up again; refused though possible alone: ${refused.map((r) => r.line).join(' ') || 'none'}`,
    );
    judge(
      touching.length === 0,
      `seed ${seed}: ${touching.length} conflicts on the drawn bodies ${touching.join('; ')}`,
    );
    judge(faults.length === 0, `seed ${seed}: ${faults.length} faults of single ways ${faults.slice(0, 5).join('; ')}`);
    judge(ratio <= MOST_COST, `seed ${seed}: cost ${ratio.toFixed(3)} of what each would cost alone`);
    watch(n + 1, SEEDS.length);
  }
  return { passed, failed, lines };
}

export default { title, run };
