import { lineWays } from '#lines';
import { chance } from '../src/lines/planted/chance.ts';
import { plantedBay } from '../src/lines/planted/planted-bay.ts';
import { worldOfBay } from '../src/lines/planted/solved-bay.ts';
import { firstOfSeeds, plainWays, randomShots, taskOf } from './ways/rivals.ts';

const title = 'ways of one line in medium bays: first way against random shots, five ways against a plain planner';
const BAYS = 15;
const FIRST_SEED = 1000;
const COUNT = 5;
/** Goes of the random shots on each bay: their luck varies. */
const DRAWS = 5;

const cpuMs = (): number => process.cpuUsage().user / 1000;
const middle = (values: readonly number[]): number =>
  [...values].sort((p, q) => p - q)[values.length >> 1] ?? Number.NaN;

/** Median processor time of one planner on every bay, each bay ready: its readings filled by a first go. */
function timed<T>(call: () => T): { ms: number; answer: T } {
  call();
  const from = cpuMs();
  const answer = call();
  return { ms: cpuMs() - from, answer };
}

async function run(): Promise<{ headers: string[]; rows: string[][]; goal: string }> {
  const first = { ours: [] as number[], theirs: [] as number[], missed: 0, unfound: 0 };
  const whole: number[] = [];
  const five = { ours: [] as number[], theirs: [] as number[], cheaper: [] as number[], ourWays: 0, theirWays: 0 };
  for (let seed = FIRST_SEED; seed < FIRST_SEED + BAYS; seed++) {
    const world = worldOfBay(plantedBay('medium', seed));
    const line = world.car.lines[0]!;
    const one = timed(() => firstOfSeeds(taskOf(world)));
    whole.push(timed(() => lineWays(world, line, null, 1)).ms);
    if (one.answer === null) first.unfound++;
    const draws = Array.from({ length: DRAWS }, (_, n) =>
      timed(() => randomShots(taskOf(world), chance(DRAWS * seed + n))),
    );
    first.ours.push(one.ms);
    first.theirs.push(middle(draws.map((shots) => shots.ms)));
    if (draws.some((shots) => shots.answer === null)) first.missed++;
    const ways = timed(() => lineWays(world, line, null, COUNT));
    const plain = timed(() => plainWays(taskOf(world), COUNT));
    five.ours.push(ways.ms);
    five.theirs.push(plain.ms);
    const fitting = ways.answer.filter((way) => way.feasible);
    five.ourWays += fitting.length;
    five.theirWays += plain.answer.length;
    if (fitting[0] !== undefined && plain.answer[0] !== undefined)
      five.cheaper.push(fitting[0].cost / plain.answer[0].cost);
  }
  const [a, b, c, d] = [first.ours, first.theirs, five.ours, five.theirs].map(middle) as [
    number,
    number,
    number,
    number,
  ];
  return {
    headers: ['what', 'ours, CPU ms', 'rival, CPU ms', 'ours / rival', 'remarks'],
    rows: [
      [
        'first way',
        a.toFixed(0),
        b.toFixed(0),
        (a / b).toFixed(2),
        `the planner's seeds in turn; none in ${first.unfound}, shots none in ${first.missed} of ${BAYS} bays`,
      ],
      ['best way, judged', middle(whole).toFixed(0), '-', '-', 'what `ways --count 1` does'],
      [
        'five ways',
        c.toFixed(0),
        d.toFixed(0),
        (c / d).toFixed(2),
        `best of five costs ${middle(five.cheaper).toFixed(3)} of the plain planner's best; ${five.ourWays} ways against ${five.theirWays} in ${BAYS} bays`,
      ],
    ],
    goal: 'first way at most a third of random shots; five ways at most 400 ms (aim 250) at no more cost',
  };
}

export default { title, run };
