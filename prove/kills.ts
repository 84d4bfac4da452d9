import { endKills, killRounds, type KillTally } from '../test/shelf/kill-rounds.ts';

const title = 'a shelf whose server is killed, at seeded moments';
const SHELVES = 10;
const KILLS = 10;

type Watch = (done: number, total: number) => boolean;

async function run(watch: Watch): Promise<{ passed: number; failed: number; lines: readonly string[] }> {
  let done = 0;
  const tallies: KillTally[] = [];
  const tick = (): void => void watch(++done, SHELVES * KILLS);
  for (let seed = 1; seed <= SHELVES; seed += 2)
    tallies.push(...(await Promise.all([killRounds(seed, KILLS, tick), killRounds(seed + 1, KILLS, tick)])));
  await endKills();
  const kills = tallies.reduce((sum, tally) => sum + tally.kills, 0);
  const told = tallies.reduce((sum, tally) => sum + tally.told, 0);
  const faults = tallies.flatMap((tally) => tally.faults);
  const lines = [`${kills} kills, ${told} things told as kept, ${faults.length} faults`, ...faults];
  return { passed: kills - new Set(faults.map((fault) => fault.split(':')[0])).size, failed: faults.length, lines };
}

export default { title, run };
