import { closedBay } from '../src/lines/planted/closed-bay.ts';
import { type Level, plantedBay } from '../src/lines/planted/planted-bay.ts';
import { faultsInBay, waysInBay } from '../src/lines/planted/solved-bay.ts';

const title = 'bays with a planted line, three levels; bays with no way';
const BAYS = 300;
const LEAST_SHARE = 0.99;
const CLOSED = 25;

const cpuMs = (): number => process.cpuUsage().user / 1000;
const at = (sorted: readonly number[], share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0;

type Watch = (done: number, total: number) => boolean;

interface Tally {
  passed: number;
  failed: number;
  readonly lines: string[];
}

function level(name: Level, tally: Tally, tick: () => void): void {
  const unsolved: number[] = [];
  const faulty: string[] = [];
  const ms: number[] = [];
  const shares: number[] = [];
  for (let seed = 0; seed < BAYS; seed++, tick()) {
    const bay = plantedBay(name, seed);
    const from = cpuMs();
    const way = waysInBay(bay)[0]!;
    ms.push(cpuMs() - from);
    if (!way.feasible) {
      unsolved.push(seed);
      continue;
    }
    shares.push(way.cost / bay.planted[0]!.cost);
    const faults = faultsInBay(bay, way);
    if (faults.length > 0) faulty.push(`${seed}: ${faults.join(', ')}`);
  }
  ms.sort((p, q) => p - q);
  shares.sort((p, q) => p - q);
  const solved = BAYS - unsolved.length;
  const enough = solved >= LEAST_SHARE * BAYS;
  tally.passed += (enough ? 1 : 0) + solved - faulty.length;
  tally.failed += (enough ? 0 : 1) + faulty.length;
  tally.lines.push(
    `${name}: ${solved} of ${BAYS} solved (${Math.ceil(LEAST_SHARE * BAYS)} wanted), ${solved - faulty.length} of them verified; ` +
      `CPU ms median ${at(ms, 0.5).toFixed(0)}, p95 ${at(ms, 0.95).toFixed(0)}, most ${at(ms, 1).toFixed(0)}; ` +
      `cost against the planted line median ${at(shares, 0.5).toFixed(3)}, p95 ${at(shares, 0.95).toFixed(3)}, worst ${at(shares, 1).toFixed(3)}`,
  );
  if (unsolved.length > 0) tally.lines.push(`  unsolved seeds: ${unsolved.join(' ')}`);
  for (const fault of faulty) tally.lines.push(`  ${name} ${fault}`);
}

function closed(tally: Tally, tick: () => void): void {
  for (const shut of ['boxed in', 'panel between'] as const) {
    const wrong: number[] = [];
    const ms: number[] = [];
    for (let seed = 0; seed < CLOSED; seed++, tick()) {
      const bay = closedBay(shut, seed);
      const from = cpuMs();
      const way = waysInBay(bay)[0]!;
      ms.push(cpuMs() - from);
      if (way.feasible || !way.fails.some((fail) => fail.limit === 'reach' && fail.text.includes('proved')))
        wrong.push(seed);
    }
    ms.sort((p, q) => p - q);
    tally.passed += CLOSED - wrong.length;
    tally.failed += wrong.length;
    tally.lines.push(
      `${shut}: ${CLOSED - wrong.length} of ${CLOSED} proved to have no way; CPU ms median ${at(ms, 0.5).toFixed(0)}, most ${at(ms, 1).toFixed(0)}${wrong.length > 0 ? `; not told: ${wrong.join(' ')}` : ''}`,
    );
  }
}

async function run(watch: Watch): Promise<Tally> {
  const tally: Tally = { passed: 0, failed: 0, lines: [] };
  let done = 0;
  const tick = (): void => void watch(++done, 3 * BAYS + 2 * CLOSED);
  for (const name of ['easy', 'medium', 'hard'] as const) level(name, tally, tick);
  closed(tally, tick);
  return tally;
}

export default { title, run };
