import { flowOf, heatOf } from '#answers';
import type { Car } from '#car';
import { type HeatAnswer, type HeatMemory, newHeatMemory } from '#heat';
import { linesWorld } from '#lines';
import { demoMeshes, takenDemo } from '../test/heat/demo-bay.ts';

const title = "heat: the demo's lines at 4 cases with the soak, anew and after one part has moved";
/** Idling hot, full load, the longest corner, and switched off. */
const CASES = ['idle-hot', 'full-load', 'longest-corner', 'switched-off'];
/** A part is moved so far and back. */
const BY_MM = 15;

const cpuS = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
};

function moved(car: Car, part: string, mm: number): Car {
  return {
    ...car,
    parts: car.parts.map((row) => {
      if (row.id !== part) return row;
      const shapes = row.shapes.map((shape) => {
        const [x, y, z] = shape.atMm ?? [0, 0, 0];
        return { ...shape, atMm: [x, y, z + mm] as [number, number, number] };
      });
      return { ...row, shapes };
    }),
  };
}

/** Hottest outside of each line in each case [degC]. */
const hottest = ({ cases }: HeatAnswer): Map<string, number> =>
  new Map(cases.flatMap(({ case: at, lines }) => lines.map((row) => [`${at.id} ${row.line}`, row.worst.surfaceC])));

function apart(a: HeatAnswer, b: HeatAnswer): number {
  const other = hottest(b);
  return Math.max(...[...hottest(a)].map(([key, c]) => Math.abs(c - other.get(key)!)));
}

async function run(): Promise<{ headers: string[]; rows: string[][]; goal: string }> {
  const whole = takenDemo();
  const car = { ...whole, cases: whole.cases!.filter(({ id }) => CASES.includes(id)) };
  const meshes = await demoMeshes(car);
  const world = linesWorld(car, meshes);
  const flow = flowOf(world, []);
  const rows: string[][] = [];
  const timed = <T>(what: string, work: () => T, told: (answer: T) => string): T => {
    const [cpu, wall] = [cpuS(), performance.now()];
    const answer = work();
    rows.push([what, (cpuS() - cpu).toFixed(2), ((performance.now() - wall) / 1000).toFixed(2), told(answer)]);
    return answer;
  };
  const lines = (answer: HeatAnswer): string =>
    `${answer.cases.length} cases, ${answer.cases[0]!.lines.length} lines, ${answer.rays.patches} patches, ${answer.rays.raysShot} rays`;
  timed('anew', () => heatOf(world, [], { flow }), lines);
  const first = newHeatMemory();
  timed('anew, kept for the next time', () => heatOf(world, [], { flow, memory: first }), lines);
  for (const part of ['header', 'turbine', 'catch-tank']) {
    const after = moved(car, part, BY_MM);
    const next = linesWorld(after, meshes, world);
    const kept = (): HeatMemory => ({ traced: new Map(first.traced), ran: new Map(first.ran) });
    const wish = { flow, caseId: 'full-load' };
    const one = timed(
      `${part} moved ${BY_MM} mm: full load`,
      () => heatOf(next, [], { ...wish, memory: kept() }),
      lines,
    );
    rows.at(-1)![3] += `; ${apart(one, heatOf(next, [], wish)).toFixed(3)} K from anew`;
    timed(`${part} moved ${BY_MM} mm: all 4 cases`, () => heatOf(next, [], { flow, memory: kept() }), lines);
  }
  return {
    headers: ['what', 'cpu s', 'wall s', 'of it'],
    rows,
    goal: "the demo's lines at 4 cases in <= 10 s on 2 cores (one thread here); a moved part <= 1 s",
  };
}

export default { title, run };
