import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Car } from '#car';
import { type CarInput, carInput, type CrewCompared, crewCompared, KeptAnswers } from '#crew';
import { loadCarMeshes } from '#intake';
import { changedCar, demoCar, demoEvents } from '../scripts/make-demo-events.ts';
import { shapeDistance } from '../test/shape-distance.ts';

const title = 'the ten changes of the demo car, compared on real plans, against what each change says by itself';
const demo = fileURLToPath(new URL('../demo/', import.meta.url));

/** What a change must do to the lines, read off its own words and the ports that the fact sheet gives each line. */
interface Expected {
  /** Other ports, size, material or course are asked for: these cannot stay. */
  readonly remake: readonly string[];
  /** A port of theirs moves a little: a hose may follow. */
  readonly mayFollow?: readonly string[];
  /** A port of theirs is gone. */
  readonly scrap: readonly string[];
  /** Parts that stand or are otherwise, and what they may want clear of them [mm]: a line nearer may have to be made anew. */
  readonly parts?: Readonly<Record<string, number>>;
}

/** Fixed structure wants 6 mm; a shielded turbine 50. */
const expected: readonly Expected[] = [
  { remake: ['O10', 'O11'], scrap: [] },
  { remake: ['C7'], mayFollow: ['C3', 'C4', 'C5'], scrap: [], parts: { header: 6 } },
  { remake: ['O1'], scrap: [] },
  { remake: ['O7'], mayFollow: ['O8', 'C6', 'C7'], scrap: [], parts: { turbo: 100 } },
  { remake: [], scrap: [], parts: { turbine: 50 } },
  { remake: ['O2', 'O3'], scrap: [], parts: { filter: 6, 'filter-canister': 6 } },
  { remake: ['C1', 'C2'], scrap: [] },
  {
    remake: [],
    scrap: 'O1 O2 O3 O4 O5 O6 O7 O8 O9 O11 O13 C1 C2 C3 C4 C6 C7 F3 F4 A1 A2 A3 H1'.split(' '),
  },
  { remake: [], scrap: ['O2', 'O3'] },
  { remake: [], scrap: ['O7', 'O8', 'C6', 'C7', 'A1', 'A3'] },
];

const linesInAll = 31;

/** What is wrong with an answer, in words; by means that share nothing with the planner but the drawn bodies. */
function faultsOf(want: Expected, to: Car, answer: CrewCompared): string[] {
  const { lines, buy, surplus, withoutWay } = answer.comparison;
  const verdict = new Map(lines.map((row) => [row.line, row]));
  const of = (which: string): string[] => lines.filter((row) => row.verdict === which).map((row) => row.line);
  const faults: string[] = [];
  if (verdict.size !== linesInAll) faults.push(`${verdict.size} verdicts, ${linesInAll} lines`);
  if ([...of('scrap')].sort().join() !== [...want.scrap].sort().join()) faults.push(`scrap ${of('scrap').join(' ')}`);
  for (const id of want.remake) if (verdict.get(id)?.verdict !== 'remake') faults.push(`${id} is not remade`);
  for (const id of of('remake')) {
    if (want.remake.includes(id) || want.mayFollow?.includes(id) === true) continue;
    const why = verdict.get(id)?.why ?? '';
    const maker = /^it makes way for (\w+)/u.exec(why)?.[1];
    if (maker !== undefined && want.remake.includes(maker)) continue;
    if (!isNearChanged(id, want, to, answer))
      faults.push(`${id} is remade, and nothing of the change is near it: ${why}`);
  }
  if (of('new').length > 0 && want.parts === undefined) faults.push(`new ${of('new').join(' ')}`);
  // Parts go to and come from lines that are made otherwise, no others.
  const moved = new Set([...of('remake'), ...of('new'), ...of('scrap')].filter((id) => !withoutWay.includes(id)));
  for (const place of [...buy.flatMap((row) => row.usedIn), ...surplus.flatMap((row) => row.from)])
    if (!moved.has(place.split(' ')[0]!)) faults.push(`parts of a line that stays: ${place}`);
  return faults;
}

/** Does the line, as first planned, come as near to a changed part as that may want? By points of its drawn bodies. */
function isNearChanged(id: string, { parts = {} }: Expected, to: Car, answer: CrewCompared): boolean {
  const was = answer.first.lines.find((row) => row.line === id)?.taken;
  return Object.entries(parts).some(([partId, mm]) => {
    const shapes = to.parts.find((part) => part.id === partId)?.shapes ?? [];
    return was?.bodies.some((body) =>
      body.pathMm.some((at) =>
        shapes.some((shape) => shapeDistance(at as [number, number, number], shape) - body.odMm / 2 < mm + 2),
      ),
    );
  });
}

async function run(
  watch: (done: number, total: number) => boolean,
): Promise<{ passed: number; failed: number; lines: string[] }> {
  const folder = mkdtempSync(join(tmpdir(), 'fairlead-events-'));
  const base = demoCar();
  const inputOf = async (car: Car): Promise<CarInput> => {
    const { meshes, faults } = await loadCarMeshes(car, demo);
    if (faults.length > 0) throw new Error(`prove: ${faults.join('; ')}`);
    return carInput(car, meshes);
  };
  const out: string[] = [];
  let failed = 0;
  try {
    const kept = new KeptAnswers(folder);
    const from = await inputOf(base);
    for (const [n, event] of demoEvents.entries()) {
      const car = changedCar(base, event);
      const start = performance.now();
      const answer = await crewCompared(from, await inputOf(car), () => true, { kept });
      const faults = answer === null ? ['called off'] : faultsOf(expected[n]!, car, answer);
      if (faults.length > 0) failed++;
      const count = (which: string): number =>
        answer?.comparison.lines.filter((row) => row.verdict === which).length ?? 0;
      out.push(
        `${faults.length === 0 ? 'ok' : 'FAILED'}: ${event.file}: keep ${count('keep')}, remake ${count('remake')}, scrap ${count('scrap')}, new ${count('new')}; ` +
          `no way for ${answer?.comparison.withoutWay.join(' ') || 'none'}; ${((performance.now() - start) / 1000).toFixed(0)} s`,
        ...faults.map((fault) => `  ${fault}`),
      );
      watch(n + 1, demoEvents.length);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return { passed: demoEvents.length - failed, failed, lines: out };
}

export default { title, run };
