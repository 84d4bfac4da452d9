import { planCar, wayAlone } from '#answers';
import { jointBay } from '../src/lines/planted/joint-bay.ts';
import { linePairFaults } from '../src/lines/planted/line-pair-faults.ts';
import { worldOfBay } from '../src/lines/planted/solved-bay.ts';

const title = 'thirty lines planned together, one thread';
const LINES = 30;
const THINGS = 8;

const cpuMs = (): number => process.cpuUsage().user / 1000;

async function run(): Promise<{ headers: string[]; rows: string[][]; goal: string }> {
  const bay = jointBay(LINES, THINGS, 1);
  const world = worldOfBay(bay);
  let from = cpuMs();
  const alone = new Map(world.car.lines.map((line) => [line.id, wayAlone(world, line).cost]));
  const aloneMs = cpuMs() - from;
  const fresh = worldOfBay(bay);
  from = cpuMs();
  const planned = planCar(fresh);
  const ms = cpuMs() - from;
  const taken = planned.lines.filter((line) => line.taken !== null);
  const conflicts = linePairFaults(new Map(taken.map((line) => [line.line, line.taken!.bodies])), 3);
  const sum = (costs: readonly number[]): number => costs.reduce((s, c) => s + c, 0);
  const ratio = sum(taken.map((line) => line.taken!.cost)) / sum(taken.map((line) => alone.get(line.line)!));
  return {
    headers: ['what', 'lines', 'CPU s', 'conflicts', 'taken up again', 'cost against alone'],
    rows: [
      ['each alone', String(LINES), (aloneMs / 1000).toFixed(1), '-', '-', '1'],
      [
        'together',
        `${taken.length} of ${LINES}`,
        (ms / 1000).toFixed(1),
        String(conflicts.length),
        String(planned.takenUp),
        ratio.toFixed(3),
      ],
    ],
    goal: '0 conflicts on the drawn bodies, at most 1.05 of the cost, 30 s on 2 cores (aim 20)',
  };
}

export default { title, run };
