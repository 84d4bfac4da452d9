import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { compareCars, planCar } from '#answers';
import { type Car, carFrom } from '#car';
import { linesWorld } from '#lines';
import { carInput } from './car-input.ts';
import { crewCompared, crewPlan } from './crew.ts';
import { KeptAnswers } from './kept-answers.ts';

/** Heights of ports across two blocks that face each other: two pairs, far from each other. */
const PORTS_MM = [0, 55, 400, 455];
/** Each pair is joined crosswise, so that its second line must go round its first. */
const JOINED = [
  [0, 1],
  [2, 3],
  [1, 0],
  [3, 2],
];

function crossed() {
  const block = (id: string, minX: number, faceX: number, faces: number) => ({
    id,
    class: 'fixed',
    shapes: [{ box: { minMm: [minX, -60, 0], maxMm: [minX + 60, 520, 80] } }],
    ports: PORTS_MM.map((y, n) => ({
      id: `p${n}`,
      atMm: [faceX, y, 40],
      faces: [faces, 0, 0],
      end: { type: 'orb', dash: 6 },
    })),
  });
  const read = carFrom({
    fairlead: 1,
    parts: [block('left', 0, 60, 1), block('right', 560, 560, -1)],
    lines: JOINED.map(([from, to], n) => ({
      id: `L${n}`,
      from: `left.p${from}`,
      to: `right.p${to}`,
      duty: 'oil-pressure',
      dash: 6,
      state: 'planned',
    })),
  });
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.car;
}

describe('all lines planned by several threads', () => {
  it('second: one thread and two come to the same plan, to the last digit, whoever works lines out ahead', async () => {
    const input = carInput(crossed(), new Map());
    const here = planCar(linesWorld(input.car, new Map()));
    const [one, two] = await Promise.all([1, 2].map((hands) => crewPlan(input, () => true, { hands })));
    expect(here.lines.every(({ taken }) => taken !== null)).toBe(true);
    expect(JSON.stringify(one!.planned)).toBe(JSON.stringify(here));
    expect(JSON.stringify(two!.planned)).toBe(JSON.stringify(here));
  });

  it('second: a plan that is called off while it is worked out says so, and its threads end', async () => {
    let told = 0;
    const answer = await crewPlan(carInput(crossed(), new Map()), () => ++told < JOINED.length + 2, { hands: 2 });
    expect(answer.planned.stopped).toBe(true);
  });
});

/** Two tanks with two straight hoses; the second tank's upper port may stand elsewhere. */
function rig(secondAtMm: readonly [number, number, number], dash = 8): Car {
  const port = (id: string, atMm: readonly number[], faces: readonly number[]) => ({
    id,
    atMm,
    faces,
    end: { type: 'flare37-male', dash: 8 },
  });
  const tank = (id: string, minX: number, ports: readonly object[]) => ({
    id,
    class: 'fixed',
    knownToMm: 1,
    shapes: [{ box: { minMm: [minX, 0, 0], maxMm: [minX + 100, 100, 100] } }],
    ports,
  });
  const line = (n: number) => ({
    id: `W${n}`,
    from: `a.p${n}`,
    to: `b.p${n}`,
    duty: 'water',
    dash: n === 2 ? dash : 8,
    hose: 'rubber-braid-8',
    state: 'planned',
  });
  const read = carFrom({
    fairlead: 1,
    parts: [
      tank('a', 0, [port('p1', [100, 20, 20], [1, 0, 0]), port('p2', [100, 80, 80], [1, 0, 0])]),
      tank('b', 800, [port('p1', [800, 20, 20], [-1, 0, 0]), port('p2', secondAtMm, [-1, 0, 0])]),
    ],
    lines: [line(1), line(2)],
  } as never);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.car;
}

const input = (car: Car) => carInput(car, new Map());
const before = rig([800, 80, 80]);
const after = rig([760, 80, 80]);

describe('two cars compared, and plans kept from one run to the next', () => {
  let folder = '';
  beforeAll(() => void (folder = mkdtempSync(join(tmpdir(), 'fairlead-crew-'))));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const keptIn = (name: string) => new KeptAnswers(join(folder, name));
  const compared = (wish: Parameters<typeof crewCompared>[3], to = after) =>
    crewCompared(input(before), input(to), () => true, wish);

  it('second: one thread, two, the calling one and what was kept come to the same, to the last digit', async () => {
    const here = compareCars(linesWorld(before, new Map()), linesWorld(after, new Map()));
    // hand: only W2's port moved, 40 mm nearer: more than the allowance of its cut length
    expect(here.comparison.lines.map((row) => [row.line, row.verdict])).toEqual([
      ['W1', 'keep'],
      ['W2', 'remake'],
    ]);
    const one = await compared({ hands: 1 });
    const two = await compared({ hands: 2, kept: keptIn('all') });
    const again = await compared({ kept: keptIn('all') });
    for (const answer of [one, two, again]) {
      const { keptAt: _, first: __, ...found } = answer!;
      expect(JSON.stringify(found)).toBe(JSON.stringify(here));
    }
    expect([one, two, again].map((answer) => Object.keys(answer!.keptAt))).toEqual([[], [], ['first', 'second']]);
  });

  it('second: a kept plan is the one that planning gives, and nothing is worked out for it', async () => {
    const { keptAt, ...found } = await crewPlan(input(before), () => expect.unreachable(), { kept: keptIn('all') });
    expect(keptAt).toBeInstanceOf(Date);
    expect(JSON.stringify(found.planned)).toBe(JSON.stringify(planCar(linesWorld(before, new Map()))));
  });

  it('second: of another line only that line is worked out anew, and the plan is the one made without', async () => {
    const other = { ...before, lines: [before.lines[0]!, { ...before.lines[1]!, temperatureC: 90 }] };
    const alone: number[] = [];
    const told = (part: string, done: number): boolean => part !== 'alone' || alone.push(done) > 0;
    const plan = await crewPlan(input(other), told, { kept: keptIn('all'), hands: 1 });
    expect([plan.keptAt, alone]).toEqual([undefined, [1, 2]]);
    expect(JSON.stringify(plan.planned)).toBe(JSON.stringify(planCar(linesWorld(other, new Map()))));
  });

  it('hand: a plan that was cut off is not kept, and cars compared on half of one are no answer', async () => {
    const untilTogether = (part: string): boolean => part === 'alone';
    const cut = await crewPlan(input(before), untilTogether, { kept: keptIn('cut'), hands: 1 });
    expect(cut.planned.stopped).toBe(true);
    // The two ways worked out are whole; the plan is not among what is kept.
    expect(readdirSync(join(folder, 'cut')).length).toBe(2);
    const half = await crewCompared(input(before), input(rig([780, 80, 80])), (car) => car === 'first', {
      hands: 1,
      kept: keptIn('all'),
    });
    expect(half).toBeNull();
  });
});
